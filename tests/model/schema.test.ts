import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { jsonSchemas } from '../../src/model/index.ts';
import { projectFolder } from '../helpers/content.ts';
import { FITS } from './fit-content.ts';
import { SMALL } from './small-content.ts';

const FILES: readonly (readonly [kind: string, path: string])[] = [
  ['book', 'book.yaml'],
  ['options', 'options.yaml'],
  ['conditions', 'conditions.yaml'],
  ['panel', 'panels/roof.yaml'],
  ['signals', 'signals.yaml'],
  ['claims', 'claims.yaml'],
  ['sources', 'sources.yaml'],
];

describe('the JSON Schema of', () => {
  it.each(FILES)('%s accepts good content and refuses a key that is not known', (kind, path) => {
    const schema = z.fromJSONSchema(jsonSchemas()[kind] as Parameters<typeof z.fromJSONSchema>[0]);
    const good: unknown = parse(SMALL[path] ?? '');
    expect(schema.safeParse(good).error).toBeUndefined();
    const bad = Array.isArray(good) ? [{ ...good[0], 'no-such-key': 1 }] : { ...(good as object), 'no-such-key': 1 };
    expect(schema.safeParse(bad).success).toBe(false);
  });
});

describe('the JSON Schemas', () => {
  const content = join(projectFolder, 'content');
  const files = readdirSync(content, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => path.endsWith('.yaml'))
    .sort();
  const kindOf = (path: string): string =>
    path.includes('/') ? path.replace(/s\/.*$/, '') : path.replace('.yaml', '');
  const accepts = (kind: string, value: unknown): boolean => {
    const schema = jsonSchemas()[kind];
    if (schema === undefined) throw new Error(`no schema for ${kind}`);
    return z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]).safeParse(value).success;
  };

  it('accept every file of the demo, and none of another kind', () => {
    expect(files.length).toBeGreaterThan(6);
    for (const path of files) {
      const value: unknown = parse(readFileSync(join(content, path), 'utf8'));
      for (const kind of new Set(files.map(kindOf)))
        expect(accepts(kind, value), `${path} as ${kind}`).toBe(kind === kindOf(path));
    }
  });

  it.each(Object.keys(FITS).filter((path) => path.endsWith('.yaml')))(
    'accept %s of the content with many fits',
    (path) => {
      expect(accepts(kindOf(path), parse(FITS[path] ?? '', { schema: 'core' }))).toBe(true);
    },
  );

  it.each([
    ['panel', 'panels/roof.yaml', 'guarded: true', 'guarded: guarded'],
    ['panel', 'panels/roof.yaml', 'returns: 0', 'return: 0'],
    ['panel', 'panels/roof.yaml', 'legend: OUT', 'legends: OUT'],
    ['panel', 'panels/roof.yaml', 'formerly: [toggle]', 'formerly: toggle'],
    ['options', 'options.yaml', 'requires: mount', 'require: mount'],
    ['options', 'options.yaml', 'formerly: [lower]', 'formerly: []'],
  ])('refuse a %s file in which %s says %j as %j', (kind, path, from, to) => {
    const text = FITS[path] ?? '';
    expect(text).toContain(from);
    expect(accepts(kind, parse(text.replace(from, to), { schema: 'core' }))).toBe(false);
  });

  it('accept every file of the behaviours, which use all that can be said', () => {
    const behaviours = join(projectFolder, 'tests', 'behaviours');
    const paths = readdirSync(behaviours, { recursive: true, encoding: 'utf8' })
      .map((path) => path.replaceAll('\\', '/'))
      .filter((path) => /\/content\/.*\.yaml$/.test(path))
      .sort();
    const kinds = paths.map((path) => kindOf(path.replace(/^.*\/content\//, '')));
    expect(kinds).toEqual(
      expect.arrayContaining(['panel', 'conditions', 'signals', 'overrides', 'timelines', 'queries']),
    );
    paths.forEach((path, at) => {
      const value: unknown = parse(readFileSync(join(behaviours, path), 'utf8'), { schema: 'core' });
      expect(accepts(kinds[at] ?? '', value), path).toBe(true);
    });
  });

  it.each([
    ['note', 'notes'],
    ['tour', 'tours'],
    ['notice', 'notices'],
  ])('accept the heading block of every %s of the demo', (kind, folder) => {
    const paths = readdirSync(join(content, folder), { recursive: true, encoding: 'utf8' }).filter((path) =>
      path.endsWith('.md'),
    );
    expect(paths.length).toBeGreaterThan(0);
    for (const path of paths) {
      const block = readFileSync(join(content, folder, path), 'utf8').split(/^---$/m)[1];
      expect(accepts(`${kind}-front-matter`, parse(block ?? '')), path).toBe(true);
    }
  });

  it.each([
    ['book', 'book.yaml', (book: Record<string, unknown>) => ({ ...book, date: 'May' })],
    ['book', 'book.yaml', ({ title: _, ...book }: Record<string, unknown>) => book],
    ['sources', 'sources.yaml', (sources: Record<string, unknown>) => ({ ...sources, 'D 2': sources['D-1'] })],
    ['options', 'options.yaml', (options: Record<string, unknown>) => ({ ...options, Upper: options['lamp-control'] })],
  ])('refuse a %s file with a mistake in %s', (kind, path, spoil) => {
    const good = parse(SMALL[path] ?? '', { schema: 'core' }) as Record<string, unknown>;
    expect(accepts(kind, good)).toBe(true);
    expect(accepts(kind, spoil(good))).toBe(false);
  });
});
