/** Replays a timeline on its aircraft, exactly: times are fractions, and every change is found where it happens. */
import { readsOf } from '../../language/index.ts';
import type { Timeline } from '../../model/index.ts';
import { fitOfAircraft, type SettledFit } from '../fits.ts';
import type { Course, CourseFault, CourseRow, CourseStep, ModeChange, Span } from './course.ts';
import { compare, type Fraction, ofDecimal, ZERO } from './fraction.ts';
import { answered, type Ground, type Inputs, initialInputs } from './inputs.ts';
import { Endless, Machine } from './machine.ts';
import { NotStated, World } from './moment.ts';
import { mentionWords } from './words.ts';

/** The most changes that a course may have. */
const CHANGES_LIMIT = 5_000;

/** What happens on the timeline's aircraft, of which every option must be known. */
export function replay(ground: Ground, timeline: Timeline): Course {
  const [fit] = fitOfAircraft(ground.fits, timeline.on).settled;
  if (!fit) throw new Error(`${timeline.on} may be nothing`);
  return new Replay(ground, timeline, fit).run();
}

type Row = CourseRow & { readonly spans: Span[] };

class Replay {
  readonly #ground: Ground;
  readonly #timeline: Timeline;
  readonly #world: World;
  readonly #until: Fraction;
  readonly #machine: Machine;
  readonly #rows: readonly Row[];
  readonly #steps: CourseStep[] = [];
  readonly #faults: CourseFault[] = [];
  /** What the timeline has set, over what stands at first. */
  #set: Inputs;
  /** The same with the answers that detectors must give. */
  #inputs: Inputs;

  constructor(ground: Ground, timeline: Timeline, fit: SettledFit) {
    this.#ground = ground;
    this.#timeline = timeline;
    this.#world = new World(ground, fit);
    this.#until = ofDecimal(timeline.until);
    this.#set = initialInputs(ground, fit);
    this.#inputs = this.#set;
    this.#machine = new Machine(this.#world, this.#set);
    this.#rows = timeline.shows.map(({ id, attribute }): Row => {
      const item = ground.fleet.items.find((each) => each.id === id);
      const shown = item?.attributes.find((each) => each.id === attribute);
      if (item && shown) return { kind: 'item', item, attribute: shown, spans: [] };
      const sequence = ground.fleet.sequences.find((each) => each.id === id);
      if (!sequence) throw new Error(`${id} cannot be shown`);
      return { kind: 'sequence', sequence, spans: [] };
    });
  }

  run(): Course {
    const changes: ModeChange[] = [];
    for (let at: Fraction | undefined = ZERO; at; at = this.#after(at)) {
      this.#machine.advance(at);
      try {
        changes.push(...this.#settle(at));
        this.#expect(at);
      } catch (error) {
        this.#faults.push(faultOf(error, at));
        break;
      }
      if (changes.length <= CHANGES_LIMIT) continue;
      const sequences = [...new Set(changes.slice(-CHANGES_LIMIT / 2).map(({ sequence }) => sequence))];
      this.#faults.push({ kind: 'endless', at, sequences, many: true });
      break;
    }
    return {
      timeline: this.#timeline,
      fit: this.#world.fit,
      steps: this.#steps,
      rows: this.#rows,
      until: this.#until,
      faults: this.#faults,
    };
  }

  /** The next time at which something is set, expected or may happen, up to the end. */
  #after(at: Fraction): Fraction | undefined {
    const { steps, expects } = this.#timeline;
    const own = this.#machine.next();
    return [...[...steps, ...expects].map((each) => ofDecimal(each.at)), this.#until, ...(own ? [own] : [])]
      .filter((time) => compare(time, at) > 0 && compare(time, this.#until) <= 0)
      .reduce<Fraction | undefined>((a, b) => (a === undefined || compare(b, a) < 0 ? b : a), undefined);
  }

  #settle(at: Fraction): readonly ModeChange[] {
    const step = this.#timeline.steps.find((each) => compare(ofDecimal(each.at), at) === 0);
    if (step) this.#setInputs(step, at);
    const changes = this.#machine.settle(this.#inputs);
    if (step) {
      const moment = this.#machine.moment();
      for (const never of this.#ground.fleet.never) {
        if (moment.holds(never.expression, false)) this.#faults.push({ kind: 'never', at, step, never });
      }
    }
    const shown = this.#show(at);
    if (step || changes.length > 0 || shown.length > 0) {
      this.#steps.push({ at, inputs: step?.sets ?? [], changes, shown });
    }
    return changes;
  }

  #setInputs(step: Timeline['steps'][number], at: Fraction): void {
    this.#set = new Map([...this.#set, ...step.sets.map(({ id, value }) => [id, value] as const)]);
    const { inputs, impossible } = answered(this.#ground, this.#set);
    this.#inputs = inputs;
    for (const { detector, order } of impossible) {
      const input = step.sets.find(({ id }) => id === detector.id);
      if (input) this.#faults.push({ kind: 'detector', at, input, ...(order ? { order } : {}) });
    }
  }

  /** Goes on with the spans of the rows; the rows that have another value than before. */
  #show(at: Fraction): number[] {
    const moment = this.#machine.moment();
    const modes = this.#machine.modes;
    const { behaviours } = this.#ground;
    return this.#rows.flatMap((row, index) => {
      const behaviour = behaviours.find((each) => row.kind === 'item' && each.attribute === row.attribute);
      const value =
        row.kind === 'sequence' ? (modes.get(row.sequence.id) ?? '') : moment.outcome(behaviour?.node as number);
      const last = row.spans.at(-1);
      if (last) row.spans[row.spans.length - 1] = { ...last, until: at };
      if (last?.value === value) return [];
      row.spans.push({ from: at, until: at, value });
      return [index];
    });
  }

  #expect(at: Fraction): void {
    const moment = this.#machine.moment();
    for (const expect of this.#timeline.expects) {
      if (compare(ofDecimal(expect.at), at) !== 0 || moment.holds(expect.holds, false)) continue;
      const read = readsOf(expect.holds);
      const instead = read.map((mention) => mentionWords(mention, moment, this.#set, this.#ground));
      this.#faults.push({ kind: 'expected', at, expect, instead, since: this.#lastChanges(read.map(({ id }) => id)) });
    }
  }

  /** The last change of each of the sequences, in declared order; the very last of all where none of them changed. */
  #lastChanges(sequences: readonly string[]): { readonly at: Fraction; readonly change: ModeChange }[] {
    const all = this.#steps.flatMap(({ at, changes }) => changes.map((change) => ({ at, change })));
    const own = this.#ground.fleet.sequences
      .filter(({ id }) => sequences.includes(id))
      .flatMap((sequence) => all.filter(({ change }) => change.sequence === sequence).slice(-1));
    return own.length > 0 ? own : all.slice(-1);
  }
}

function faultOf(error: unknown, at: Fraction): CourseFault {
  if (error instanceof Endless) return { kind: 'endless', at, sequences: error.sequences, many: false };
  if (error instanceof NotStated) return { kind: 'not stated', at, expression: error.expression };
  throw error;
}
