/** Random contents with everything that rules can have beside plain conditions and controls, as an author would write them. */
import fc from 'fast-check';
import { GEAR_AND_BUS } from './small-fleet.ts';

export type Files = Readonly<Record<string, string>>;

const CONDITIONS = `${GEAR_AND_BUS}  speed:
    title: Speed
    number: { unit: kt, from: 0, to: 4, step: 0.5 }
detectors:
  fast:
    title: Fast detector
    trips: speed > 2 kt
    tolerance: 1
    says: when fast
    says-not: when not fast
  faster:
    title: Faster detector
    trips: speed >= 2.5 kt
    tolerance: 0.5
    says: when faster
    says-not: when not faster
`;

const atoms = {
  inputs: [
    'gear is up',
    'bus is lost',
    'sw is ON',
    'sw is not OFF',
    'push is held',
    'speed > 1.5 kt',
    'speed <= 3 kt',
    'fast',
    'faster',
    '(fitted(dial) and dial is HIGH)',
    '(fitted(knob) and knob is MAX)',
    'trim is full',
  ],
  modes: ['pump is busy', 'pump in (idle, spent)', 'hold is set'],
  supply: ['feed is lost', 'feed is from-bus', 'feed is powered'],
  lights: [
    'wing is lit',
    'wing.left is failed',
    'wing.right is lit',
    'any lamp of wing is lit',
    'all lamps of wing are failed',
  ],
  asked: ['odd is lit'],
} as const;

/** Conjunctions and disjunctions of up to three atoms, each perhaps denied. */
function formula(words: readonly string[]): fc.Arbitrary<string> {
  const literal = fc
    .tuple(fc.boolean(), fc.constantFrom(...words))
    .map(([denied, text]) => (denied ? `not (${text})` : text));
  const joined = (by: string) => fc.array(literal, { minLength: 2, maxLength: 3 }).map((all) => all.join(` ${by} `));
  return fc.oneof({ weight: 2, arbitrary: literal }, { weight: 2, arbitrary: joined('and') }, joined('or'));
}

const quoted = (text: string): string => JSON.stringify(text);
const rule = (words: readonly string[]): fc.Arbitrary<string> => formula(words).map(quoted);
const { inputs, modes, supply, lights, asked } = atoms;

const sequence = fc
  .record({
    start: rule([...inputs, 'hold is set']),
    held: fc.constantFrom('', ' for 2 s'),
    stop: rule(inputs),
    after: fc.constantFrom('', ', after: 5 s'),
    spend: formula([...inputs, 'tank <= 0 min']),
    rest: rule(inputs),
    since: fc.boolean(),
  })
  .map(
    ({ start, held, stop, after, spend, rest, since }) => `sequences:
  pump:
    title: Pump
    noun: the pump
    initial: idle
    priority: declared
    modes:
      idle: { says: with the pump idle }
      busy: { says: with the pump busy }
      spent: { says: with the pump spent }
    stores:
      tank: { title: Tank, unit: min, capacity: 4, start: 4, drains: [{ when: pump is busy, per-minute: 1 }] }
    transitions:
      - { from: idle, to: busy, when: ${start.slice(0, -1)}${held}" }
      - { from: busy, to: spent, when: ${quoted(spend)} }
      - { from: busy, to: idle, when: ${stop}${after} }
      - { from: spent, to: idle, ${since ? `since: ${rest}, delay: 3 s` : `when: ${rest}, after: 1 s`} }
`,
  );

const panel = fc
  .record({
    sequence,
    set: rule(inputs),
    reset: rule(inputs),
    wins: fc.constantFrom('set', 'reset'),
    wing: rule([...inputs, ...modes]),
    left: rule([...inputs, ...supply]),
    feed: rule(inputs),
    horn: rule([...inputs, ...modes, ...lights, ...asked]),
    hornAgain: rule([...inputs, ...modes, ...lights]),
    unsaid: rule(inputs),
    odd: rule([...inputs, ...modes]),
    alert: rule([...lights, ...inputs, 'horn is lit']),
    latched: fc.constantFrom(
      '',
      '    latched: { reset: push is held, wins: reset }\n',
      '    latched: { reset: sw is OFF, through-inhibit: true }\n',
    ),
    through: fc.constantFrom('', '    inhibit: [quiet-time]\n'),
    minor: rule([...inputs, ...lights]),
    counterpart: fc.boolean(),
  })
  .map((given) =>
    `panel: p
title: P
controls:
  sw: { title: Switch, form: toggle, positions: { OFF: {}, AUTO: {}, ON: {} } }
  push: { title: Push, form: push-button, positions: { OUT: {}, IN: { returns: OUT } } }
  dial: { title: Dial, form: rotary, fitted: trim is plain, positions: { LOW: {}, HIGH: {} } }
  knob:
    title: Knob
    form: rotary
    fitted: trim is full
${given.counterpart ? '    counterpart: dial\n' : ''}    positions: { MIN: ${given.counterpart ? '{ as: LOW }' : '{}'}, MAX: ${given.counterpart ? '{ as: HIGH }' : '{}'}, EXTRA: {} }
supplies:
  feed:
    title: Feed
    fed: [{ from: bus }, { from: spare-bus, when: ${given.feed} }]
  spare-bus:
    title: Spare bus
    fed: [{ from: bus, when: sw is ON }]
${given.sequence}latches:
  hold: { title: Hold, set: ${given.set}, reset: ${given.reset}, wins: ${given.wins} }
items:
  wing:
    kind: light
    title: Wing
    zone: outside
    control: sw
    rules:
      - { when: ${given.wing}, then: lit }
      - otherwise: dark
    lamps:
      left: { supply: [feed], when: ${given.left} }
      right: { supply: [bus] }
  odd:
    kind: annunciator
    title: Odd
    rules: [{ when: ${given.odd}, then: lit }, { when: always, then: dark }]
    policy: first
  horn:
    kind: annunciator
    title: Horn
    policy: first
    rules:
      - { when: ${given.horn}, then: lit }
      - { when: ${given.hornAgain}, then: dark }
      - otherwise: lit
messages:
  alert:
    title: Alert
    text: ALERT
    class: caution
    when: ${given.alert}
    suppressed-by: [minor]
${given.through}${given.latched}  minor:
    title: Minor
    text: MINOR
    class: advisory
    when: ${given.minor}
`.replace(
      '{ when: always, then: dark }',
      `{ when: ${given.unsaid}, then: not stated, query: Q-1 }, { otherwise: dark }`,
    ),
  );

const overrides = fc
  .array(
    fc.record({
      kind: fc.constantFrom('light', 'annunciator'),
      when: rule(inputs),
      then: fc.constantFrom('dark', 'lit'),
      quiet: fc.boolean(),
    }),
    { maxLength: 2 },
  )
  .map((all) =>
    all
      .map(
        ({ kind, when, then, quiet }, at) =>
          `- { id: override-${at}, title: Override ${at}, scope: { kinds: [${kind}] }, when: ${when}, then: ${then}, quiet: ${quiet} }\n`,
      )
      .join(''),
  );

export const meanings: fc.Arbitrary<Files> = fc
  .record({
    panel,
    overrides,
    never: fc.option(rule(['gear is up', 'bus is lost', 'sw is ON', 'push is held', 'fast', 'speed > 1.5 kt']), {
      freq: 3,
    }),
    order: fc.boolean(),
    third: fc.constantFrom('unknown', 'plain', 'full'),
    change: fc.boolean(),
  })
  .map(({ panel: text, overrides: over, never, order, third, change }) => ({
    'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
    'options.yaml': 'trim:\n  title: Trim\n  values: { plain: {}, full: {} }\n',
    'aircraft.csv': `serial,registration,from,to,trim\n1,QQ-TEA,2020-01-01,,plain\n2,QQ-TEB,2020-01-01,,full\n3,QQ-TEC,2020-01-01,,${third}\n`,
    ...(change ? { 'modifications.csv': 'serial,option,value,date,document\n1,trim,full,2026-06-01,\n' } : {}),
    'conditions.yaml':
      CONDITIONS + (order ? 'in-order:\n  - [fast, faster]\n' : '') + (never === null ? '' : `never:\n  - ${never}\n`),
    'signals.yaml': 'quiet-time: { title: Quiet time, when: gear is up and speed > 1.5 kt }\n',
    'queries.yaml': 'Q-1: { title: Q, question: What then?, to: Somebody, asked: 2025-01-01 }\n',
    ...(over === '' ? {} : { 'overrides.yaml': over }),
    'panels/p.yaml': text,
  }));
