import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cruise } from 'dependency-cruiser';
import extractTsConfig from 'dependency-cruiser/config-utl/extract-ts-config';
import { describe, expect, test } from 'vitest';
import rules, { mayImport } from '../.dependency-cruiser.mjs';
import { temporaryFolder, writeFiles } from './helpers/temporary-folder.ts';

const { tsConfig: _, ...options } = rules.options ?? {};
const tsConfig = extractTsConfig(join(import.meta.dirname, '..', 'tsconfig.json'));

/** The names of the rules that a small project breaks. */
async function broken(files: Readonly<Record<string, string>>): Promise<string[]> {
  const folder = temporaryFolder();
  writeFiles(folder, {
    'package.json': '{"name":"small","type":"module","devDependencies":{"left":"1.0.0"}}',
    ...files,
  });
  const { output } = await cruise(
    ['src', 'tests'].filter((name) => Object.keys(files).some((path) => path.startsWith(`${name}/`))),
    { ...options, baseDir: folder, ruleSet: { forbidden: rules.forbidden ?? [] }, validate: true },
    undefined,
    { tsConfig },
  );
  if (typeof output === 'string') throw new Error(output);
  return [...new Set(output.summary.violations.map(({ rule }) => rule.name))].sort();
}

const nothing = 'export const nothing = 0;\n';

describe('an import is refused', () => {
  test('against the flow', async () => {
    const files = { 'src/book/index.ts': nothing, 'src/model/index.ts': "import '../book/index.ts';\n" };
    expect(await broken(files)).toEqual(['model-imports-only-what-comes-before-it']);
  });
  test('of a type alone', async () => {
    const files = {
      'src/cli/index.ts': 'export type T = 1;\n',
      'src/book/index.ts': "export type { T } from '../cli/index.ts';\n",
    };
    expect(await broken(files)).toEqual(['book-imports-only-what-comes-before-it']);
  });
  test('past the index of a folder', async () => {
    const files = {
      'src/logic/index.ts': nothing,
      'src/logic/apply.ts': nothing,
      'src/compile/index.ts': "import '../logic/apply.ts';\n",
    };
    expect(await broken(files)).toEqual(['one-way-in']);
  });
  test('of anything, in logic', async () => {
    const files = { 'src/diagnostics/index.ts': nothing, 'src/logic/index.ts': "import '../diagnostics/index.ts';\n" };
    expect(await broken(files)).toEqual(['logic-imports-nothing', 'logic-imports-only-what-comes-before-it']);
  });
  test('of Node, in the pure core', async () => {
    expect(await broken({ 'src/book/index.ts': "import 'node:fs';\n" })).toEqual(['no-node-in-the-pure-core']);
    expect(await broken({ 'src/cli/index.ts': "import 'node:fs';\n" })).toEqual([]);
  });
  test('of a test', async () => {
    const files = { 'tests/help.ts': nothing, 'src/cli/index.ts': "import '../../tests/help.ts';\n" };
    expect(await broken(files)).toEqual(['src-never-imports-tests-or-scripts']);
  });
  test('in a circle', async () => {
    const files = { 'src/logic/index.ts': "import './b.ts';\n", 'src/logic/b.ts': "import './index.ts';\n" };
    expect(await broken(files)).toEqual(['no-cycles']);
  });
  test('of what is installed for development only', async () => {
    const files = {
      'node_modules/left/package.json': '{"name":"left","version":"1.0.0","main":"index.js"}',
      'node_modules/left/index.js': nothing,
      'src/cli/index.ts': "import 'left';\n",
    };
    expect(await broken(files)).toEqual(['src-needs-real-dependencies']);
  });
  test('of src, by the interpreters of the oracle', async () => {
    const files = { 'src/logic/index.ts': nothing, 'tests/oracle/oracle.ts': "import '../../src/logic/index.ts';\n" };
    expect(await broken(files)).toEqual(['the-oracle-is-independent']);
  });
  test('by a folder without a place in the flow', async () => {
    const files = { 'src/logic/index.ts': nothing, 'src/more/index.ts': "import '../logic/index.ts';\n" };
    expect(await broken(files)).toEqual(['every-folder-of-src-is-known']);
  });
});

test('an import along the flow is allowed', async () => {
  const files = { 'src/logic/index.ts': nothing, 'src/compile/index.ts': "import '../logic/index.ts';\n" };
  expect(await broken(files)).toEqual([]);
});

// The cruiser does not read .astro files; their imports are few and of one form.
test('pages, layouts and components import only from the site and through the index of what comes before it', () => {
  const source = join(import.meta.dirname, '..', 'src');
  const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.astro'));
  expect(files.length).toBeGreaterThan(0);
  const site = /^\.\.?\/(?:pages|layouts|components|styles|islands)\/|^\.\//;
  const index = new RegExp(`^\\.\\./(?:${mayImport.site.join('|')})/index\\.ts$`);
  for (const file of files) {
    const imports = [...readFileSync(join(source, file), 'utf8').matchAll(/^import .*?['"](.+?)['"];?$/gm)].map(
      ([, from]) => from!,
    );
    const own = imports.filter((from) => from.startsWith('.'));
    expect(
      own.filter((from) => !site.test(from) && !index.test(from)),
      file,
    ).toEqual([]);
    const others = imports.filter((from) => !from.startsWith('.'));
    expect(
      others.filter((from) => from !== 'virtual:switchleaf/book' && !from.startsWith('@fontsource')),
      file,
    ).toEqual([]);
  }
});
