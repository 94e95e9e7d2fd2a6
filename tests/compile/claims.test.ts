/** What an expression means, found in two ways: by the program's diagrams, and by the oracle, which tries every case. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compileFleet } from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { expressionTexts } from '../helpers/expression-text.ts';
import { temporaryFolder, writeFiles } from '../helpers/temporary-folder.ts';
import { loadOracle, type Oracle } from '../oracle/index.ts';

const CONTENT: Readonly<Record<string, string>> = {
  'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
  'options.yaml': 'grade:\n  title: Grade\n  values:\n    plain: { title: Plain }\n    full: { title: Full }\n',
  'aircraft.csv': 'serial,registration,from,to,grade\n1,QQ-A,2020-01-01,,plain\n2,QQ-B,2020-01-01,,full\n',
  'conditions.yaml': `conditions:
  gear:
    title: Gear
    values: { down: { says: with the gear down }, up: { says: with the gear up } }
  speed:
    title: Speed
    number: { unit: kt, from: -1, to: 3, step: 0.5 }
never:
  - gear is down and speed > 2.5 kt
`,
  'signals.yaml': 'fast:\n  title: Fast\n  when: speed >= 1 kt and (gear is up or speed > 1.7 kt)\n',
  'panels/p.yaml': `panel: p
title: P
controls:
  knob:
    title: Knob
    form: knob
    positions: { OFF: {}, "2": { fitted: grade is full }, SET-2: {} }
  extra:
    title: Extra
    form: knob
    fitted: grade is full
    positions: { OUT: {}, IN: {} }
items:
  lamp:
    kind: light
    title: Lamp
    rules:
      - { when: knob is SET-2 and gear is down, then: lit }
      - otherwise: dark
  flood:
    kind: light
    title: Flood
    attributes:
      lamp:
        rules: [{ when: fast or lamp is lit, then: lit }, { otherwise: dark }]
      cover:
        states: { shut: {}, in: {} }
        rules: [{ when: "fitted(extra) and extra is OUT", then: shut }, { otherwise: in }]
  beacon:
    kind: light
    title: Beacon
    fitted: grade is full
    rules: [{ when: extra is IN, then: lit }, { otherwise: dark }]
`,
};

function oracleOfContent(): Oracle {
  const folder = temporaryFolder();
  writeFiles(folder, CONTENT);
  return loadOracle(folder);
}

const statements = fc.oneof(
  fc.constantFrom(
    ...[
      'knob is OFF',
      'knob is not 2',
      'knob in (2, SET-2)',
      'knob is not in (OFF, 2)',
      'gear are up',
      'gear in (down)',
    ],
    ...['fitted(knob.2)', 'fitted(extra)', 'fitted(beacon)', 'fitted( extra.IN )', 'fast', 'always', 'never'],
    ...['lamp is lit', 'lamp.lamp is not lit', 'flood.lamp is lit', 'flood.cover is in', 'flood.cover are not in (in)'],
    ...[
      '(fitted(extra) and extra is IN)',
      '(not fitted(extra) or extra in (OUT))',
      '(fitted(beacon) implies beacon is lit)',
    ],
  ),
  fc
    .record({
      by: fc.constantFrom('<', '<=', '>', '>='),
      tenths: fc.integer({ min: -9, max: 29 }),
      gap: fc.constantFrom(' ', ''),
    })
    .map(({ by, tenths, gap }) => `speed${gap}${by}${gap}${tenths / 10}${gap}kt`),
  fc.integer({ min: -2, max: 6 }).map((step) => `speed = ${step / 2} kt`),
);

/** The claims that the program refutes, by their numbers. */
function refuted(claims: readonly string[]): { numbers: number[]; other: string[] } {
  const diagnostics = new Diagnostics();
  const list = claims.map((text, at) => `- { sentence: "${at}", holds: ${JSON.stringify(text)} }\n`).join('');
  const files = Object.entries({ ...CONTENT, 'claims.yaml': list }).map(([path, text]) => ({ path, text }));
  const fleet = readFleet(files, diagnostics);
  if (fleet) compileFleet(fleet, diagnostics);
  const numbers = diagnostics.all.flatMap(({ code, facts }) =>
    code === 'SL406' && 'sentence' in facts ? [Number(facts.sentence)] : [],
  );
  return {
    numbers,
    other: diagnostics.all.map(({ code }) => code).filter((code) => !['SL406', 'SL412'].includes(code)),
  };
}

test('a claim is refuted exactly where a trial of every case finds one against it', () => {
  const oracle = oracleOfContent();
  let [holding, failing] = [0, 0];
  fc.assert(
    fc.property(fc.array(expressionTexts(statements), { minLength: 5, maxLength: 15 }), (claims) => {
      const against = claims.flatMap((text, at) => (oracle.counterexample(text) ? [at] : []));
      expect(refuted(claims)).toEqual({ numbers: against, other: [] });
      failing += against.length;
      holding += claims.length - against.length;
    }),
    { numRuns: 60 },
  );
  // Both answers must have been asked for.
  expect(Math.min(holding, failing)).toBeGreaterThan(20);
});

test('two expressions mean the same exactly where they agree in every case', () => {
  const oracle = oracleOfContent();
  let equal = 0;
  const pairs = fc.array(fc.tuple(expressionTexts(statements), expressionTexts(statements)), {
    minLength: 5,
    maxLength: 10,
  });
  fc.assert(
    fc.property(pairs, (found) => {
      const claims = found.map(([a, b]) => `((${a}) implies (${b})) and ((${b}) implies (${a}))`);
      const { numbers } = refuted(claims);
      found.forEach(([a, b], at) => {
        const same = oracle.fits.every((fit) =>
          [...oracle.cases(fit, oracle.variablesOf(`(${a}) and (${b})`))].every(
            (given) => oracle.evaluate(fit, a, given) === oracle.evaluate(fit, b, given),
          ),
        );
        expect(numbers.includes(at)).toBe(!same);
        if (same) equal += 1;
      });
    }),
    { numRuns: 40 },
  );
  expect(equal).toBeGreaterThan(5);
});
