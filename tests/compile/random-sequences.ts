/** Random sequences with a store, on random timelines, as the files that an author would write. */
import fc from 'fast-check';
import type { Guard, SlowContent, SlowSequence, SlowTransition, State } from './slow-sequences.ts';

const MODES = { a: ['a1', 'a2', 'a3'], b: ['b1', 'b2'] } as const;

const guardOf = (text: string, holds: (state: State) => boolean): Guard => ({ text, holds });

const inputGuard: fc.Arbitrary<Guard> = fc.oneof(
  fc.constantFrom(
    guardOf('bus is lost', ({ bus }) => !bus),
    guardOf('bus is powered', ({ bus }) => bus),
    guardOf('always', () => true),
  ),
  fc.integer({ min: 0, max: 3 }).map((least) => guardOf(`speed >= ${least} %`, ({ speed }) => speed >= least)),
);
const modeGuard: fc.Arbitrary<Guard> = fc.oneof(
  fc.constantFrom(...MODES.a).map((mode) => guardOf(`a is ${mode}`, ({ modes }) => modes['a'] === mode)),
  fc.constantFrom(...MODES.b).map((mode) => guardOf(`b is ${mode}`, ({ modes }) => modes['b'] === mode)),
);
const COMPARISONS: readonly (readonly [string, (level: number, value: number) => boolean])[] = [
  ['<', (level, value) => level < value],
  ['<=', (level, value) => level <= value],
  ['>', (level, value) => level > value],
  ['>=', (level, value) => level >= value],
];
const levelGuard: fc.Arbitrary<Guard> = fc
  .tuple(fc.constantFrom(...COMPARISONS), fc.integer({ min: 1, max: 4 }))
  .map(([[by, holds], value]) => guardOf(`tank ${by} ${value} l`, ({ level }) => holds(level, value)));
const atom = fc.oneof({ weight: 3, arbitrary: inputGuard }, modeGuard);
const joined = (part: fc.Arbitrary<Guard>): fc.Arbitrary<Guard> =>
  fc.oneof(
    { weight: 4, arbitrary: part },
    part.map(({ text, holds }) => guardOf(`not (${text})`, (state) => !holds(state))),
    fc
      .tuple(part, part)
      .map(([one, other]) =>
        guardOf(`(${one.text}) and (${other.text})`, (state) => one.holds(state) && other.holds(state)),
      ),
  );
const guard = joined(fc.oneof({ weight: 3, arbitrary: atom }, levelGuard));

const delay = fc.integer({ min: 1, max: 4 });
const waits: fc.Arbitrary<Pick<SlowTransition, 'when' | 'holdsFor' | 'after' | 'since'>> = fc.oneof(
  guard.map((when) => ({ when })),
  fc.tuple(guard, delay).map(([when, holdsFor]) => ({ when, holdsFor })),
  delay.map((after) => ({ after })),
  fc.tuple(guard, delay).map(([when, after]) => ({ when, after })),
  fc
    .tuple(joined(atom), delay, fc.boolean(), fc.option(guard, { nil: undefined }))
    .map(([event, by, restarts, when]) => ({ since: { event, delay: by, restarts }, ...(when ? { when } : {}) })),
);

function sequenceOf(id: 'a' | 'b'): fc.Arbitrary<SlowSequence> {
  const modes: readonly string[] = MODES[id];
  const transition = fc.tuple(
    fc.constantFrom(...modes),
    fc.subarray([...modes], { minLength: 1 }),
    waits,
    fc.option(fc.constantFrom('0.5', '1'), { freq: 3, nil: undefined }),
  );
  return fc.array(transition, { minLength: 2, maxLength: 5 }).map((all) => ({
    id,
    modes,
    transitions: all.map(([to, from, rest, tolerance]): SlowTransition => {
      const others = from.filter((mode) => mode !== to);
      const one = modes.find((mode) => mode !== to) ?? '';
      return { from: others.length > 0 ? others : [one], to, ...rest, ...(tolerance ? { tolerance } : {}) };
    }),
  }));
}

export const content: fc.Arbitrary<SlowContent> = fc.record({
  sequences: fc.tuple(sequenceOf('a'), sequenceOf('b')),
  store: fc.record({
    capacity: fc.constant(5),
    start: fc.integer({ min: 0, max: 5 }),
    fills: joined(atom),
    drains: joined(atom),
  }),
  sets: fc.constantFrom<Record<string, number>>({}, { a2: 3 }, { a1: 0, a3: 5 }),
  inputs: fc
    .array(
      fc.record({ at: fc.integer({ min: 1, max: 20 }), speed: fc.integer({ min: 0, max: 3 }), bus: fc.boolean() }),
      { minLength: 3, maxLength: 12 },
    )
    .map((all) => [{ at: 0, speed: 0, bus: true }, ...all.sort((x, y) => x.at - y.at)])
    .map((all) => all.filter(({ at }, index) => all.findIndex((each) => each.at === at) === index)),
  until: fc.constant(25),
});

/** The sequences, indented by two, and the timeline as text. */
export function written({ sequences, store, sets, inputs, until }: SlowContent): { panel: string; timeline: string } {
  const transition = ({ from, to, when, holdsFor, after, since, tolerance }: SlowTransition): string => {
    const seconds = (delay: number): string => `${delay} s${tolerance === undefined ? '' : ` +/- ${tolerance} s`}`;
    return [
      `from: [${from.join(', ')}], to: ${to}`,
      ...(when ? [`when: "${when.text}${holdsFor === undefined ? '' : ` for ${seconds(holdsFor)}`}"`] : []),
      ...(after === undefined ? [] : [`after: ${seconds(after)}`]),
      ...(since ? [`since: "${since.event.text}", delay: ${seconds(since.delay)}, restarts: ${since.restarts}`] : []),
    ].join(', ');
  };
  const stores = `    stores:
      tank:
        title: Tank
        unit: l
        capacity: ${store.capacity}
        start: ${store.start}
        fills: [{ when: "${store.fills.text}", per-minute: 60 }]
        drains: [{ when: "${store.drains.text}", per-minute: 60 }]
`;
  const panel = sequences
    .map(({ id, modes, transitions }) => {
      const listed = modes.map((mode) => {
        const set = id === 'a' && sets[mode] !== undefined ? `, sets: { tank: ${sets[mode]} }` : '';
        return `      ${mode}: { says: with it ${mode}${set} }\n`;
      });
      return `  ${id}:
    title: ${id}
    initial: ${modes[0]}
    priority: declared
    modes:
${listed.join('')}${id === 'a' ? stores : ''}    transitions:
${transitions.map((each) => `      - { ${transition(each)} }\n`).join('')}`;
    })
    .join('');
  const steps = inputs.map(
    ({ at, speed, bus }) => `    - { at: ${at} s, set: { speed: ${speed} %, bus: ${bus ? 'powered' : 'lost'} } }\n`,
  );
  return {
    panel,
    timeline: `one:\n  title: One\n  on: 1\n  shows: [a, b]\n  steps:\n${steps.join('')}  until: ${until} s\n`,
  };
}
