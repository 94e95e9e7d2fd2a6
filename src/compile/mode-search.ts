/**
 * Which modes sequences can be in: those that an untimed run leads to. Inputs may change to any possible ones at any time;
 * undelayed transitions are taken at once, the earliest declared first; a delay may have elapsed or not; a store may
 * stand at any level. The search goes from modes to modes one by one, with the inputs as diagrams.
 */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Sequence, Transition } from '../model/index.ts';
import type { Possible } from './possible.ts';
import { levelOf, type Space } from './space.ts';
import type { TransitionGuard } from './transition-guard.ts';

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

/** The levels that a guard reads. */
export function supportOf(diagrams: Diagrams, { now, later, event }: TransitionGuard): number[] {
  return [now, later, event].flatMap((node) => [...diagrams.support(node)]);
}

export class ModeSearch {
  readonly #sequences: readonly Sequence[];
  readonly #diagrams: Diagrams;
  readonly #guards: ReadonlyMap<Transition, TransitionGuard>;
  readonly #levels: readonly number[];
  /** The inputs that can happen, as far as a guard reads them. */
  readonly #possible: Node;
  readonly #initial: Modes;
  /** By modes: the inputs with which a run has been seen there. */
  readonly #arrived = new Map<string, Node>();
  readonly #resting = new Map<string, Modes>();
  readonly #arrivals = new Map<string, Arrival>();
  readonly #taken = new Set<Transition>();
  readonly #rivals = new Map<string, Family['rivals'][number]>();
  readonly #standing: Node[] = [];
  readonly #work: { readonly modes: Modes; readonly inputs: Node }[] = [];

  constructor(
    sequences: readonly Sequence[],
    space: Space,
    diagrams: Diagrams,
    guards: ReadonlyMap<Transition, TransitionGuard>,
    inputs: Possible,
  ) {
    this.#sequences = sequences;
    this.#diagrams = diagrams;
    this.#guards = guards;
    this.#levels = sequences.map(({ id }) => levelOf(space, id));
    const transitions = sequences.flatMap((sequence) => sequence.transitions);
    const read = new Set(transitions.flatMap((transition) => supportOf(diagrams, this.#guardOf(transition))));
    const possible = inputs.about(read);
    this.#possible = diagrams.exists(
      possible,
      diagrams.support(possible).filter((level) => !read.has(level)),
    );
    this.#initial = sequences.map(({ initial }) => initial);
  }

  /** What the search depends on: the same for fits that differ in nothing that these sequences read. */
  get key(): string {
    const guards = this.#sequences.flatMap(({ id, transitions }) => [
      id,
      ...transitions.flatMap((transition) => {
        const { now, later, event } = this.#guardOf(transition);
        return [now, later, event];
      }),
    ]);
    return [this.#possible, ...guards].join(' ');
  }

  /** Follows every run. Throws a `TooManyModesError` where there are too many modes to follow. */
  family(): Family {
    this.#work.push({ modes: this.#initial, inputs: this.#possible });
    for (let job = this.#work.shift(); job; job = this.#work.shift()) this.#arrive(job.modes, job.inputs);
    return {
      sequences: this.#sequences,
      resting: this.#resting,
      arrivals: this.#arrivals,
      taken: this.#taken,
      rivals: [...this.#rivals.values()],
      endless: this.#endless(),
      standing: this.#diagrams.or(...this.#standing),
    };
  }

  /** A run comes to some modes with some inputs: it goes on at once, or rests there and sees whatever may come. */
  #arrive(modes: Modes, inputs: Node): void {
    const diagrams = this.#diagrams;
    const key = keyOfModes(modes);
    const seen = this.#arrived.get(key) ?? diagrams.no;
    const fresh = diagrams.and(inputs, diagrams.not(seen));
    if (fresh === diagrams.no) return;
    if (this.#arrived.size > MODES_LIMIT) throw new TooManyModesError(this.#sequences);
    this.#arrived.set(key, diagrams.or(seen, fresh));
    const stays = this.#leave(modes, fresh, (event) => event);
    if (stays === diagrams.no || this.#resting.has(key)) return;
    this.#resting.set(key, modes);
    this.#arrived.set(key, diagrams.or(seen, this.#possible));
    const here = this.#at(modes);
    const leaving = this.#leaving(modes).flat();
    const undelayed = leaving.map((transition) => diagrams.restrictAll(this.#guardOf(transition).now, here));
    const quiet = diagrams.and(this.#possible, diagrams.not(diagrams.or(...undelayed)));
    const inModes = [...here].map(([level, value]) => diagrams.literal(level, [value]));
    this.#standing.push(diagrams.and(quiet, ...inModes));
    // The event may have come at any time before.
    const happened = (event: Node): Node => (diagrams.and(quiet, event) === diagrams.no ? diagrams.no : diagrams.yes);
    this.#leave(modes, this.#possible, happened);
  }

  /**
   * Takes each transition that some of the inputs allow, sequences in their order and the earliest transition first; gives
   * the inputs with which the run stays. `happened` says where an event has come.
   */
  #leave(modes: Modes, inputs: Node, happened: (event: Node) => Node): Node {
    const diagrams = this.#diagrams;
    const here = this.#at(modes);
    const at = (node: Node): Node => diagrams.restrictAll(node, here);
    let still = inputs;
    for (const [index, transitions] of this.#leaving(modes).entries()) {
      const open: [Transition, Node][] = [];
      for (const transition of transitions) {
        const { now, later, event } = this.#guardOf(transition);
        // A delay may have elapsed by this very moment, or not yet.
        this.#take(modes, index, transition, diagrams.and(still, at(later), happened(at(event))));
        const enabled = diagrams.and(still, at(now));
        this.#noteRivals(modes, index, transition, at(now), open);
        open.push([transition, enabled]);
        this.#take(modes, index, transition, enabled);
        still = diagrams.and(still, diagrams.not(enabled));
      }
    }
    return still;
  }

  #take(modes: Modes, index: number, transition: Transition, inputs: Node): void {
    if (inputs === this.#diagrams.no) return;
    const sequence = this.#sequences[index] as Sequence;
    const next = modes.with(index, transition.to);
    const key = keyOfModes(next);
    this.#taken.add(transition);
    if (!this.#arrivals.has(key) && key !== keyOfModes(this.#initial)) {
      this.#arrivals.set(key, { before: modes, sequence, transition, inputs });
    }
    this.#work.push({ modes: next, inputs });
  }

  #noteRivals(
    modes: Modes,
    index: number,
    transition: Transition,
    now: Node,
    open: readonly (readonly [Transition, Node])[],
  ): void {
    const sequence = this.#sequences[index] as Sequence;
    for (const [earlier, holds] of open) {
      const inputs = this.#diagrams.and(holds, now);
      const pair = `${sequence.id} ${sequence.transitions.indexOf(earlier)} ${sequence.transitions.indexOf(transition)}`;
      if (earlier.to === transition.to || inputs === this.#diagrams.no || this.#rivals.has(pair)) continue;
      this.#rivals.set(pair, { sequence, transitions: [earlier, transition], modes, inputs });
    }
  }

  /** Modes and inputs from which undelayed transitions lead round and round without any input changing. */
  #endless(): Family['endless'] {
    const diagrams = this.#diagrams;
    // What can still move after as many steps as there are sets of modes goes round.
    let moving = new Map([...this.#arrived].map(([key, inputs]) => [key, { modes: key.split(' '), inputs }]));
    for (let step = 0; step <= this.#arrived.size && moving.size > 0; step += 1) {
      const next = new Map<string, { modes: string[]; inputs: Node }>();
      for (const { modes, inputs } of moving.values()) {
        const here = this.#at(modes);
        let still = inputs;
        for (const [index, transitions] of this.#leaving(modes).entries()) {
          for (const transition of transitions) {
            const enabled = diagrams.and(still, diagrams.restrictAll(this.#guardOf(transition).now, here));
            still = diagrams.and(still, diagrams.not(enabled));
            if (enabled === diagrams.no) continue;
            const to = modes.with(index, transition.to);
            const key = keyOfModes(to);
            next.set(key, { modes: to, inputs: diagrams.or(next.get(key)?.inputs ?? diagrams.no, enabled) });
          }
        }
      }
      moving = next;
    }
    return [...moving.values()][0];
  }

  #guardOf(transition: Transition): TransitionGuard {
    const guard = this.#guards.get(transition);
    if (!guard) throw new Error(`the transition to ${transition.to} has no guard`);
    return guard;
  }

  /** For each sequence, the transitions that lead out of its mode. */
  #leaving(modes: Modes): readonly (readonly Transition[])[] {
    return this.#sequences.map(({ transitions }, index) =>
      transitions.filter(({ from }) => from.includes(modes[index] as string)),
    );
  }

  /** The modes as values of their variables. */
  #at(modes: Modes): Map<number, number> {
    return new Map(
      this.#sequences.map((sequence, index) => [
        this.#levels[index] as number,
        sequence.modes.findIndex(({ id }) => id === modes[index]),
      ]),
    );
  }
}
