/** Whatever is done to the content, the tool answers with diagnostics that can be printed, and never throws. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { makeBook } from '../../src/book/index.ts';
import { compileFleet } from '../../src/compile/index.ts';
import { Diagnostics, formatAll, type SourceFile, severityOf } from '../../src/diagnostics/index.ts';
import { isContentPath, readFleet } from '../../src/model/index.ts';
import { smallFleet } from '../helpers/content.ts';

const files: readonly SourceFile[] = readdirSync(smallFleet, { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => isContentPath(path))
  .sort()
  .map((path) => ({ path, text: readFileSync(join(smallFleet, path), 'utf8') }));

/** One piece of damage at a place in a text, both given as fractions or small numbers that fast-check shrinks. */
type Damage = (text: string, at: number) => string;
const lineAt = (text: string, at: number): { start: number; end: number } => {
  const start = text.lastIndexOf('\n', at - 1) + 1;
  const end = text.indexOf('\n', at);
  return { start, end: end < 0 ? text.length : end + 1 };
};
const DAMAGES: Readonly<Record<string, Damage>> = {
  'a line removed': (text, at) => text.slice(0, lineAt(text, at).start) + text.slice(lineAt(text, at).end),
  'a line doubled': (text, at) => {
    const { start, end } = lineAt(text, at);
    return text.slice(0, end) + text.slice(start, end) + text.slice(end);
  },
  'a line indented': (text, at) => `${text.slice(0, lineAt(text, at).start)}  ${text.slice(lineAt(text, at).start)}`,
  'a character removed': (text, at) => text.slice(0, at) + text.slice(at + 1),
  'a word removed': (text, at) => text.slice(0, at) + text.slice(at).replace(/[\w-]+/, ''),
  'a word changed': (text, at) => text.slice(0, at) + text.slice(at).replace(/[\w-]+/, 'neverheardof'),
  'and turned to or': (text, at) => text.slice(0, at) + text.slice(at).replace(' and ', ' or '),
  'a quotation mark': (text, at) => `${text.slice(0, at)}"${text.slice(at)}`,
  'a bracket': (text, at) => `${text.slice(0, at)}(${text.slice(at)}`,
  'a brace': (text, at) => `${text.slice(0, at)}{${text.slice(at)}`,
  'a colon': (text, at) => `${text.slice(0, at)}: ${text.slice(at)}`,
  'a tab': (text, at) => `${text.slice(0, at)}\t${text.slice(at)}`,
  'cut short': (text, at) => text.slice(0, at),
};

it('answers every kind of damage with diagnostics, and with none only where a book can be made', () => {
  let refused = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...files),
      fc.constantFrom(...Object.keys(DAMAGES)),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (file, kind, where) => {
        const at = Math.floor(where * file.text.length);
        const text = (DAMAGES[kind] as Damage)(file.text, at);
        const diagnostics = new Diagnostics();
        const fleet = readFleet(
          files.map((each) => (each === file ? { ...file, text } : each)),
          diagnostics,
        );
        const compiled = fleet && compileFleet(fleet, diagnostics);
        const failed = diagnostics.all.some((each) => severityOf(each) === 'error');
        const printed = formatAll(diagnostics.all);
        expect(printed).not.toMatch(/undefined|\[object|NaN/);
        if (failed) refused += 1;
        else expect(compiled && makeBook(compiled).pages.length).toBeGreaterThan(0);
      },
    ),
    { numRuns: 150, seed: 86 },
  );
  expect(refused).toBeGreaterThan(75);
});
