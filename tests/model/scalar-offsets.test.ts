import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isScalar, parseDocument, type YAMLMap } from 'yaml';
import { type MappedScalar, mapScalar, type ScalarStyle } from '../../src/model/scalar-offsets.ts';

const STYLES: Readonly<Record<string, ScalarStyle>> = {
  PLAIN: 'plain',
  QUOTE_SINGLE: 'single',
  QUOTE_DOUBLE: 'double',
  BLOCK_LITERAL: 'literal',
  BLOCK_FOLDED: 'folded',
};

/** The first value of a mapping, as the YAML parser reads it and as it is mapped here. */
function map(text: string): { readonly parsed: string; readonly mapped: MappedScalar } | undefined {
  const document = parseDocument(text, { keepSourceTokens: true, logLevel: 'silent' });
  const node = (document.contents as YAMLMap | null)?.items[0]?.value;
  if (document.errors.length > 0 || !isScalar(node) || typeof node.value !== 'string' || !node.range) return undefined;
  const [start, end] = node.range;
  const style = STYLES[node.type ?? ''] as ScalarStyle;
  const parentIndent = (node.srcToken as { indent?: number } | undefined)?.indent ?? 0;
  return { parsed: node.value, mapped: mapScalar({ text, start, end, style, parentIndent }) };
}

function expectFaithful(text: string): void {
  const result = map(text);
  if (result === undefined) return;
  const { parsed, mapped } = result;
  expect(mapped.value).toBe(parsed);
  expect(mapped.offsets).toHaveLength(parsed.length + 1);
  mapped.offsets.forEach((offset, index) => {
    expect(offset).toBeGreaterThanOrEqual(mapped.offsets[index - 1] ?? 0);
    expect(offset).toBeLessThanOrEqual(text.length);
    const want = parsed[index];
    if (want === undefined) return;
    const there = text[offset];
    const folded = (want === ' ' || want === '\n') && (there === '\n' || there === '\r' || there === undefined);
    expect(there === want || there === '\\' || folded, `${JSON.stringify(text)} at ${index}`).toBe(true);
  });
}

/** The source from the first character of `words` in the value to the last. */
function underlined(text: string, words: string): string {
  const { parsed, mapped } = map(text) ?? { parsed: '', mapped: { value: '', offsets: [] } };
  const from = parsed.indexOf(words);
  expect(from).toBeGreaterThanOrEqual(0);
  return text.slice(mapped.offsets[from], (mapped.offsets[from + words.length - 1] ?? 0) + 1);
}

describe('mapScalar', () => {
  it.each([
    ['plain', 'when: logo is ON\n'],
    ['plain over lines', 'when: slats are out\n  and\n  logo is ON\n'],
    ['plain over lines with CRLF', 'when: slats are out\r\n  and\r\n\r\n  logo is ON\r\n'],
    ['single-quoted', "when: 'it''s on and logo is ON'\n"],
    ['single-quoted over lines', "when: 'slats are out   \n\n\n   and logo is ON'\n"],
    ['double-quoted with escapes', 'when: "a\\tb \\u00e9 \\U0001F600 \\x41 and logo is ON"\n'],
    ['double-quoted with an escaped break', 'when: "slats are out \\\n     and logo is ON"\n'],
    ['double-quoted with CRLF', 'when: "slats are out\r\n\r\n  and logo is ON"\r\n'],
    ['literal', 'when: |\n  slats are out\n    and logo is ON\n'],
    ['literal with CRLF', 'when: |\r\n  slats are out\r\n  and logo is ON\r\n'],
    ['literal with an indentation indicator', 'when: |2-\n    slats are out\n  and logo is ON\n'],
    ['folded', 'when: >\n  slats are out\n  and\n\n  logo is ON\n'],
    ['folded with more-indented lines', 'when: >+\n\n  slats\n    are\n  out and\n  logo is ON\n\n'],
    ['folded without a last line break', 'when: >-\n  slats are out and\n  logo is ON'],
    ['folded after a comment', 'when: > # why\n  slats are out and\n  logo is ON'],
  ])('finds words in a scalar that is %s', (_, text) => {
    expectFaithful(text);
    expect(underlined(text, 'logo is ON')).toBe('logo is ON');
  });

  const word = fc.constantFrom(
    'a',
    'logo',
    'é',
    '😀',
    'x:y',
    '#z',
    '-',
    '"',
    "'",
    "''",
    '\\n',
    '\\x41',
    '\\',
    '>',
    '\t',
  );
  const blank = fc.constantFrom(
    ' ',
    '  ',
    '\n  ',
    '\r\n  ',
    '\n\n  ',
    '\n   \n  ',
    '\n    ',
    '\n\t',
    '\\\n  ',
    ' \n  ',
  );
  const piece = fc.oneof({ weight: 2, arbitrary: word }, blank);
  const content = fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join(''));

  it.each([
    ['plain', (text: string) => `k: ${text}`],
    ['single-quoted', (text: string) => `k: '${text}'`],
    ['double-quoted', (text: string) => `k: "${text}"`],
    ['literal', (text: string) => `k: |\n  ${text}\n`],
    ['literal, kept', (text: string) => `k: |+\n  ${text}\n\n`],
    ['folded', (text: string) => `k: >\n  ${text}\nz: 1\n`],
    ['folded, stripped', (text: string) => `k: >-\n  ${text}`],
    ['folded, kept, indented by hand', (text: string) => `k: >2+\n  ${text}\n   \n`],
  ])('agrees with the YAML parser on any %s scalar', (_, wrap) => {
    fc.assert(
      fc.property(content, (text) => {
        expectFaithful(wrap(text));
      }),
      { numRuns: 500 },
    );
  });
});
