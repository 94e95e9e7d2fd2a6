import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { jsonSchemas } from '../../src/model/index.ts';
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
