/** One settled fit, on which cases are followed: what can stand there, what is taken at once and in time, and what is heard. */
import type { Node } from '../../logic/index.ts';
import type { Facts } from '../because.ts';
import type { SettledFit } from '../fits.ts';
import { settingsOn } from '../positions.ts';
import { absentValue } from '../space.ts';
import type { Explorable, ExplorableFit, Guard } from './explorable.ts';
import type { Act, World } from './situation.ts';

export class Ground {
  readonly fit: SettledFit;
  /** By level of a control, the values that it can have: that it is absent, where the fit has none. */
  readonly settings: ReadonlyMap<number, readonly number[]>;
  /** The levels that constraints say more of than which positions a control has. */
  readonly tied: ReadonlySet<number>;
  /** Constraints over inputs alone, and those that read detectors. */
  readonly seen: readonly Node[];
  readonly hidden: readonly Node[];
  readonly #fleet: Explorable;
  readonly #own: ExplorableFit;
  /** The levels of what is not stated that transitions and sounds read. */
  readonly #asked: readonly number[];

  constructor(fleet: Explorable, own: ExplorableFit) {
    const { diagrams, space, detectors, unstated } = fleet;
    this.#fleet = fleet;
    this.#own = own;
    this.fit = own.fit;
    const settings = new Map(
      space.meanings.flatMap(({ kind }, level) =>
        kind === 'control' ? [[level, settingsOn(space, level, own.fit)] as const] : [],
      ),
    );
    this.settings = settings;
    /** Whether a constraint says of one control no more than which positions it has. */
    const isPlain = (node: Node, [level = 0, ...others]: readonly number[]): boolean =>
      others.length === 0 &&
      (settings.get(level)?.every((value) => diagrams.restrict(node, level, value) === diagrams.yes) ?? false);
    this.tied = new Set(
      own.constraints.flatMap((node) => {
        const support = diagrams.support(node);
        return isPlain(node, support) ? [] : support;
      }),
    );
    const readsHidden = (node: Node): boolean =>
      diagrams.support(node).some((level) => detectors.some((detector) => detector.level === level));
    this.seen = own.constraints.filter((node) => !readsHidden(node));
    this.hidden = own.constraints.filter(readsHidden);
    const read = new Set(
      [
        ...own.hearings.flatMap((each) => each.flatMap(({ becomes, during }) => [becomes ?? during, during])),
        ...own.guards.flatMap(({ now, later, event }) => [now, later, event]),
      ].flatMap((node) => diagrams.support(node)),
    );
    this.#asked = [...unstated.keys()].filter((level) => read.has(level));
  }

  get index(): number {
    return this.fit.index;
  }

  /** Whether it has none of the controls that share a level. */
  lacks(level: number): boolean {
    const meaning = this.#fleet.space.meanings[level];
    return meaning?.kind === 'control' && this.settings.get(level)?.[0] === absentValue(meaning);
  }

  /** The inputs as the fit has them: what it lacks is absent. */
  inputs(inputs: Facts): Map<number, number> {
    return new Map(
      [...inputs].map(([level, value]) => [
        level,
        this.lacks(level) ? (this.settings.get(level)?.[0] ?? value) : value,
      ]),
    );
  }

  caseOf(inputs: Facts, { answers, modes }: World): Map<number, number> {
    return new Map([...this.inputs(inputs), ...answers, ...modes]);
  }

  /** The worlds in which a normal case stands: one for each way to answer what is hidden. */
  begun(inputs: Facts): World[] {
    const { space } = this.#fleet;
    const modes = new Map([...this.#own.start].filter(([level]) => space.meanings[level]?.kind === 'sequence'));
    return this.#answered(inputs, new Map()).map((answers) =>
      this.#settled(inputs, { fit: this.index, answers, modes, happened: new Set() }),
    );
  }

  /** The worlds that a world becomes as inputs move; none where they cannot stand. */
  moved(before: Facts, after: Facts, world: World): World[] {
    return this.answersAfter(before, after, world.answers).map((answers) =>
      this.#settled(after, { ...world, answers }),
    );
  }

  /** The world after time has passed for a sequence; the same one where nothing waits for it. */
  waited(inputs: Facts, world: World, { level, from, to }: Extract<Act, { kind: 'wait' }>): World {
    const isOpen = this.openLater(inputs, world).some((at) => {
      const leap = this.#fleet.leaps[at];
      return leap?.level === level && leap.from === from && leap.to === to;
    });
    if (!isOpen) return world;
    const modes = new Map(world.modes);
    const happened = new Set(world.happened);
    this.#enter(level, to, modes, happened);
    return this.#settled(inputs, { ...world, modes, happened });
  }

  /** The leaps that are taken in time from here. */
  openLater(inputs: Facts, world: World): number[] {
    const given = this.caseOf(inputs, world);
    return this.#fleet.leaps.flatMap(({ level, from }, at) => {
      const isHere = world.modes.get(level) === from && world.happened.has(at);
      return isHere && this.#holds(this.#guard(at).later, given) ? [at] : [];
    });
  }

  /**
   * Every way in which what is hidden can answer after inputs have moved. A detector answers anew where its number moves, but its
   * actual point stays where it is, so that it trips only while the number moves towards it.
   */
  answersAfter(before: Facts, after: Facts, answers: Facts): Facts[] {
    const kept = new Map(answers);
    for (const { level, number, rises } of this.#fleet.detectors) {
      const [from, to] = [before.get(number) ?? 0, after.get(number) ?? 0];
      if (from !== to && (answers.get(level) === 1) !== (to > from === rises)) kept.delete(level);
    }
    return this.#answered(after, kept);
  }

  /** Whether the change from one case to another sets a sound off. */
  fires(sound: number, was: Facts, is: Facts): boolean {
    const triggers = this.#fleet.sounds[sound]?.triggers ?? [];
    // A wait that changes nothing is no change.
    if (![...is].some(([level, value]) => was.get(level) !== value)) return false;
    return (this.#own.hearings[sound] ?? []).some(({ becomes, during }, place) => {
      const { level, from, to } = triggers[place] ?? {};
      if (level !== undefined) {
        const [before, after] = [was.get(level) as number, is.get(level) as number];
        if (before === after || from?.includes(before) === false || to?.includes(after) === false) return false;
      }
      const isNew = becomes === undefined || (!this.#holds(becomes, was) && this.#holds(becomes, is));
      return isNew && this.#holds(during, is);
    });
  }

  /** Parallel to the attributes: what each is in a world. */
  outcomes(inputs: Facts, world: World): readonly number[] {
    const { diagrams, outcomes, unstated, space } = this.#fleet;
    const given = this.caseOf(inputs, world);
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
    return this.#own.behaviours.map(follow);
  }

  /** Every way in which what is hidden can answer with these inputs, where some answers are given. */
  #answered(inputs: Facts, given: Facts): Facts[] {
    const { diagrams, space, detectors } = this.#fleet;
    const here = this.inputs(inputs);
    for (const [level, value] of here) if (this.settings.get(level)?.includes(value) === false) return [];
    if (!this.seen.every((node) => this.#holds(node, here))) return [];
    const facts = new Map([...here, ...given]);
    const left = diagrams.and(...this.hidden.map((node) => diagrams.restrictAll(node, facts)));
    const open = [...detectors.map(({ level }) => level), ...this.#asked].filter((level) => !given.has(level));
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

  /** Takes all transitions that are taken at once, the first in order before others, and notes what happens at the rest. */
  #settled(inputs: Facts, world: World): World {
    const { leaps } = this.#fleet;
    const given = this.caseOf(inputs, world);
    const modes = new Map(world.modes);
    const happened = new Set(world.happened);
    // Rounds that never end are an error of the content.
    for (let count = 0; count < 100 * (leaps.length + 1); count += 1) {
      const next = leaps.findIndex(
        ({ level, from }, at) => modes.get(level) === from && this.#holds(this.#guard(at).now, given),
      );
      const leap = leaps[next];
      if (!leap) {
        leaps.forEach(({ level, from }, at) => {
          if (modes.get(level) === from && this.#holds(this.#guard(at).event, given)) happened.add(at);
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
    for (const at of happened) if (this.#fleet.leaps[at]?.level === level) happened.delete(at);
  }

  /** Whether a Boolean diagram holds in a case that says all that it reads. */
  #holds(node: Node, given: Facts): boolean {
    const { diagrams } = this.#fleet;
    let at = node;
    for (let value = diagrams.valueOf(at); ; value = diagrams.valueOf(at)) {
      if (value !== undefined) return value === 1;
      at = diagrams.child(at, given.get(diagrams.level(at)) as number);
    }
  }

  #guard(at: number): Guard {
    const guard = this.#own.guards[at];
    if (!guard) throw new Error(`leap ${at} has no guard`);
    return guard;
  }
}
