import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Diagnostic,
  Diagnostics,
  explain,
  formatAll,
  formatText,
  inOrder,
  type Place,
  type SourceFile,
  summary,
  toJson,
} from '../../src/diagnostics/index.ts';

const panel: SourceFile = {
  path: 'panels/logo.yaml',
  text: 'rules:\n  - { when: lgoo is ON, then: lit }\n  - { when: lgoo is OFF, then: dark }\n',
};
const claims: SourceFile = { path: 'claims.yaml', text: '- holds: ((lgoo is ON\n' };

/** The n-th occurrence of some words in a file. */
function at(file: SourceFile, words: string, occurrence = 1): Place {
  const start = file.text.split(words, occurrence).join(words).length;
  return { file, start, end: start + words.length };
}

function unknownName(place: Place): Diagnostic {
  return { code: 'SL204', facts: { name: 'lgoo', nearest: 'logo', meant: undefined }, place };
}

const noAircraft: Diagnostic = { code: 'SL101', facts: { path: 'aircraft.csv' } };

test('a diagnostic says what is wrong, where, and what to do', () => {
  expect(formatText(unknownName(at(panel, 'lgoo')))).toBe(
    [
      'SL204 error: An unknown name',
      '  panels/logo.yaml:2:13',
      '  2 |   - { when: lgoo is ON, then: lit }',
      '    |             ~~~~',
      '  Nothing is called "lgoo".',
      '  What to do: Did you mean "logo"? Check the spelling, or define it.',
    ].join('\n'),
  );
});

test('a related place is shown under its label', () => {
  const twice: Diagnostic = {
    code: 'SL110',
    facts: { key: 'then' },
    place: at(panel, 'then', 2),
    related: [{ place: at(panel, 'then'), label: 'first here' }],
  };
  expect(formatText(twice).split('\n').slice(1, -1)).toEqual([
    '  panels/logo.yaml:3:26',
    '  3 |   - { when: lgoo is OFF, then: dark }',
    '    |                          ~~~~',
    expect.stringContaining('then'),
    '  first here: panels/logo.yaml:2:25',
    '  2 |   - { when: lgoo is ON, then: lit }',
    '    |                         ~~~~',
  ]);
});

test('a diagnostic without a file has no place', () => {
  expect(formatText(noAircraft).split('\n')).toEqual([
    'SL101 error: A file is missing',
    expect.stringMatching(/^ {2}.*aircraft\.csv/),
    expect.stringMatching(/^ {2}What to do: /),
  ]);
});

test('all diagnostics of a run are told in order of place, the same mistake in one file once, with a count', () => {
  const found = [
    unknownName(at(panel, 'lgoo', 2)),
    { code: 'SL203', facts: {}, place: at(claims, '(') } as const,
    unknownName(at(panel, 'lgoo')),
    unknownName(at(claims, 'lgoo')),
    noAircraft,
    unknownName(at(panel, 'lgoo')),
  ];
  const text = formatAll(found);
  expect(text.split('\n').filter((line) => /^SL|aml:|^\d/.test(line))).toEqual([
    'SL101 error: A file is missing',
    'SL203 error: A bracket is not closed',
    '  claims.yaml:1:10',
    'SL204 error: An unknown name',
    '  claims.yaml:1:12',
    'SL204 error: An unknown name',
    '  panels/logo.yaml:2:13',
    '  The same at panels/logo.yaml:3:13.',
    '5 errors, 0 warnings',
  ]);
  expect(text).not.toMatch(/ $|\n\n\n/m);
});

test('overlaps of one rule with two others are two mistakes, though they read the same', () => {
  const facts = {
    item: 'Logo lights',
    attribute: '',
    case: 'on the ground',
    aircraft: 'QQ-OAA',
    first: 'lit',
    second: 'dark',
  };
  const overlap = (other: Place): Diagnostic => ({
    code: 'SL402',
    facts,
    place: at(panel, '{', 2),
    related: [{ place: other, label: 'the other rule' }],
  });
  const found = [overlap(at(panel, '{')), overlap(at(claims, 'lgoo')), overlap(at(panel, '{'))];
  expect(inOrder(found)).toHaveLength(2);
  const text = formatAll(found);
  expect(text).toContain('the other rule: panels/logo.yaml:2:5');
  expect(text).toContain('the other rule: claims.yaml:1:12');
  expect(text).not.toContain('The same at');
});

/** Diagnostics that differ in a single respect each, or in none. */
const some = fc.array(
  fc.oneof(
    fc
      .record({ file: fc.constantFrom(panel, claims), start: fc.nat(4), length: fc.nat(3) })
      .chain(({ file, start, length }) => {
        const place = { file, start, end: start + length };
        return fc.constantFrom<Diagnostic>(
          { code: 'SL203', facts: {}, place },
          { code: 'SL204', facts: { name: 'a', nearest: undefined, meant: undefined }, place },
          { code: 'SL204', facts: { name: 'a', nearest: 'b', meant: undefined }, place },
          { code: 'SL110', facts: { key: 'a' }, place },
          { code: 'SL110', facts: { key: 'a' }, place, related: [{ place: at(panel, 'then'), label: 'first here' }] },
        );
      }),
    fc.constantFrom('aircraft.csv', 'book.yaml').map((path): Diagnostic => ({ code: 'SL101', facts: { path } })),
  ),
  { maxLength: 12 },
);

test('the order in which mistakes are found changes nothing', () => {
  fc.assert(
    fc.property(
      some.chain((found) => fc.tuple(fc.constant(found), fc.shuffledSubarray(found, { minLength: found.length }))),
      ([found, shuffled]) => {
        expect(formatAll(shuffled)).toBe(formatAll(found));
        expect(toJson(shuffled)).toEqual(toJson(found));
      },
    ),
    { numRuns: 300 },
  );
});

test('what is reported again adds nothing', () => {
  fc.assert(
    fc.property(some, (found) => {
      expect(formatAll([...found, ...found])).toBe(formatAll(found));
      expect(inOrder(inOrder(found))).toEqual(inOrder(found));
    }),
    { numRuns: 300 },
  );
});

test('colour adds escape sequences and nothing else', () => {
  fc.assert(
    fc.property(some, (found) => {
      const coloured = formatAll(found, { colour: true });
      // The sequences that set how characters look ("SGR", ECMA-48 8.3.117).
      // biome-ignore lint/suspicious/noControlCharactersInRegex: the escape character is what is looked for.
      expect(coloured.replace(/\u001b\[[\d;]*m/g, '')).toBe(formatAll(found));
      expect(coloured.includes('\u001b[')).toBe(found.length > 0);
    }),
    { numRuns: 300 },
  );
});

test('what the author wrote cannot steer the terminal', () => {
  const file = { path: 'a.yaml', text: '\u001b[2Jx' };
  const facts = { name: file.text, nearest: file.text, meant: undefined };
  expect(formatText({ code: 'SL204', facts, place: { file, start: 0, end: 5 } })).not.toContain('\u001b');
});

describe('for programs', () => {
  test('everything is said, with lines and columns from one', () => {
    expect(toJson([unknownName(at(panel, 'lgoo'))])).toEqual([
      {
        code: 'SL204',
        severity: 'error',
        title: 'An unknown name',
        message: 'Nothing is called "lgoo".',
        hint: 'Did you mean "logo"? Check the spelling, or define it.',
        file: 'panels/logo.yaml',
        line: 2,
        column: 13,
        endLine: 2,
        endColumn: 17,
        related: [],
      },
    ]);
  });

  test('what has no place has no line', () => {
    const [only] = toJson([noAircraft]);
    expect(Object.keys(only ?? {})).toEqual(['code', 'severity', 'title', 'message', 'hint', 'related']);
  });

  test('it comes through JSON as it is', () => {
    fc.assert(
      fc.property(some, (found) => {
        expect(JSON.parse(JSON.stringify(toJson(found)))).toEqual(toJson(found));
      }),
      { numRuns: 100 },
    );
  });
});

test('the count tells one from several', () => {
  const warning: Diagnostic = { code: 'SL311', facts: { words: 'the ground' } };
  expect(summary([])).toBe('0 errors, 0 warnings');
  expect(summary([noAircraft, warning])).toBe('1 error, 1 warning');
  expect(summary([noAircraft, noAircraft, warning, warning])).toBe('2 errors, 2 warnings');
});

test('the long text of a code begins with its headline; what is no code has none', () => {
  expect(explain('SL204')).toMatch(/^SL204 error: An unknown name\n\n[A-Z].*\.$/);
  expect(explain('SL000')).toBeUndefined();
  expect(explain('sl204')).toBeUndefined();
  expect(explain('toString')).toBeUndefined();
});

test('a run keeps what is reported, in the order of the reports', () => {
  const diagnostics = new Diagnostics();
  const place = at(panel, 'lgoo');
  diagnostics.report('SL101', { path: 'book.yaml' });
  diagnostics.report('SL203', {}, place, [{ place, label: 'here' }]);
  expect(diagnostics.all).toEqual([
    { code: 'SL101', facts: { path: 'book.yaml' } },
    { code: 'SL203', facts: {}, place, related: [{ place, label: 'here' }] },
  ]);
});
