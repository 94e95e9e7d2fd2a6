/**
 * Which modes a sequence can be in: those that an untimed run leads to. Inputs may change to any possible ones at any time;
 * undelayed transitions are taken at once, the earliest declared first; a delay may have elapsed or not; a store may
 * stand at any level. Sequences that read each other, or that one reader reads, are followed together, mode by mode, inputs as diagrams.
 */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Fleet, Sequence, Transition } from '../model/index.ts';
import type { Expressions } from './expressions.ts';
import type { SettledFit } from './fits.ts';
import { levelOf, optionLevels, type Space } from './space.ts';
import { type TransitionGuard, transitionGuard } from './transition-guard.ts';

/** One mode for each sequence of a family, in the family's order. */
export type Modes = readonly string[];

/** How a run came to a set of modes: from which others, by which transition, with which inputs. */
export interface Arrival {
  readonly before: Modes;
  readonly sequence: Sequence;
  readonly transition: Transition;
  /** Inputs with which it is taken. */
  readonly inputs: Node;
}

/** Sequences that read each other, on one settled fit. */
export interface Family {
  readonly sequences: readonly Sequence[];
  /** Sets of modes in which a run can rest, by key, in the order in which they are found. */
  readonly resting: ReadonlyMap<string, Modes>;
  /** The first way to each set of modes other than the initial one. */
  readonly arrivals: ReadonlyMap<string, Arrival>;
  /** Transitions that are taken by some run. */
  readonly taken: ReadonlySet<Transition>;
  /** Transitions of one sequence, without delay, to different modes, that are enabled at the same time in some run. */
  readonly rivals: readonly {
    readonly sequence: Sequence;
    readonly transitions: readonly [Transition, Transition];
    readonly modes: Modes;
    readonly inputs: Node;
  }[];
  /** Undelayed transitions that go round for ever with the same inputs. */
  readonly endless: { readonly modes: Modes; readonly inputs: Node } | undefined;
  /** The cases (inputs and modes) that can stand: a Boolean diagram without options. */
  readonly standing: Node;
}

export class TooManyModesError extends Error {
  readonly sequences: readonly Sequence[];
  constructor(sequences: readonly Sequence[]) {
    super(`too many modes together: ${sequences.map(({ id }) => id).join(', ')}`);
    this.sequences = sequences;
  }
}

/** The most sets of modes that one family may have. */
const MODES_LIMIT = 5_000;

export const keyOfModes = (modes: Modes): string => modes.join(' ');

/**
 * The families of the sequences that are fitted. `inputs` are the cases that can happen as far as inputs decide; `readers`
 * are the diagrams of whatever reads modes: the sequences that one of them reads are followed together too, since their
 * modes may never occur at the same time.
 */
export function familiesOn(
  fleet: Fleet,
  space: Space,
  diagrams: Diagrams,
  expressions: Expressions,
  fit: SettledFit,
  inputs: Node,
  readers: readonly Node[],
): Family[] {
  const options = optionLevels(space, fit);
  const fitted = fleet.sequences.filter(
    (sequence) => diagrams.restrictAll(expressions.itemFitted(sequence), options) === diagrams.yes,
  );
  const guards = new Map(
    fitted.flatMap((sequence) =>
      sequence.transitions.map((transition): [Transition, TransitionGuard] => {
        const here = (node: Node): Node => diagrams.restrictAll(node, options);
        return [transition, transitionGuard(transition, space, diagrams, expressions, here)];
      }),
    ),
  );
  const together = readers.map((node) => diagrams.support(diagrams.restrictAll(node, options)));
  return coupled(fitted, space, diagrams, guards, together).map((sequences) =>
    follow(sequences, space, diagrams, guards, inputs),
  );
}

/** The variables of sequences that are not fitted stand at "absent". */
export function absentModes(fleet: Fleet, space: Space, diagrams: Diagrams, families: readonly Family[]): Node {
  const fitted = new Set(families.flatMap(({ sequences }) => sequences));
  return diagrams.and(
    ...fleet.sequences
      .filter((sequence) => !fitted.has(sequence))
      .map((sequence) => diagrams.literal(levelOf(space, sequence.id), [sequence.modes.length])),
  );
}

function supportOf(diagrams: Diagrams, { now, later, event }: TransitionGuard): number[] {
  return [now, later, event].flatMap((node) => [...diagrams.support(node)]);
}

/** Sequences in declared order, those together of which one reads the mode of the other, or that one reader reads. */
function coupled(
  sequences: readonly Sequence[],
  space: Space,
  diagrams: Diagrams,
  guards: ReadonlyMap<Transition, TransitionGuard>,
  together: readonly (readonly number[])[],
): Sequence[][] {
  let groups: Sequence[][] = [];
  for (const sequence of sequences) {
    const read = new Set(
      sequence.transitions.flatMap((transition) => {
        return supportOf(diagrams, guards.get(transition) as TransitionGuard);
      }),
    );
    const isRead = (other: Sequence): boolean => read.has(levelOf(space, other.id));
    const reads = (other: Sequence): boolean =>
      other.transitions.some((transition) => {
        const level = levelOf(space, sequence.id);
        return supportOf(diagrams, guards.get(transition) as TransitionGuard).includes(level);
      });
    const readers = together.filter((levels) => levels.includes(levelOf(space, sequence.id)));
    const meets = (other: Sequence): boolean => readers.some((levels) => levels.includes(levelOf(space, other.id)));
    const touched = groups.filter((group) => group.some((other) => isRead(other) || reads(other) || meets(other)));
    groups = [...groups.filter((group) => !touched.includes(group)), [...touched.flat(), sequence]];
  }
  const place = (sequence: Sequence): number => sequences.indexOf(sequence);
  return groups
    .map((group) => group.toSorted((a, b) => place(a) - place(b)))
    .toSorted((a, b) => place(a[0] as Sequence) - place(b[0] as Sequence));
}

function follow(
  sequences: readonly Sequence[],
  space: Space,
  diagrams: Diagrams,
  guards: ReadonlyMap<Transition, TransitionGuard>,
  inputs: Node,
): Family {
  const levels = sequences.map(({ id }) => levelOf(space, id));
  const read = new Set(
    sequences.flatMap(({ transitions }) =>
      transitions.flatMap((transition) => {
        return supportOf(diagrams, guards.get(transition) as TransitionGuard);
      }),
    ),
  );
  // Inputs that no guard reads decide nothing here.
  const possible = diagrams.exists(
    inputs,
    diagrams.support(inputs).filter((level) => !read.has(level)),
  );
  const initial = sequences.map((sequence) => sequence.initial);
  const arrived = new Map<string, Node>();
  const resting = new Map<string, Modes>();
  const arrivals = new Map<string, Arrival>();
  const taken = new Set<Transition>();
  const rivals = new Map<string, Family['rivals'][number]>();
  const standing: Node[] = [];
  const atModes = (modes: Modes): Map<number, number> =>
    new Map(
      sequences.map((sequence, index) => [
        levels[index] as number,
        sequence.modes.findIndex(({ id }) => id === modes[index]),
      ]),
    );
  const work: { modes: Modes; inputs: Node }[] = [{ modes: initial, inputs: possible }];

  const take = (modes: Modes, index: number, transition: Transition, when: Node): void => {
    if (when === diagrams.no) return;
    const sequence = sequences[index] as Sequence;
    const next = modes.with(index, transition.to);
    const key = keyOfModes(next);
    taken.add(transition);
    if (!arrivals.has(key) && key !== keyOfModes(initial)) {
      arrivals.set(key, { before: modes, sequence, transition, inputs: when });
    }
    work.push({ modes: next, inputs: when });
  };

  const noteRivals = (
    index: number,
    transition: Transition,
    now: Node,
    open: readonly (readonly [Transition, Node])[],
    modes: Modes,
  ): void => {
    const sequence = sequences[index] as Sequence;
    for (const [earlier, holds] of open) {
      const both = diagrams.and(holds, now);
      const pair = `${sequence.id} ${sequence.transitions.indexOf(earlier)} ${sequence.transitions.indexOf(transition)}`;
      if (earlier.to === transition.to || both === diagrams.no || rivals.has(pair)) continue;
      rivals.set(pair, { sequence, transitions: [earlier, transition], modes, inputs: both });
    }
  };

  for (let job = work.shift(); job; job = work.shift()) {
    const { modes } = job;
    const key = keyOfModes(modes);
    const seen = arrived.get(key) ?? diagrams.no;
    const fresh = diagrams.and(job.inputs, diagrams.not(seen));
    if (fresh === diagrams.no) continue;
    if (arrived.size > MODES_LIMIT) throw new TooManyModesError(sequences);
    arrived.set(key, diagrams.or(seen, fresh));
    const here = atModes(modes);
    const leaving = sequences.map((sequence, index) =>
      sequence.transitions.filter(({ from }) => from.includes(modes[index] as string)),
    );
    const at = (node: Node): Node => diagrams.restrictAll(node, here);
    // The modes that each transition leads to, sequences in their order and the earliest transition first; gives what stays.
    const leave = (from: Node, happened: (event: Node) => Node): Node => {
      let still = from;
      for (const [index, transitions] of leaving.entries()) {
        const open: [Transition, Node][] = [];
        for (const transition of transitions) {
          const { now, later, event } = guards.get(transition) as TransitionGuard;
          // A delay may have elapsed by this very moment, or not yet.
          take(modes, index, transition, diagrams.and(still, at(later), happened(at(event))));
          const enabled = diagrams.and(still, at(now));
          noteRivals(index, transition, at(now), open, modes);
          open.push([transition, enabled]);
          take(modes, index, transition, enabled);
          still = diagrams.and(still, diagrams.not(enabled));
        }
      }
      return still;
    };
    const stays = leave(fresh, (event) => event);
    if (stays === diagrams.no || resting.has(key)) continue;
    resting.set(key, modes);
    // Whoever rests here may see any inputs next, and the event may have come at any time before.
    arrived.set(key, diagrams.or(seen, possible));
    const undelayed = leaving.flat().map((transition) => at((guards.get(transition) as TransitionGuard).now));
    const quiet = diagrams.and(possible, diagrams.not(diagrams.or(...undelayed)));
    const modesHere = diagrams.and(...[...here].map(([level, value]) => diagrams.literal(level, [value])));
    standing.push(diagrams.and(quiet, modesHere));
    leave(possible, (event) => (diagrams.and(quiet, event) === diagrams.no ? diagrams.no : diagrams.yes));
  }
  return {
    sequences,
    resting,
    arrivals,
    taken,
    rivals: [...rivals.values()],
    endless: endlessRound(sequences, diagrams, guards, arrived, atModes),
    standing: diagrams.or(...standing),
  };
}

/** Modes and inputs from which undelayed transitions lead round and round without any input changing. */
function endlessRound(
  sequences: readonly Sequence[],
  diagrams: Diagrams,
  guards: ReadonlyMap<Transition, TransitionGuard>,
  arrived: ReadonlyMap<string, Node>,
  atModes: (modes: Modes) => Map<number, number>,
): Family['endless'] {
  // What can still move after as many steps as there are sets of modes goes round.
  let moving = new Map([...arrived].map(([key, inputs]) => [key, { modes: key.split(' '), inputs }]));
  for (let step = 0; step <= arrived.size && moving.size > 0; step += 1) {
    const next = new Map<string, { modes: string[]; inputs: Node }>();
    for (const { modes, inputs } of moving.values()) {
      const here = atModes(modes);
      let still = inputs;
      sequences.forEach((sequence, index) => {
        for (const transition of sequence.transitions) {
          const { now } = guards.get(transition) as TransitionGuard;
          if (!transition.from.includes(modes[index] as string)) continue;
          const enabled = diagrams.and(still, diagrams.restrictAll(now, here));
          still = diagrams.and(still, diagrams.not(enabled));
          if (enabled === diagrams.no) continue;
          const to = modes.with(index, transition.to);
          const key = keyOfModes(to);
          next.set(key, { modes: to, inputs: diagrams.or(next.get(key)?.inputs ?? diagrams.no, enabled) });
        }
      });
    }
    moving = next;
  }
  return [...moving.values()][0];
}
