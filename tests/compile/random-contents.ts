/** Random contents of a few definitions, as the files that an author would write. */
import fc from 'fast-check';

export type Files = Readonly<Record<string, string>>;

const OPTIONS = { trim: ['plain', 'full'], mod: ['before', 'after', 'later'] } as const;
const CONDITIONS = `conditions:
  gear:
    title: Gear
    values: { down: { says: with the gear down }, moving: { says: with the gear moving }, up: { says: with the gear up } }
  bus:
    title: Bus
    normal: powered
    values: { lost: { says: with the bus lost }, powered: { says: with the bus powered } }
  spare:
    title: Spare bus
    normal: powered
    values: { powered: { says: with the spare bus powered }, lost: { says: with the spare bus lost } }
  speed:
    title: Speed
    number: { unit: kt, from: 0, to: 3, step: 0.5 }
`;

const overOptions = fc.oneof(
  fc.constantFrom('trim is full', 'trim is plain', 'mod is after', 'mod is not later', 'mod in (before, later)'),
  fc.constant('trim is full and mod is not before'),
);

/** Comparisons of what every aircraft has. */
const plainAtom = fc.oneof(
  fc.constantFrom('gear is up', 'gear is not down', 'gear in (down, moving)', 'bus is lost', 'bus is powered'),
  fc.constantFrom('spare is lost', 'spare is powered', 'sw is ON', 'sw is OFF', 'sw is AUTO', 'sw is not AUTO'),
  fc
    .tuple(fc.constantFrom('<', '<=', '>', '>=', '='), fc.constantFrom('0.5', '1', '1.5', '1.75', '2.25', '2.5'))
    .map(([by, value]) => `speed ${by} ${value} kt`)
    // A step can be equal to what is no step in no case, which is reported as a mistake.
    .filter((text) => !/= [12]\.[27]5/.test(text) || /[<>]=/.test(text)),
);
/** The same, and what only some aircraft may have, behind its guard. */
const caseAtom = fc.oneof(
  { weight: 5, arbitrary: plainAtom },
  {
    weight: 2,
    arbitrary: fc.constantFrom('(fitted(kn) and kn is LOW)', '(fitted(kn) and kn is not HIGH)', 'fitted(sw.AUTO)'),
  },
);
const ruleAtom = (signal: boolean): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 6, arbitrary: caseAtom },
    { weight: 1, arbitrary: fc.constantFrom('trim is full', 'mod is after', 'fitted(kn)') },
    ...(signal ? [{ weight: 1, arbitrary: fc.constantFrom('mix', 'not mix') }] : []),
  );

/** Conjunctions and disjunctions of up to three atoms, each perhaps denied. */
function formula(atom: fc.Arbitrary<string>): fc.Arbitrary<string> {
  const literal = fc.tuple(fc.boolean(), atom).map(([denied, text]) => (denied ? `not (${text})` : text));
  const joined = (by: string) => fc.array(literal, { minLength: 2, maxLength: 3 }).map((all) => all.join(` ${by} `));
  const or = joined('or').map((text) => `(${text})`);
  const both = fc.tuple(literal, or).map(([first, second]) => `${first} and ${second}`);
  return fc.oneof({ weight: 2, arbitrary: literal }, { weight: 3, arbitrary: joined('and') }, or, both);
}

const quoted = (text: string): string => JSON.stringify(text);

/** The rules of one attribute: `otherwise` and `first` mostly, so that enough contents are sound. */
function attribute(states: readonly string[], atom: fc.Arbitrary<string>): fc.Arbitrary<string> {
  const state = fc.constantFrom(...states);
  return fc
    .record({
      policy: fc.oneof({ weight: 4, arbitrary: fc.constant('first') }, fc.constantFrom('any', 'unique')),
      rules: fc.array(fc.tuple(formula(atom), state), { minLength: 1, maxLength: 4 }),
      otherwise: fc.option(state, { freq: 8 }),
    })
    .map(({ policy, rules, otherwise }) =>
      [
        `policy: ${policy}`,
        'rules:',
        ...rules.map(([when, then]) => `  - { when: ${quoted(when)}, then: ${then} }`),
        ...(otherwise ? [`  - otherwise: ${otherwise}`] : []),
      ].join('\n'),
    );
}

const indent = (text: string, by: number): string => text.replace(/^/gm, ' '.repeat(by));
const fittedLine = (by: number) => (fitted: string | null) => (fitted ? `${' '.repeat(by)}fitted: ${fitted}\n` : '');
const perhaps = (freq: number): fc.Arbitrary<string | null> => fc.option(overOptions, { freq });

const panel = fc
  .record({
    kn: perhaps(4).map(fittedLine(4)),
    auto: perhaps(2).map((fitted) => (fitted ? `{ fitted: ${quoted(fitted)} }` : '{}')),
    high: perhaps(1).map((fitted) => (fitted ? `{ fitted: ${quoted(fitted)} }` : '{}')),
    horn: perhaps(1).map(fittedLine(4)),
    lamp: attribute(['dark', 'lit', 'dim'], ruleAtom(true)),
    // Reads the lamp, which stands on every aircraft.
    hornRules: attribute(['dark', 'lit'], fc.oneof(ruleAtom(false), fc.constantFrom('lamp is lit', 'lamp is not dim'))),
  })
  .map(
    ({ kn, auto, high, horn, lamp, hornRules }) => `panel: p
title: P
controls:
  sw:
    title: Switch
    form: toggle
    positions: { OFF: {}, AUTO: ${auto}, ON: {} }
  kn:
    title: Knob
    form: knob
${kn}    positions: { LOW: {}, HIGH: ${high} }
items:
  lamp:
    kind: light
    title: Lamp
    control: sw
    states: { dark: {}, lit: {}, dim: {} }
${indent(lamp, 4)}
  horn:
    kind: annunciator
    title: Horn annunciator
${horn}    control: kn
${indent(hornRules, 4)}
`,
  );

const aircraft = fc
  .array(fc.tuple(fc.constantFrom(...OPTIONS.trim), fc.constantFrom(...OPTIONS.mod)), { minLength: 2, maxLength: 4 })
  .map((rows) => rows.map(([trim, mod], at) => `${at + 1},QQ-TE${'ABCD'[at]},2020-01-01,,${trim},${mod}\n`).join(''));

const list = (title: string, lines: readonly string[]): string => (lines.length > 0 ? title + lines.join('') : '');

export const contents: fc.Arbitrary<Files> = fc
  .record({
    panel,
    aircraft,
    never: fc.array(formula(fc.oneof(caseAtom, plainAtom)), { maxLength: 2 }),
    signal: formula(caseAtom),
    claims: fc.array(formula(fc.oneof(caseAtom, fc.constantFrom('lamp is lit', 'lamp is not dark'))), { maxLength: 2 }),
  })
  .map(({ panel: text, aircraft: rows, never, signal, claims }) => ({
    'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
    'options.yaml': Object.entries(OPTIONS)
      .map(
        ([id, values]) => `${id}:\n  title: ${id}\n  values: { ${values.map((value) => `${value}: {}`).join(', ')} }\n`,
      )
      .join(''),
    'aircraft.csv': `serial,registration,from,to,trim,mod\n${rows}`,
    'conditions.yaml':
      CONDITIONS +
      list(
        'never:\n',
        never.map((text) => `  - ${quoted(text)}\n`),
      ),
    'signals.yaml': `mix:\n  title: Mix\n  when: ${quoted(signal)}\n`,
    ...(claims.length > 0
      ? { 'claims.yaml': claims.map((text, at) => `- { sentence: Claim ${at}., holds: ${quoted(text)} }\n`).join('') }
      : {}),
    'panels/p.yaml': text,
  }));
