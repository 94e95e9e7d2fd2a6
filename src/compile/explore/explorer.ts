/**
 * Follows cases one movement after another: which settings can stand, what goes on at once, what waits for time, and what
 * everything is then.
 */
import type { Facts } from '../because.ts';
import type { Fit } from '../fits.ts';
import { decidingOptions } from '../groups.ts';
import { IMPOSSIBLE } from '../outcomes.ts';
import { isFittedOn } from '../positions.ts';
import { absentValue } from '../space.ts';
import { cheapestOn, conflictOn } from './conflicts.ts';
import type { Explorable } from './explorable.ts';
import { Ground } from './ground.ts';
import { type Act, keyOfWorld, type Situation, type World } from './situation.ts';

/** A transition that waits for time in the present modes. */
export interface Wait {
  /** Its place among the leaps. */
  readonly leap: number;
  /** Whether it is waited for in every world. */
  readonly certain: boolean;
}

/** The most worlds that are followed at once. */
const WORLDS_LIMIT = 256;

export class Explorer {
  readonly fleet: Explorable;
  readonly #grounds: readonly Ground[];

  constructor(fleet: Explorable) {
    this.fleet = fleet;
    this.#grounds = fleet.on.map((own) => new Ground(fleet, own));
  }

  /** The levels that a reader sets, in order. */
  get inputs(): readonly number[] {
    return this.fleet.space.meanings.flatMap(({ kind }, level) =>
      kind === 'control' || kind === 'condition' || kind === 'number' || kind === 'lamp' ? [level] : [],
    );
  }

  /** A normal case of a fit, which can stand. */
  start(fit: Fit): Situation {
    const grounds = fit.settled.map(({ index }) => this.#ground(index));
    const inputs = new Map<number, number>();
    for (const level of this.inputs) {
      const having = grounds.find((ground) => !ground.lacks(level)) ?? grounds[0];
      const value = this.fleet.on[having?.index ?? -1]?.start.get(level);
      if (value !== undefined) inputs.set(level, value);
    }
    return { inputs, worlds: distinct(grounds.flatMap((ground) => ground.begun(inputs))) };
  }

  /** What comes of an act; undefined where it cannot happen, or leaves more open than is followed. */
  after({ inputs, worlds }: Situation, act: Act): Situation | undefined {
    const next =
      act.kind === 'suppose'
        ? worlds.filter(({ answers, modes }) => (answers.get(act.level) ?? modes.get(act.level)) === act.value)
        : worlds.flatMap((world) => this.#next(inputs, world, act));
    // Nothing waits for this time.
    if (act.kind === 'wait' && next.every((world, at) => world === worlds[at])) return undefined;
    const after = { inputs: inputsAfter(inputs, act), worlds: distinct(next) };
    return after.worlds.length === 0 || after.worlds.length > WORLDS_LIMIT ? undefined : after;
  }

  /** What becomes of one world as inputs move or time passes. */
  #next(inputs: Facts, world: World, act: Exclude<Act, { kind: 'suppose' }>): World[] {
    const ground = this.#ground(world.fit);
    if (act.kind === 'wait') return [ground.waited(inputs, world, act)];
    return ground.moved(inputs, inputsAfter(inputs, act), world);
  }

  /** The sounds that an act sets off, by their places, and whether they are heard whatever is open. */
  heard({ inputs, worlds }: Situation, act: Act): { readonly at: number; readonly certain: boolean }[] {
    if (act.kind === 'suppose') return [];
    const changes = worlds.flatMap((world) => {
      const ground = this.#ground(world.fit);
      const was = ground.caseOf(inputs, world);
      return this.#next(inputs, world, act).map((next) => {
        return { ground, was, is: ground.caseOf(inputsAfter(inputs, act), next) };
      });
    });
    return this.fleet.sounds.flatMap((_, at) => {
      const count = changes.filter(({ ground, was, is }) => ground.fires(at, was, is)).length;
      return count === 0 ? [] : [{ at, certain: count === changes.length }];
    });
  }

  /** Whether inputs can be set so, at the same time, as things stand. */
  canSet({ inputs, worlds }: Situation, values: Facts): boolean {
    const next = new Map([...inputs, ...values]);
    const isFree = this.#groundsOf(worlds).some(({ tied, settings }) =>
      [...values].every(([level, value]) => !tied.has(level) && (settings.get(level)?.includes(value) ?? true)),
    );
    if (isFree) return true;
    return worlds.some(({ fit, answers }) => this.#ground(fit).answersAfter(inputs, next, answers).length > 0);
  }

  /** The values that an input can have on one of the fits, ascending; none of a control that none of them has. */
  settings({ worlds }: Situation, level: number): readonly number[] {
    const meaning = this.fleet.space.meanings[level];
    const grounds = this.#groundsOf(worlds);
    if (meaning?.kind !== 'control') {
      const isThere = meaning?.kind !== 'lamp' || grounds.some(({ fit }) => isFittedOn(meaning.item, fit));
      return isThere ? Array.from({ length: this.fleet.space.variables[level]?.size ?? 0 }, (_, value) => value) : [];
    }
    const values = grounds.flatMap(({ settings }) => settings.get(level) ?? []);
    return [...new Set(values)].filter((value) => value !== absentValue(meaning)).sort((a, b) => a - b);
  }

  /** The other inputs that a setting cannot stand together with; see `conflictOn`. */
  conflict({ inputs, worlds }: Situation, level: number, value: number): readonly number[] {
    const ground = this.#groundsOf(worlds).find(({ settings }) => settings.get(level)?.includes(value) ?? true);
    return ground ? conflictOn(this.fleet.diagrams, ground, inputs, level, value) : [];
  }

  /** A setting with the fewest other inputs that must move with it; see `cheapestOn`. */
  together(situation: Situation, level: number, value: number): Facts | undefined {
    const { diagrams, detectors } = this.fleet;
    const hidden = detectors.map((detector) => detector.level);
    for (const ground of this.#groundsOf(situation.worlds)) {
      const found = cheapestOn(diagrams, ground, situation.inputs, level, value, hidden);
      if (found && this.canSet(situation, found)) return found;
    }
    return undefined;
  }

  /** The transitions that wait for time, in their order, one for each mode that one leads to. */
  waits({ inputs, worlds }: Situation): Wait[] {
    const nameOf = (leap: number): string => {
      const { level, from, to } = this.fleet.leaps[leap] ?? {};
      return `${level} ${from} ${to}`;
    };
    const open = worlds.map((world) => this.#ground(world.fit).openLater(inputs, world));
    const first = new Map([...new Set(open.flat())].sort((a, b) => b - a).map((leap) => [nameOf(leap), leap]));
    return [...first]
      .map(([name, leap]) => ({ leap, certain: open.every((each) => each.some((one) => nameOf(one) === name)) }))
      .sort((a, b) => a.leap - b.leap);
  }

  /** The modes that a sequence can be in, or the answers of a detector; none where no fit has it. */
  open({ worlds }: Situation, level: number): readonly number[] {
    const values = worlds.flatMap(({ answers, modes }) => answers.get(level) ?? modes.get(level) ?? []);
    return [...new Set(values)].sort((a, b) => a - b);
  }

  /** Whether a settled fit has none of the controls that share a level. */
  lacks(fit: number, level: number): boolean {
    return this.#ground(fit).lacks(level);
  }

  /** The settled fits that are left. */
  fits({ worlds }: Situation): readonly number[] {
    return [...new Set(worlds.map(({ fit }) => fit))].sort((a, b) => a - b);
  }

  /** Parallel to the attributes: what each is, as readers are told. `unknown` are the options that nobody knows. */
  outcomes({ inputs, worlds }: Situation, { unknown }: Pick<Fit, 'unknown'>): readonly number[] {
    const { outcomes, attributes } = this.fleet;
    const byFit = [...Map.groupBy(worlds, ({ fit }) => fit)].map(([fit, some]) => {
      const ground = this.#ground(fit);
      return { fit: ground.fit, of: this.#outcomesOn(ground, inputs, some) };
    });
    const settled = byFit.map(({ fit }) => fit);
    return attributes.map((_, at) => {
      const of = byFit.map((each) => each.of[at] as number);
      const [only] = of;
      if (only !== undefined && of.every((outcome) => outcome === only)) return only;
      return outcomes.ofDepends(decidingOptions({ unknown, settled }, of), of);
    });
  }

  /** On one fit: what is not stated is brought together first, then what detectors leave open. */
  #outcomesOn(ground: Ground, inputs: Facts, worlds: readonly World[]): readonly number[] {
    const { outcomes, attributes, unstated } = this.fleet;
    const isStated = ([level]: readonly [number, number]): boolean => !unstated.has(level);
    const groups = [...Map.groupBy(worlds, ({ answers }) => [...answers].filter(isStated).join(' ')).values()];
    const byGroup = groups.map((group) => {
      const all = group.map((world) => ground.outcomes(inputs, world));
      const [asked] = group.flatMap(({ answers }) => [...answers].filter((each) => !isStated(each)));
      const query = asked && unstated.get(asked[0]);
      const join = (a: number, b: number): number =>
        query === undefined ? outcomes.either(a, b) : outcomes.unlessAsked(query, a, b);
      return attributes.map((_, at) => all.map((each) => each[at] as number).reduce(join, IMPOSSIBLE));
    });
    return attributes.map((_, at) =>
      byGroup.map((each) => each[at] as number).reduce((a, b) => outcomes.either(a, b), IMPOSSIBLE),
    );
  }

  #groundsOf(worlds: readonly World[]): Ground[] {
    return [...new Set(worlds.map(({ fit }) => fit))].map((fit) => this.#ground(fit));
  }

  #ground(index: number): Ground {
    const ground = this.#grounds[index];
    if (!ground) throw new Error(`there is no settled fit ${index}`);
    return ground;
  }
}

function inputsAfter(inputs: Facts, act: Act): Facts {
  return act.kind === 'set' ? new Map([...inputs, ...act.values]) : inputs;
}

function distinct(worlds: readonly World[]): World[] {
  return [...new Map(worlds.map((world) => [keyOfWorld(world), world])).values()];
}
