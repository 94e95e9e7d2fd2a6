/**
 * Follows cases one movement after another: which settings can stand, what goes on at once, what waits for time, and what
 * everything is then.
 */
import type { Node } from '../../logic/index.ts';
import type { Facts } from '../because.ts';
import type { Fit } from '../fits.ts';
import { decidingOptions } from '../groups.ts';
import { IMPOSSIBLE } from '../outcomes.ts';
import { isFittedOn, settingsOn } from '../positions.ts';
import { absentValue } from '../space.ts';
import type { Explorable, ExplorableFit, Guard } from './explorable.ts';
import { type Act, keyOfWorld, type Situation, type World } from './situation.ts';

/** A transition that waits for time in the present modes. */
export interface Wait {
  /** Its place among the leaps. */
  readonly leap: number;
  /** Whether it is waited for in every world that it could be in. */
  readonly certain: boolean;
}

/** The cheapest way down a diagram, level by level. */
interface Way {
  readonly cost: number;
  readonly level?: number;
  readonly value?: number;
  readonly rest?: Way;
}

/** The most worlds that are followed at once. */
const WORLDS_LIMIT = 256;

/** One fit with what is asked of it again and again. */
interface Ground extends ExplorableFit {
  /** By level of a control or a sequence, the values that it can have. */
  readonly settings: ReadonlyMap<number, readonly number[]>;
  /** Constraints over inputs alone, and those that read what is hidden. */
  readonly seen: readonly Node[];
  readonly hidden: readonly Node[];
  /** The levels that constraints say more of than which positions a control has. */
  readonly tied: ReadonlySet<number>;
  /** The levels of what is not stated that transitions and sounds read. */
  readonly asked: readonly number[];
}

export class Explorer {
  readonly fleet: Explorable;
  readonly #grounds = new Map<number, Ground>();
  readonly #detectors: ReadonlySet<number>;

  constructor(fleet: Explorable) {
    this.fleet = fleet;
    this.#detectors = new Set(fleet.detectors.map(({ level }) => level));
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
      const having = grounds.find((ground) => !this.#lacks(ground, level)) ?? grounds[0];
      const value = having?.start.get(level);
      if (value !== undefined) inputs.set(level, value);
    }
    const worlds = grounds.flatMap((ground): World[] => {
      const modes = new Map([...ground.start].filter(([level]) => this.#isMode(level)));
      const begun = { fit: ground.fit.index, answers: new Map(), modes, happened: new Set<number>() };
      return this.#answered(ground, inputs, begun.answers).map((answers) =>
        this.#settled(ground, inputs, { ...begun, answers }),
      );
    });
    return { inputs, worlds: distinct(worlds) };
  }

  /** What comes of an act; undefined where it cannot happen, or leaves more open than is followed. */
  after(before: Situation, act: Act): Situation | undefined {
    const after = this.#after(before, act);
    return after.worlds.length === 0 || after.worlds.length > WORLDS_LIMIT ? undefined : after;
  }

  #after(before: Situation, act: Act): Situation {
    if (act.kind === 'suppose') {
      const worlds = before.worlds.filter(
        ({ answers, modes }) => (answers.get(act.level) ?? modes.get(act.level)) === act.value,
      );
      return { ...before, worlds };
    }
    if (act.kind === 'wait') {
      const worlds = before.worlds.flatMap((world) => this.#next(before.inputs, before.inputs, world, act));
      return worlds.every((world, at) => world === before.worlds[at])
        ? { ...before, worlds: [] }
        : { ...before, worlds: distinct(worlds) };
    }
    const inputs = new Map([...before.inputs, ...act.values]);
    const worlds = before.worlds.flatMap((world) => this.#next(before.inputs, inputs, world, act));
    return { inputs, worlds: distinct(worlds) };
  }

  /** What becomes of one world as inputs move or time passes. */
  #next(before: Facts, after: Facts, world: World, act: Exclude<Act, { kind: 'suppose' }>): World[] {
    if (act.kind === 'wait') return [this.#waited(before, world, act)];
    const ground = this.#ground(world.fit);
    return this.#reanswered(ground, before, after, world.answers).map((answers) =>
      this.#settled(ground, after, { ...world, answers }),
    );
  }

  /** The sounds that an act sets off, by their places, and whether they are heard whatever is open. */
  heard(before: Situation, act: Act): { readonly at: number; readonly certain: boolean }[] {
    if (act.kind === 'suppose') return [];
    const inputs = act.kind === 'set' ? new Map([...before.inputs, ...act.values]) : before.inputs;
    const changes = before.worlds.flatMap((world) =>
      this.#next(before.inputs, inputs, world, act).map((next) => {
        const ground = this.#ground(world.fit);
        return { ground, was: this.#caseOf(ground, before.inputs, world), is: this.#caseOf(ground, inputs, next) };
      }),
    );
    return this.fleet.sounds.flatMap((_, at) => {
      const count = changes.filter(({ ground, was, is }) => this.#fires(ground, at, was, is)).length;
      return count === 0 ? [] : [{ at, certain: count === changes.length }];
    });
  }

  #fires({ hearings }: Ground, at: number, was: Facts, is: Facts): boolean {
    const triggers = this.fleet.sounds[at]?.triggers ?? [];
    return (hearings[at] ?? []).some(({ becomes, during }, place) => {
      const { level, from, to } = triggers[place] ?? {};
      if (level !== undefined) {
        const [before, after] = [was.get(level) as number, is.get(level) as number];
        if (before === after || from?.includes(before) === false || to?.includes(after) === false) return false;
      }
      const isNew = becomes === undefined || (!this.#holds(becomes, was) && this.#holds(becomes, is));
      // A wait that changes nothing is no change.
      return isNew && this.#holds(during, is) && [...is].some(([each, value]) => was.get(each) !== value);
    });
  }

  /** Whether inputs can be set so, at the same time, as things stand. */
  canSet({ inputs, worlds }: Situation, values: Facts): boolean {
    const next = new Map([...inputs, ...values]);
    const isFree = this.#groundsOf(worlds).some(({ tied, settings }) =>
      [...values].every(([level, value]) => !tied.has(level) && (settings.get(level)?.includes(value) ?? true)),
    );
    if (isFree) return true;
    return worlds.some(({ fit, answers }) => this.#reanswered(this.#ground(fit), inputs, next, answers).length > 0);
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

  /**
   * The fewest of the other inputs, as they are set, that a setting cannot stand together with on one of the fits; none where it
   * cannot stand with anything, or where it can stand.
   */
  conflict({ inputs, worlds }: Situation, level: number, value: number): readonly number[] {
    const { diagrams } = this.fleet;
    const ground = this.#groundsOf(worlds).find(({ settings }) => settings.get(level)?.includes(value) ?? true);
    if (!ground) return [];
    const { near, read } = this.#near(ground, level);
    const stands = (given: Facts): boolean =>
      diagrams.and(...near.map((node) => diagrams.restrictAll(node, given))) !== diagrams.no;
    const facts = new Map([...this.#inputsOn(ground, inputs)].filter(([each]) => read.has(each)));
    facts.set(level, value);
    if (stands(facts)) return [];
    for (const each of [...facts.keys()].reverse()) {
      const fewer = new Map([...facts].filter(([other]) => other !== each));
      if (each !== level && !stands(fewer)) facts.delete(each);
    }
    return [...facts.keys()].filter((each) => each !== level);
  }

  /**
   * A setting with the fewest other inputs that must move with it so that it can stand, each as little as can be; undefined where it
   * never can.
   */
  together(situation: Situation, level: number, value: number): Facts | undefined {
    const { diagrams, space } = this.fleet;
    for (const ground of this.#groundsOf(situation.worlds)) {
      const { near } = this.#near(ground, level);
      const present = this.#inputsOn(ground, situation.inputs).set(level, value);
      const whole = diagrams.and(...near.map((node) => diagrams.restrict(node, level, value)));
      const hidden = diagrams.support(whole).filter((each) => this.#detectors.has(each));
      const known = new Map<Node, Way>();
      const cheapest = (node: Node): Way => {
        const end = diagrams.valueOf(node);
        if (end !== undefined) return { cost: end === 1 ? 0 : Number.POSITIVE_INFINITY };
        const before = known.get(node);
        if (before) return before;
        const at = diagrams.level(node);
        const now = present.get(at) ?? 0;
        let best: Way = { cost: Number.POSITIVE_INFINITY };
        for (let each = 0; each < (space.variables[at]?.size ?? 0); each += 1) {
          const rest = cheapest(diagrams.child(node, each));
          // One thing more is worse than any distance.
          const cost = rest.cost + (each === now ? 0 : 1000 + Math.abs(each - now));
          if (cost < best.cost) best = { cost, level: at, value: each, rest };
        }
        known.set(node, best);
        return best;
      };
      const found = new Map([[level, value]]);
      const way = cheapest(diagrams.exists(whole, hidden));
      for (let step: Way | undefined = way; step?.level !== undefined; step = step.rest) {
        const { level: at, value: to = 0 } = step;
        if (present.get(at) !== to) found.set(at, to);
      }
      if (way.cost < Number.POSITIVE_INFINITY && this.canSet(situation, found)) return found;
    }
    return undefined;
  }

  /** The constraints that hang together with a level, and all that they read. */
  #near(
    { seen, hidden }: Ground,
    level: number,
  ): { readonly near: readonly Node[]; readonly read: ReadonlySet<number> } {
    const { diagrams } = this.fleet;
    const all = [...seen, ...hidden];
    const read = new Set([level]);
    for (let size = -1; size < read.size; ) {
      size = read.size;
      for (const node of all) {
        const support = diagrams.support(node);
        if (support.some((each) => read.has(each))) for (const each of support) read.add(each);
      }
    }
    return { near: all.filter((node) => diagrams.support(node).some((each) => read.has(each))), read };
  }

  /** The transitions that wait for time, in their order, one for each mode that one leads to. */
  waits({ inputs, worlds }: Situation): Wait[] {
    const { leaps } = this.fleet;
    const open = worlds.map((world) => this.#openLater(inputs, world));
    const found = leaps.flatMap((_, leap): Wait[] => {
      const count = open.filter((each) => each.includes(leap)).length;
      return count === 0 ? [] : [{ leap, certain: count === worlds.length }];
    });
    return [
      ...Map.groupBy(found, ({ leap }) => `${leaps[leap]?.level} ${leaps[leap]?.from} ${leaps[leap]?.to}`).values(),
    ].flatMap(([first]) => first ?? []);
  }

  /** The modes that a sequence can be in, or the answers of a detector; none where no fit has it. */
  open({ worlds }: Situation, level: number): readonly number[] {
    const values = worlds.flatMap(({ answers, modes }) => answers.get(level) ?? modes.get(level) ?? []);
    return [...new Set(values)].sort((a, b) => a - b);
  }

  /** Whether a fit has none of the controls that share a level. */
  lacks(fit: number, level: number): boolean {
    return this.#lacks(this.#ground(fit), level);
  }

  /** The settled fits that are left. */
  fits({ worlds }: Situation): readonly number[] {
    return [...new Set(worlds.map(({ fit }) => fit))].sort((a, b) => a - b);
  }

  /** Parallel to the attributes: what each is, as readers are told. `unknown` are the options that nobody knows. */
  outcomes(situation: Situation, { unknown }: Pick<Fit, 'unknown'>): readonly number[] {
    const { outcomes, attributes, on } = this.fleet;
    const byFit = [...Map.groupBy(situation.worlds, ({ fit }) => fit)].map(([fit, worlds]) => ({
      fit: (on[fit] as ExplorableFit).fit,
      of: this.#outcomesOn(situation.inputs, worlds),
    }));
    const settled = byFit.map(({ fit }) => fit);
    return attributes.map((_, at) => {
      const of = byFit.map((each) => each.of[at] as number);
      const [only] = of;
      if (only !== undefined && of.every((outcome) => outcome === only)) return only;
      return outcomes.ofDepends(decidingOptions({ unknown, settled }, of), of);
    });
  }

  /** On one fit: what is not stated is brought together first, then what detectors leave open. */
  #outcomesOn(inputs: Facts, worlds: readonly World[]): readonly number[] {
    const { outcomes, attributes, unstated } = this.fleet;
    const isStated = ([level]: readonly [number, number]): boolean => !unstated.has(level);
    const groups = [...Map.groupBy(worlds, ({ answers }) => [...answers].filter(isStated).join(' ')).values()];
    const byGroup = groups.map((group) => {
      const all = group.map((world) => this.#outcomesIn(inputs, world));
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

  #outcomesIn(inputs: Facts, world: World): readonly number[] {
    const { diagrams, outcomes, unstated, space } = this.fleet;
    const ground = this.#ground(world.fit);
    const given = this.#caseOf(ground, inputs, world);
    const follow = (node: Node): number => {
      const outcome = diagrams.valueOf(node);
      if (outcome !== undefined) return outcome;
      const level = diagrams.level(node);
      const value = given.get(level);
      if (value !== undefined) return follow(diagrams.child(node, value));
      const size = space.variables[level]?.size ?? 0;
      const query = unstated.get(level);
      if (query === undefined) throw new Error(`nothing is said of level ${level}`);
      return Array.from({ length: size }, (_, answer) => follow(diagrams.child(node, answer))).reduce((a, b) =>
        outcomes.unlessAsked(query, a, b),
      );
    };
    return ground.behaviours.map(follow);
  }

  /** Whether a Boolean diagram holds in a world. */
  #holds(node: Node, given: Facts): boolean {
    const { diagrams } = this.fleet;
    let at = node;
    for (let value = diagrams.valueOf(at); ; value = diagrams.valueOf(at)) {
      if (value !== undefined) return value === 1;
      at = diagrams.child(at, given.get(diagrams.level(at)) as number);
    }
  }

  #caseOf(ground: Ground, inputs: Facts, { answers, modes }: World): Map<number, number> {
    return new Map([...this.#inputsOn(ground, inputs), ...answers, ...modes]);
  }

  /** The inputs as a fit has them: what it lacks is absent. */
  #inputsOn(ground: Ground, inputs: Facts): Map<number, number> {
    return new Map(
      [...inputs].map(([level, value]) => [
        level,
        this.#lacks(ground, level) ? (ground.settings.get(level)?.[0] ?? value) : value,
      ]),
    );
  }

  #lacks({ settings }: Ground, level: number): boolean {
    const meaning = this.fleet.space.meanings[level];
    return meaning?.kind === 'control' && settings.get(level)?.[0] === absentValue(meaning);
  }

  /** Takes all transitions that are taken at once, the first in order before others, and notes what happens at the rest. */
  #settled(ground: Ground, inputs: Facts, world: World): World {
    const { leaps } = this.fleet;
    const given = this.#caseOf(ground, inputs, world);
    const modes = new Map(world.modes);
    const happened = new Set(world.happened);
    // Rounds that never end are an error of the content.
    for (let count = 0; count < 100 * (leaps.length + 1); count += 1) {
      const next = leaps.findIndex(
        ({ level, from }, at) => modes.get(level) === from && this.#holds(guardOf(ground, at).now, given),
      );
      const leap = leaps[next];
      if (!leap) {
        leaps.forEach(({ level, from }, at) => {
          if (modes.get(level) === from && this.#holds(guardOf(ground, at).event, given)) happened.add(at);
        });
        return { ...world, modes, happened };
      }
      this.#enter(leap.level, leap.to, modes, happened);
      given.set(leap.level, leap.to);
    }
    throw new Error('transitions go round without end');
  }

  /** What has happened in a mode is forgotten with it. */
  #enter(level: number, mode: number, modes: Map<number, number>, happened: Set<number>): void {
    modes.set(level, mode);
    for (const at of happened) if (this.fleet.leaps[at]?.level === level) happened.delete(at);
  }

  #waited(inputs: Facts, world: World, { level, from, to }: Extract<Act, { kind: 'wait' }>): World {
    const ground = this.#ground(world.fit);
    const isOpen = this.#openLater(inputs, world).some((at) => {
      const leap = this.fleet.leaps[at];
      return leap?.level === level && leap.from === from && leap.to === to;
    });
    if (!isOpen) return world;
    const modes = new Map(world.modes);
    const happened = new Set(world.happened);
    this.#enter(level, to, modes, happened);
    return this.#settled(ground, inputs, { ...world, modes, happened });
  }

  /** The leaps that are taken in time from here. */
  #openLater(inputs: Facts, world: World): number[] {
    const ground = this.#ground(world.fit);
    const given = this.#caseOf(ground, inputs, world);
    return this.fleet.leaps.flatMap(({ level, from }, at) =>
      world.modes.get(level) === from && world.happened.has(at) && this.#holds(guardOf(ground, at).later, given)
        ? [at]
        : [],
    );
  }

  /** Every way in which what is hidden can answer with these inputs, where some answers are given. */
  #answered(ground: Ground, inputs: Facts, given: Facts): Facts[] {
    const { diagrams, space } = this.fleet;
    const here = this.#inputsOn(ground, inputs);
    for (const [level, value] of here) if (ground.settings.get(level)?.includes(value) === false) return [];
    if (!ground.seen.every((node) => this.#holds(node, here))) return [];
    const facts = new Map([...here, ...given]);
    const left = diagrams.and(...ground.hidden.map((node) => diagrams.restrictAll(node, facts)));
    const open = [...this.fleet.detectors.map(({ level }) => level), ...ground.asked].filter(
      (level) => !given.has(level),
    );
    return open
      .reduce<{ answers: Facts; left: Node }[]>(
        (ways, level) =>
          ways.flatMap((way) =>
            Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => ({
              answers: new Map([...way.answers, [level, value]]),
              left: diagrams.restrict(way.left, level, value),
            })).filter((each) => each.left !== diagrams.no),
          ),
        left === diagrams.no ? [] : [{ answers: given, left }],
      )
      .map(({ answers }) => answers);
  }

  /**
   * The same after inputs have moved: a detector answers anew where its number moves, but its actual point stays where it is, so
   * that it trips only while the number moves towards it.
   */
  #reanswered(ground: Ground, before: Facts, after: Facts, answers: Facts): Facts[] {
    const kept = new Map(answers);
    for (const { level, number, rises } of this.fleet.detectors) {
      const [from, to] = [before.get(number) ?? 0, after.get(number) ?? 0];
      if (from !== to && (answers.get(level) === 1) !== (to > from === rises)) kept.delete(level);
    }
    return this.#answered(ground, after, kept);
  }

  #groundsOf(worlds: readonly World[]): Ground[] {
    return [...new Set(worlds.map(({ fit }) => fit))].map((fit) => this.#ground(fit));
  }

  #ground(index: number): Ground {
    const known = this.#grounds.get(index);
    if (known) return known;
    const { diagrams, space, on, unstated } = this.fleet;
    const found = on[index];
    if (!found) throw new Error(`there is no settled fit ${index}`);
    const readsHidden = (node: Node): boolean => diagrams.support(node).some((level) => this.#detectors.has(level));
    const read = new Set([
      ...found.hearings.flatMap((each) =>
        each.flatMap(({ becomes, during }) =>
          [becomes, during].flatMap((node) => (node === undefined ? [] : diagrams.support(node))),
        ),
      ),
      ...found.guards.flatMap(({ now, later, event }) => [now, later, event].flatMap((node) => diagrams.support(node))),
    ]);
    const settings = new Map(
      space.meanings.flatMap(({ kind }, level) =>
        kind === 'control' ? [[level, settingsOn(space, level, found.fit)] as const] : [],
      ),
    );
    /** Whether a constraint says of one control no more than which positions it has. */
    const isPlain = (node: Node, [level = 0, ...others]: readonly number[]): boolean =>
      others.length === 0 &&
      (settings.get(level)?.every((value) => diagrams.restrict(node, level, value) === diagrams.yes) ?? false);
    const ground: Ground = {
      ...found,
      settings,
      seen: found.constraints.filter((node) => !readsHidden(node)),
      hidden: found.constraints.filter(readsHidden),
      tied: new Set(
        found.constraints.flatMap((node) => {
          const support = diagrams.support(node);
          return isPlain(node, support) ? [] : support;
        }),
      ),
      asked: [...unstated.keys()].filter((level) => read.has(level)),
    };
    this.#grounds.set(index, ground);
    return ground;
  }

  #isMode(level: number): boolean {
    return this.fleet.space.meanings[level]?.kind === 'sequence';
  }
}

function distinct(worlds: readonly World[]): World[] {
  return [...new Map(worlds.map((world) => [keyOfWorld(world), world])).values()];
}

function guardOf({ guards }: ExplorableFit, at: number): Guard {
  const guard = guards[at];
  if (!guard) throw new Error(`leap ${at} has no guard`);
  return guard;
}
