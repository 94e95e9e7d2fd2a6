/**
 * Sequences in time, for nominal delays: from one moment at which something can change to the next, with exact times.
 * At a moment inputs change first. Then the first sequence that can move without a delay takes its earliest transition,
 * until none can; at such a rest each sequence for which a delay is over takes one; and so on until nothing is left. All of
 * this first with stores at their levels, and once more with those that move on a little beyond.
 */
import type { SequenceText, StoreText, TransitionText } from './content.ts';
import { compares } from './decimal.ts';
import type { Fit } from './fits.ts';
import type { Case, Outcome } from './meaning.ts';
import type { Oracle } from './oracle.ts';
import { against, decimal, divided, minus, plus, type Ratio, ratio, textOf, times } from './ratio.ts';
import { lampsOf, lampVariable, mentions } from './reach.ts';

/** How many moments are followed before it is called endless. */
const PATIENCE = 100_000;
/** How many transitions at one time. */
const ROUNDS = 1_000;

/** Inputs that change at a time: controls, conditions (numbers may have a unit), detectors, lamps. */
export interface Step {
  /** Seconds. */
  readonly at: string;
  readonly sets: ReadonlyMap<string, string>;
}
/** A movement of a sequence, at a time in seconds. */
export interface Movement {
  readonly at: string;
  readonly sequence: string;
  readonly from: string;
  readonly to: string;
}

/** Replays a timeline of the content. */
export function replay(oracle: Oracle, id: string): Course {
  const timeline = oracle.content.timelines.get(id);
  const aircraft = oracle.aircraft.find(({ serial }) => serial === timeline?.on);
  if (!timeline || !aircraft) throw new Error(`no such timeline: ${id}`);
  return new Course(oracle, aircraft.fit, timeline.steps, timeline.until);
}

interface Due {
  readonly sequence: SequenceText;
  readonly transition: TransitionText;
}

interface Moment {
  readonly at: Ratio;
  readonly given: Case;
}

export class Course {
  readonly movements: Movement[] = [];
  readonly #oracle: Oracle;
  readonly #fit: Fit;
  readonly #sequences: readonly SequenceText[];
  readonly #stores: ReadonlyMap<string, StoreText>;
  readonly #limits = new Map<string, readonly Ratio[]>();
  readonly #moments: Moment[] = [];
  readonly #set = new Map<string, string>();
  #inputs: Case;
  readonly #modes = new Map<string, string>();
  readonly #entered = new Map<string, Ratio>();
  /** Guard to the time from which it has held without a break. */
  readonly #held = new Map<string, Ratio>();
  /** Transition to the time of its event in this mode, and whether the event held when last looked at. */
  readonly #events = new Map<TransitionText, { readonly at: Ratio | undefined; readonly holds: boolean }>();
  readonly #levels = new Map<string, Ratio>();
  /** Whether time has begun to pass: levels that move are compared as if they were a little further on. */
  #movesOn = false;

  constructor(oracle: Oracle, fit: Fit, steps: readonly Step[], until: string) {
    this.#oracle = oracle;
    this.#fit = fit;
    if (oracle.candidates(fit)[0] !== fit) throw new Error(`nobody knows what ${fit.id} does`);
    this.#sequences = [...oracle.content.sequences.values()].filter(({ id }) => oracle.isFitted(fit, id));
    this.#stores = new Map(this.#sequences.flatMap(({ stores }) => [...stores]));
    this.#inputs = this.#initialInputs();
    this.#collectLimits();
    this.#run(steps, decimal(until));
  }

  /** The mode of a sequence at a time in seconds, after all changes of that very time. */
  modeAt(sequence: string, time: string): string {
    return this.caseAt(time)[sequence]!;
  }

  /** The state of an item at a time. */
  stateAt(item: string, attribute: string, time: string): Outcome | 'not-fitted' {
    return this.#oracle.state(this.#fit, item, attribute, this.caseAt(time));
  }

  holdsAt(text: string, time: string): boolean {
    return this.#oracle.evaluate(this.#fit, text, this.caseAt(time));
  }

  /** The value of every variable at a time. */
  caseAt(time: string): Case {
    const found = this.#moments.findLast(({ at }) => against(at, decimal(time)) <= 0);
    if (!found) throw new Error(`before the beginning: ${time}`);
    return found.given;
  }

  #initialInputs(): Case {
    const { conditions, controls, items } = this.#oracle.content;
    const inputs: Record<string, string> = {};
    for (const { id, normal, number, values } of conditions.values())
      inputs[id] = number ? number.from : (normal ?? [...values.keys()][0]!);
    for (const { id, positions } of controls.values()) {
      const fitted = this.#oracle.valuesOn(this.#fit, id);
      const staying = fitted.filter((each) => positions.get(each)?.returns === undefined);
      const position = staying.find((each) => !positions.get(each)?.abnormal) ?? staying[0] ?? fitted[0];
      if (position !== undefined) inputs[id] = position;
    }
    for (const item of items.values()) {
      for (const lamp of lampsOf(item)) inputs[lampVariable(item.id, lamp)] = 'serviceable';
    }
    return inputs;
  }

  /** Inputs as set so far. A detector that no step has set answers as if it had no tolerance. */
  #change(step: Step): void {
    for (const [id, value] of step.sets) {
      const isNumber = this.#oracle.content.conditions.get(id)?.number !== undefined;
      this.#set.set(id, isNumber ? /^-?\d+(?:\.\d+)?/.exec(value)![0] : value);
    }
    const inputs: Record<string, string> = { ...this.#inputs, ...Object.fromEntries(this.#set) };
    for (const { id, number, by, value } of this.#oracle.content.detectors.values())
      inputs[id] = this.#set.get(id) ?? (compares(inputs[number]!, by, value) ? 'yes' : 'no');
    this.#inputs = inputs;
  }

  #run(steps: readonly Step[], until: Ratio): void {
    let now = ratio(0n);
    for (const { id, initial } of this.#sequences) {
      this.#modes.set(id, initial);
      this.#entered.set(id, now);
    }
    for (const { id, start } of this.#stores.values()) this.#levels.set(id, decimal(start));
    let left = [...steps];
    for (let count = 0; ; count++) {
      if (count > PATIENCE) throw new Error('too many moments');
      for (const step of left.filter(({ at }) => against(decimal(at), now) <= 0)) this.#change(step);
      left = left.filter(({ at }) => against(decimal(at), now) > 0);
      this.#movesOn = false;
      this.#settle(now);
      this.#movesOn = true;
      this.#settle(now);
      this.#moments.push({ at: now, given: this.#given() });
      const coming = [...left.map(({ at }) => decimal(at)), ...this.#timers(), ...this.#crossings(now)];
      const later = coming.filter((time) => against(time, now) > 0 && against(time, until) <= 0).sort(against);
      const next = later[0];
      if (next === undefined) return;
      this.#flow(minus(next, now));
      now = next;
    }
  }

  #settle(now: Ratio): void {
    for (let count = 0; count < ROUNDS; count++) {
      const next = this.#first(
        (sequence, one) => this.#waitsOf(sequence, one).length === 0 && this.#isDue(sequence, one, now),
      );
      if (next) {
        this.#take(next, now);
        continue;
      }
      // Only what holds at rest is an event or a break.
      this.#look(now);
      const due = this.#sequences.flatMap((sequence) =>
        this.#dueOf(sequence, (one) => this.#isDue(sequence, one, now)),
      );
      if (due.length === 0) return;
      for (const one of due) this.#take(one, now);
    }
    throw new Error('it never comes to rest');
  }

  #take({ sequence, transition }: Due, now: Ratio): void {
    const { id, modes } = sequence;
    this.movements.push({ at: textOf(now), sequence: id, from: this.#modes.get(id)!, to: transition.to });
    this.#modes.set(id, transition.to);
    this.#entered.set(id, now);
    for (const one of sequence.transitions) this.#events.delete(one);
    for (const { store, level } of modes.get(transition.to)!.sets) this.#levels.set(store, decimal(level));
  }

  #first(isDue: (sequence: SequenceText, transition: TransitionText) => boolean): Due | undefined {
    for (const sequence of this.#sequences) {
      const [due] = this.#dueOf(sequence, (one) => isDue(sequence, one));
      if (due) return due;
    }
    return undefined;
  }

  /** The earliest transition of a sequence out of its mode that is due, if any is. */
  #dueOf(sequence: SequenceText, isDue: (transition: TransitionText) => boolean): Due[] {
    const mode = this.#modes.get(sequence.id)!;
    const transition = sequence.transitions.find((one) => one.from.includes(mode) && isDue(one));
    return transition ? [{ sequence, transition }] : [];
  }

  #isDue(sequence: SequenceText, transition: TransitionText, now: Ratio): boolean {
    const waits = this.#waitsOf(sequence, transition);
    const isOver = waits.every((time) => time !== undefined && against(time, now) <= 0);
    return isOver && this.#holds(transition.when ?? 'always');
  }

  /** When each delay of a transition is over; undefined where it hasn't begun. */
  #waitsOf({ id }: SequenceText, transition: TransitionText): (Ratio | undefined)[] {
    const { after, holds, since, when } = transition;
    const from = (start: Ratio | undefined, { seconds }: { seconds: string }): Ratio | undefined =>
      start && plus(start, decimal(seconds));
    return [
      ...(after ? [from(this.#entered.get(id), after)] : []),
      ...(holds ? [from(this.#held.get(when!), holds)] : []),
      ...(since ? [from(this.#events.get(transition)?.at, since.delay)] : []),
    ];
  }

  /** Notes what has begun to hold, and what has ceased to. */
  #look(now: Ratio): void {
    for (const sequence of this.#sequences) {
      const mode = this.#modes.get(sequence.id)!;
      for (const transition of sequence.transitions) {
        const { from, holds, since, when } = transition;
        if (holds && !this.#holds(when!)) this.#held.delete(when!);
        else if (holds && !this.#held.has(when!)) this.#held.set(when!, now);
        if (!since || !from.includes(mode)) continue;
        const before = this.#events.get(transition) ?? { at: undefined, holds: false };
        const isTrue = this.#holds(since.event);
        const isNew = isTrue && !before.holds && (before.at === undefined || since.restarts);
        this.#events.set(transition, { at: isNew ? now : before.at, holds: isTrue });
      }
    }
  }

  #timers(): Ratio[] {
    return this.#sequences.flatMap((sequence) => {
      const own = sequence.transitions.filter(({ from }) => from.includes(this.#modes.get(sequence.id)!));
      return own.flatMap((one) => this.#waitsOf(sequence, one).filter((time) => time !== undefined));
    });
  }

  /** When a store comes to a level that a guard compares it with, or to an end. */
  #crossings(now: Ratio): Ratio[] {
    return [...this.#stores.keys()].flatMap((id) => {
      const slope = this.#slope(id);
      if (slope.over === 0n) return [];
      return this.#limits.get(id)!.map((limit) => plus(now, divided(minus(limit, this.#levels.get(id)!), slope)));
    });
  }

  #flow(passed: Ratio): void {
    const slopes = [...this.#stores.keys()].map((id) => [id, this.#slope(id)] as const);
    for (const [id, slope] of slopes) this.#levels.set(id, plus(this.#levels.get(id)!, times(slope, passed)));
  }

  /** Per second; none at the end that it runs towards. */
  #slope(id: string): Ratio {
    const { capacity, flows } = this.#stores.get(id)!;
    let perMinute = ratio(0n);
    for (const { kind, when, perMinute: rate } of flows) {
      if (!this.#holds(when)) continue;
      perMinute = kind === 'fills' ? plus(perMinute, decimal(rate)) : minus(perMinute, decimal(rate));
    }
    const level = this.#levels.get(id)!;
    const isEmpty = level.over === 0n && perMinute.over < 0n;
    const isFull = against(level, decimal(capacity)) === 0 && perMinute.over > 0n;
    return isEmpty || isFull ? ratio(0n) : divided(perMinute, ratio(60n));
  }

  #holds(text: string): boolean {
    const { meaning } = this.#oracle;
    const store = (id: string, by: string, level: string): boolean => {
      const order = against(this.#levels.get(id)!, decimal(level));
      // At the very limit a level that moves on is beyond it from then on.
      const beyond = order === 0 && this.#movesOn ? this.#slope(id).over : BigInt(order);
      return (by.startsWith('<') ? beyond < 0n : beyond > 0n) || (by.endsWith('=') && beyond === 0n);
    };
    const truths = meaning.truths(text, { ...meaning.at(this.#fit, this.#given(), true), store });
    if (truths.size > 1) throw new Error(`not stated: ${text}`);
    return truths.has(true);
  }

  #given(): Case {
    return { ...this.#inputs, ...Object.fromEntries(this.#modes) };
  }

  #collectLimits(): void {
    const { content } = this.#oracle;
    const texts = this.#sequences.flatMap(({ transitions }) => transitions.map(({ when }) => when ?? 'always'));
    const read = texts.flatMap((text) => mentions(content, text, true, false));
    for (const [id, { capacity }] of this.#stores) {
      const levels = read.flatMap(({ name, threshold }) => (name === id && threshold !== undefined ? [threshold] : []));
      this.#limits.set(id, ['0', capacity, ...levels].map(decimal));
    }
  }
}
