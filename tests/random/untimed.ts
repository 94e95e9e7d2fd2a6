/** Random sequences without delays, as an author would write them, and as a machine of a general state-machine library. */
import fc from 'fast-check';
import { initialTransition, setup, transition } from 'xstate';

/** What can be set from outside. */
export interface Inputs {
  readonly bus: 'powered' | 'lost';
  readonly gear: 'down' | 'moving' | 'up';
  readonly knob: 'OFF' | 'RUN';
}
type ModesNow = Readonly<Record<string, string>>;

export interface Guard {
  readonly text: string;
  readonly holds: (inputs: Inputs, modes: ModesNow, level: number) => boolean;
}
export interface Move {
  readonly from: readonly string[];
  readonly to: string;
  readonly when: Guard;
}
export interface Untimed {
  readonly sequences: readonly {
    readonly id: string;
    readonly modes: readonly string[];
    readonly moves: readonly Move[];
  }[];
  /** Modes that set the store, which nothing fills or drains; undefined where no guard reads it. */
  readonly sets: Readonly<Record<string, number>> | undefined;
  /** Whether the knob can't stand at RUN with the bus lost. */
  readonly never: boolean;
  readonly course: readonly Inputs[];
}

const START = 2;
const MODES: Readonly<Record<string, readonly string[]>> = { a: ['a1', 'a2', 'a3', 'a4'], b: ['b1', 'b2', 'b3'] };
const VALUES = { bus: ['powered', 'lost'], gear: ['down', 'moving', 'up'], knob: ['OFF', 'RUN'] } as const;

/** Every combination of inputs that can happen. */
export function everyInput({ never }: Untimed): Inputs[] {
  const all = VALUES.bus.flatMap((bus) =>
    VALUES.gear.flatMap((gear) => VALUES.knob.map((knob): Inputs => ({ bus, gear, knob }))),
  );
  return all.filter((inputs) => canHappen(never, inputs));
}

const canHappen = (never: boolean, { bus, knob }: Inputs): boolean => !(never && bus === 'lost' && knob === 'RUN');

const inputGuard = fc
  .constantFrom(...Object.entries(VALUES).flatMap(([name, values]) => values.map((value) => [name, value] as const)))
  .map(
    ([name, value]): Guard => ({
      text: `${name} is ${value}`,
      holds: (inputs) => inputs[name as keyof Inputs] === value,
    }),
  );
const modeGuard = fc
  .constantFrom(...Object.entries(MODES).flatMap(([id, modes]) => modes.map((mode) => [id, mode] as const)))
  .map(([id, mode]): Guard => ({ text: `${id} is ${mode}`, holds: (_, modes) => modes[id] === mode }));
const levelGuard = fc
  .constantFrom(1, 2, 3)
  .chain((limit) =>
    fc.constantFrom<Guard>(
      { text: `tank > ${limit} l`, holds: (_, __, level) => level > limit },
      { text: `tank <= ${limit} l`, holds: (_, __, level) => level <= limit },
      { text: `tank < ${limit} l`, holds: (_, __, level) => level < limit },
    ),
  );

function guards(store: boolean): fc.Arbitrary<Guard> {
  const atom = fc.oneof(
    { weight: 5, arbitrary: inputGuard },
    { weight: 2, arbitrary: modeGuard },
    { weight: store ? 3 : 0, arbitrary: levelGuard },
  );
  const denied = atom.map(({ text, holds }): Guard => ({ text: `not (${text})`, holds: (...at) => !holds(...at) }));
  const or = ([a, b]: [Guard, Guard]): Guard => ({
    text: `(${a.text}) or (${b.text})`,
    holds: (...at) => a.holds(...at) || b.holds(...at),
  });
  const pair = fc.tuple(atom, atom);
  return fc.oneof({ weight: 3, arbitrary: atom }, denied, pair.map(both), pair.map(or));
}

/** What leads on and what leads back: with nothing to keep them apart most sequences would go round for ever. */
const DIRECTIONS: Readonly<Record<string, readonly [on: Guard, back: Guard]>> = {
  a: [
    { text: 'knob is RUN', holds: ({ knob }) => knob === 'RUN' },
    { text: 'knob is OFF', holds: ({ knob }) => knob === 'OFF' },
  ],
  b: [
    { text: 'gear is not down', holds: ({ gear }) => gear !== 'down' },
    { text: 'gear is down', holds: ({ gear }) => gear === 'down' },
  ],
};

const both = ([a, b]: readonly [Guard, Guard]): Guard => ({
  text: `(${a.text}) and (${b.text})`,
  holds: (...at) => a.holds(...at) && b.holds(...at),
});

const sequenceOf = (id: string, store: boolean): fc.Arbitrary<Untimed['sequences'][number]> => {
  const modes = MODES[id] ?? [];
  const move = fc
    .tuple(
      fc.constantFrom(...modes),
      fc.subarray([...modes], { minLength: 1, maxLength: 3 }),
      guards(store),
      fc.integer({ min: 0, max: 9 }),
    )
    .map(([to, others, free, chance]): Move => {
      const isOn = chance % 2 === 0;
      const from = others.filter((mode) => (isOn ? mode < to : mode > to));
      const direction = DIRECTIONS[id]?.[isOn ? 0 : 1];
      return { from, to, when: direction && chance < 9 ? both([direction, free]) : free };
    })
    .filter(({ from }) => from.length > 0);
  return fc.array(move, { minLength: 2, maxLength: 6 }).map((moves) => ({ id, modes, moves }));
};

/** With a store or without: what a store permits can't be followed without timing. */
export const untimed = (store: boolean): fc.Arbitrary<Untimed> =>
  fc
    .record({
      sequences: fc.tuple(sequenceOf('a', store), sequenceOf('b', store)),
      sets: store
        ? fc.dictionary(fc.constantFrom(...(MODES['a'] ?? [])), fc.integer({ min: 0, max: 4 }), { minKeys: 1 })
        : fc.constant(undefined),
      never: fc.boolean(),
      course: fc.array(
        fc.record({
          bus: fc.constantFrom(...VALUES.bus),
          gear: fc.constantFrom(...VALUES.gear),
          knob: fc.constantFrom(...VALUES.knob),
        }),
        { minLength: 3, maxLength: 14 },
      ),
    })
    .map((one) => ({ ...one, course: one.course.filter((inputs) => canHappen(one.never, inputs)) }))
    .filter(({ course }) => course.length > 0);

/** The files of an author: a step of the timeline each ten seconds. */
export function written({ sequences, sets, never, course }: Untimed) {
  const modeOf = (id: string) => (mode: string) => {
    const set = id === 'a' && sets?.[mode] !== undefined ? `, sets: { tank: ${sets[mode]} }` : '';
    return `      ${mode}: { says: with it ${mode}${set} }\n`;
  };
  const store = `    stores: { tank: { title: Tank, unit: l, capacity: 4, start: ${START} } }\n`;
  const panel = sequences
    .map(
      ({ id, modes, moves }) =>
        `  ${id}:\n    title: ${id}\n    initial: ${modes[0]}\n    priority: declared\n    modes:\n` +
        modes.map(modeOf(id)).join('') +
        (id === 'a' && sets ? store : '') +
        `    transitions:\n` +
        moves
          .map(({ from, to, when }) => `      - { from: [${from.join(', ')}], to: ${to}, when: "${when.text}" }\n`)
          .join(''),
    )
    .join('');
  const steps = course.map(
    ({ bus, gear, knob }, at) => `    - { at: ${at * 10} s, set: { bus: ${bus}, gear: ${gear}, knob: ${knob} } }\n`,
  );
  const end = `  until: ${course.length * 10} s\n`;
  return {
    panel,
    timeline: `one:\n  title: One\n  on: 1\n  shows: [a, b]\n  steps:\n${steps.join('')}${end}`,
    conditions: `conditions:
  bus: { title: Bus, normal: powered, values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } } }
  gear:
    title: Gear
    values: { down: { says: with the gear down }, moving: { says: with the gear moving }, up: { says: with the gear up } }
${never ? 'never:\n  - bus is lost and knob is RUN\n' : ''}`,
    controls: 'panel: p\ntitle: P\ncontrols:\n  knob: { title: Knob, form: knob, positions: { OFF: {}, RUN: {} } }\n',
  };
}

interface Context {
  readonly inputs: Inputs;
  readonly level: number;
}

/** More guards than that one macrostep can only ask in a round: there are 12 states, 5 levels and 12 transitions. */
const PATIENCE = 1_000;

/** The library as it goes from inputs to inputs. */
export interface Runner {
  readonly begin: (inputs: Inputs) => Stand;
  readonly next: (stand: Stand, inputs: Inputs) => Stand;
}
export interface Stand {
  readonly inputs: Inputs;
  readonly modes: { readonly a: string; readonly b: string };
  /** What moved on the way here, in order: "a: a1 > a2". */
  readonly moved: readonly string[];
  readonly snapshot: unknown;
}

/** Thrown where the library would not come back. */
export class Endless extends Error {}

/**
 * The same as one machine of the library, which knows no time. Where the two do not mean the same, the mapping bridges it:
 *
 * - A transition without delay is eventless (`always`); among them the first in document order is taken, one at a time.
 * - In parallel regions the library takes what is enabled in all regions at once, but here the first sequence that can move
 *   takes one transition, and then all is looked at anew. So there are no regions: a state is a pair of modes, and it lists
 *   the transitions of the first sequence before those of the second.
 * - Entering a mode sets stores, but not at the beginning, where the library would run entry actions of the initial state.
 *   So they are actions of the transitions that enter the mode; nothing else enters one.
 * - Inputs are the machine's context: an event of the root changes them and moves nothing by itself, and what follows from
 *   them belongs to the same macrostep. At the beginning they are the machine's input, before any transition is looked at.
 * - Going round for ever is a fault here; the library would not come back, so that its guards give up.
 */
export function runnerOf({ sequences, sets }: Untimed): Runner {
  const [a, b] = sequences as [Untimed['sequences'][number], Untimed['sequences'][number]];
  let asked = 0;
  const typed = setup({
    types: {} as { context: Context; events: { type: 'SET'; inputs: Inputs }; input: Inputs },
    actions: { moved: (_, __: { text: string }) => undefined },
  });
  const alwaysIn = (modes: Stand['modes']) =>
    sequences.flatMap(({ id, moves }) => {
      const mode = id === 'a' ? modes.a : modes.b;
      return moves
        .filter(({ from }) => from.includes(mode))
        .map(({ to, when }) => {
          const level = id === 'a' ? sets?.[to] : undefined;
          const moved = { type: 'moved' as const, params: { text: `${id}: ${mode} > ${to}` } };
          const set = typed.assign(level === undefined ? {} : { level });
          return {
            target: stateOf(id === 'a' ? { ...modes, a: to } : { ...modes, b: to }),
            guard: ({ context }: { context: Context }) => {
              asked += 1;
              if (asked > PATIENCE) throw new Endless();
              return when.holds(context.inputs, { ...modes }, context.level);
            },
            actions: [moved, set],
          };
        });
    });
  const states = a.modes.flatMap((ofA) =>
    b.modes.map((ofB) => [stateOf({ a: ofA, b: ofB }), { always: alwaysIn({ a: ofA, b: ofB }) }] as const),
  );
  const machine = typed.createMachine({
    context: ({ input }) => ({ inputs: input, level: START }),
    initial: stateOf({ a: a.modes[0] ?? '', b: b.modes[0] ?? '' }),
    on: { SET: { actions: typed.assign({ inputs: ({ event }) => event.inputs }) } },
    states: Object.fromEntries(states),
  });
  type Result = ReturnType<typeof initialTransition<typeof machine>>;
  // The library throws what a guard throws, or keeps it in the snapshot.
  const attempt = (step: () => Result): Result => {
    asked = 0;
    try {
      const result = step();
      if (result[0].status === 'error') throw result[0].error;
      return result;
    } catch (error) {
      throw asked > PATIENCE ? new Endless() : error;
    }
  };
  const run = (step: () => Result): Stand => {
    const [snapshot, actions] = attempt(step);
    const [ofA = '', ofB = ''] = String(snapshot.value).split('_');
    const moved = actions.flatMap(({ type, params }) =>
      type === ('moved' as string) ? [(params as unknown as { text: string }).text] : [],
    );
    return { inputs: snapshot.context.inputs, modes: { a: ofA, b: ofB }, moved, snapshot };
  };
  return {
    begin: (inputs) => run(() => initialTransition(machine, inputs)),
    next: ({ snapshot }, inputs) => run(() => transition(machine, snapshot as Result[0], { type: 'SET', inputs })),
  };
}

const stateOf = ({ a, b }: Stand['modes']): string => `${a}_${b}`;
