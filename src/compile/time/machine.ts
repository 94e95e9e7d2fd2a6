/**
 * Sequences in time. At each point of time undelayed transitions are taken first, one after the other, the first sequence
 * and its earliest transition before others; when none is left, the guards are looked at for how long they hold, and
 * what is due by a timer is taken, one transition of each sequence. This goes on until nothing is left to do. What holds
 * only in between, while no time passes, counts neither as an event nor as a break.
 *
 * Levels of stores move on right after a point of time, so that "below 5 min" begins just after 5 min is reached. Each point
 * of time has therefore two phases, at it and after it, between which no time passes.
 */
import type { Duration } from '../../language/index.ts';
import type { Sequence, Transition } from '../../model/index.ts';
import { comparisonsIn, expressionsOfSequence } from '../cells.ts';
import type { SettledFit } from '../fits.ts';
import { optionLevels } from '../space.ts';
import type { ModeChange } from './course.ts';
import { add, compare, type Fraction, latest, ofDecimal, subtract, ZERO } from './fraction.ts';
import type { Base, Inputs } from './inputs.ts';
import { Levels, type Phase } from './levels.ts';
import { Moment, type World } from './moment.ts';

/** Transitions that go round while no time passes. */
export class Endless extends Error {
  readonly sequences: readonly Sequence[];
  constructor(sequences: readonly Sequence[]) {
    super('transitions go round without end');
    this.sequences = sequences;
  }
}

/** Since when what a transition with a delay waits for has been there. */
interface Watch {
  /** Its `when` holds. */
  held?: Fraction | undefined;
  /** Its event came, in the present mode. */
  event?: Fraction | undefined;
  /** Its event holds at present. */
  eventHolds: boolean;
}

interface Running {
  readonly sequence: Sequence;
  mode: string;
  entered: Fraction;
}

export class Machine {
  readonly #world: World;
  readonly #running: readonly Running[];
  readonly #watches: ReadonlyMap<Transition, Watch>;
  readonly #levels: Levels;
  #inputs: Inputs;
  #now: Fraction = ZERO;
  #phase: Phase = 'at';

  /** @param sequences those that run, in declared order: none that is left out may be read by them. */
  constructor(world: World, inputs: Inputs, sequences: readonly Sequence[] = fittedSequences(world.ground, world.fit)) {
    this.#world = world;
    this.#inputs = inputs;
    this.#running = sequences.map((sequence) => ({
      sequence,
      mode: sequence.initial,
      entered: ZERO,
    }));
    this.#watches = new Map(
      sequences.flatMap(({ transitions }) =>
        transitions.filter(isDelayed).map((transition): [Transition, Watch] => [transition, { eventHolds: false }]),
      ),
    );
    this.#levels = new Levels(
      sequences.flatMap(({ stores }) => stores),
      marksOf(sequences),
    );
  }

  /** The present mode of each sequence that is fitted, by id. */
  get modes(): ReadonlyMap<string, string> {
    return new Map(this.#running.map(({ sequence, mode }) => [sequence.id, mode]));
  }

  moment(): Moment {
    return new Moment(this.#world, this.#inputs, { modes: this.modes, levels: this.#levels, phase: this.#phase });
  }

  get now(): Fraction {
    return this.#now;
  }

  /** Another machine in the same state. */
  copy(): Machine {
    const sequences = this.#running.map(({ sequence }) => sequence);
    const copy = new Machine(this.#world, this.#inputs, sequences);
    copy.#running.forEach((running, index) => void Object.assign(running, this.#running[index]));
    for (const [transition, watch] of copy.#watches) Object.assign(watch, this.#watches.get(transition));
    copy.#levels.copy(this.#levels);
    copy.#now = this.#now;
    copy.#phase = this.#phase;
    return copy;
  }

  /** What decides what comes next, whenever it is: ages beyond `longest` are all the same. */
  key(longest: Fraction): string {
    return this.#key((at) => {
      const age = subtract(this.#now, at);
      return compare(age, longest) > 0 ? longest : age;
    });
  }

  /** Goes forward to a time at which nothing happens before; see `next`. */
  advance(to: Fraction): void {
    this.#levels.advance(subtract(to, this.#now));
    this.#now = to;
  }

  /** The next time after the present one at which something may happen by itself. */
  next(): Fraction | undefined {
    const mark = this.#levels.untilMark();
    const times = this.#running.flatMap((running) =>
      running.sequence.transitions
        .filter(({ from }) => from.includes(running.mode))
        .flatMap((transition) => this.#waits(running, transition).map(({ until }) => until)),
    );
    return [...times, ...(mark ? [add(this.#now, mark)] : [])]
      .filter((time) => compare(time, this.#now) > 0)
      .reduce<Fraction | undefined>((a, b) => (a === undefined || compare(b, a) < 0 ? b : a), undefined);
  }

  /** Does all that the present point of time asks for, with these inputs. Throws `Endless` and `NotStated`. */
  settle(inputs: Inputs): ModeChange[] {
    this.#inputs = inputs;
    const changes: ModeChange[] = [];
    for (const phase of ['at', 'after'] as const) {
      this.#phase = phase;
      this.#settlePhase(changes);
    }
    return changes;
  }

  #settlePhase(changes: ModeChange[]): void {
    const seen = new Map<string, number>();
    const check = (): void => {
      const key = this.#key((at) => at);
      const before = seen.get(key);
      if (before !== undefined) {
        const moved = new Set(changes.slice(before).map(({ sequence }) => sequence));
        throw new Endless([...moved]);
      }
      seen.set(key, changes.length);
    };
    this.#steer();
    for (;;) {
      check();
      const now = this.#undelayed();
      if (now) {
        changes.push(this.#take(...now));
        continue;
      }
      this.#watch();
      const due = this.#running.flatMap((running): [Running, Transition][] => {
        const transition = running.sequence.transitions.find((each) => this.#isDue(running, each));
        return transition ? [[running, transition]] : [];
      });
      if (due.length === 0) return;
      for (const each of due) changes.push(this.#take(...each));
    }
  }

  /** The first transition that waits for no time and for which all holds. */
  #undelayed(): [Running, Transition] | undefined {
    const moment = this.moment();
    for (const running of this.#running) {
      for (const transition of running.sequence.transitions) {
        const { from, guard } = transition;
        if (isDelayed(transition) || !from.includes(running.mode)) continue;
        if (guard && moment.holds(guard.when, true)) return [running, transition];
      }
    }
    return undefined;
  }

  /** Looks at everything that delayed transitions wait for. */
  #watch(): void {
    const moment = this.moment();
    for (const { sequence, mode } of this.#running) {
      for (const transition of sequence.transitions) {
        const { from, guard, since } = transition;
        const watch = this.#watches.get(transition);
        if (!watch) continue;
        if (guard) watch.held = moment.holds(guard.when, true) ? (watch.held ?? this.#now) : undefined;
        if (!since || !from.includes(mode)) continue;
        const holds = moment.holds(since.event, true);
        if (holds && !watch.eventHolds && (watch.event === undefined || since.restarts)) watch.event = this.#now;
        watch.eventHolds = holds;
      }
    }
  }

  #isDue(running: Running, transition: Transition): boolean {
    const watch = this.#watches.get(transition);
    if (!watch || !transition.from.includes(running.mode)) return false;
    if (transition.guard && watch.held === undefined) return false;
    if (transition.since && watch.event === undefined) return false;
    return this.#waits(running, transition).every(({ until }) => compare(until, this.#now) <= 0);
  }

  /** The delays of a transition that run, each with the time at which it is over. */
  #waits(running: Running, transition: Transition): { readonly until: Fraction; readonly delay: Duration }[] {
    const { guard, after, since } = transition;
    const watch = this.#watches.get(transition);
    const started: [Fraction | undefined, Duration | undefined][] = [
      [watch?.held, guard?.holds],
      [running.entered, after],
      [watch?.event, since?.delay],
    ];
    return started.flatMap(([start, delay]) =>
      start && delay ? [{ until: add(start, ofDecimal(delay.seconds)), delay }] : [],
    );
  }

  #take(running: Running, transition: Transition): ModeChange {
    const { sequence, mode: from } = running;
    const range = this.#range(running, transition);
    running.mode = transition.to;
    running.entered = this.#now;
    for (const each of sequence.transitions) {
      const watch = this.#watches.get(each);
      if (watch) Object.assign(watch, { event: undefined, eventHolds: false });
    }
    const entered = sequence.modes.find(({ id }) => id === transition.to);
    for (const { store, level } of entered?.sets ?? []) this.#levels.set(store, level);
    this.#steer();
    return { sequence, from, to: transition.to, transition, ...(range ? { range } : {}) };
  }

  /** Between which times a transition that is taken now may come, by the tolerance of its delays. */
  #range(running: Running, transition: Transition): ModeChange['range'] {
    const waits = this.#waits(running, transition);
    if (waits.every(({ delay }) => delay.tolerance === undefined)) return undefined;
    const spread = ({ delay }: { readonly delay: Duration }): Fraction => ofDecimal(delay.tolerance ?? '0');
    const held = this.#watches.get(transition)?.held ?? ZERO;
    const early = waits.map((wait) => subtract(wait.until, spread(wait)));
    const late = waits.map((wait) => add(wait.until, spread(wait)));
    return { earliest: latest(running.entered, held, ...early), latest: latest(this.#now, ...late) };
  }

  #steer(): void {
    const moment = this.moment();
    this.#levels.steer(({ when }) => moment.holds(when, true));
  }

  /** Everything that decides what comes next, with times as `told`. */
  #key(told: (at: Fraction) => Fraction): string {
    const time = (at: Fraction | undefined): string => (at ? `${told(at).over}/${told(at).under}` : '-');
    return [
      ...this.#running.map(({ mode, entered }) => `${mode} ${time(entered)}`),
      ...[...this.#watches.values()].map(({ held, event, eventHolds }) => `${time(held)} ${time(event)} ${eventHolds}`),
      this.#levels.key,
    ].join(', ');
  }
}

/** The sequences that an aircraft has, in declared order. */
function fittedSequences({ fleet, diagrams, space, expressions }: Base, fit: SettledFit): Sequence[] {
  const options = optionLevels(space, fit);
  return fleet.sequences.filter(
    (sequence) => diagrams.restrictAll(expressions.itemFitted(sequence), options) === diagrams.yes,
  );
}

function isDelayed({ guard, after, since }: Transition): boolean {
  return guard?.holds !== undefined || after !== undefined || since !== undefined;
}

/** By store: the levels that guards compare it with. */
function marksOf(sequences: readonly Sequence[]): Map<string, string[]> {
  const marks = new Map<string, string[]>();
  for (const sequence of sequences) {
    for (const expression of expressionsOfSequence(sequence)) {
      for (const comparison of comparisonsIn(expression)) {
        if (comparison.op !== 'level') continue;
        marks.set(comparison.store, [...(marks.get(comparison.store) ?? []), comparison.value]);
      }
    }
  }
  return marks;
}
