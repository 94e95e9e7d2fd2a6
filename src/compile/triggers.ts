/**
 * What sets a sound off: a change from one case to another, both of which can happen, in which one control, condition, lamp
 * or mode moves, and with it only what cannot stay as it is.
 */
import type { Node } from '../logic/index.ts';
import type { Sound, Trigger } from '../model/index.ts';
import type { Compiled } from './compile.ts';
import type { SettledFit } from './fits.ts';
import { type ModeStep, modeSteps, stepsBehind } from './mode-steps.ts';
import type { Possible } from './possible.ts';
import { isHidden, levelOf, optionLevels, valueIds } from './space.ts';

/** One variable that goes from one value to another. */
export interface Movement {
  readonly level: number;
  readonly from: number;
  readonly to: number;
}

/** Movements after which the sound is heard in the same cases. */
export interface TriggerRow {
  readonly level: number;
  /** From and to, as many as have the same cases; the same twice where a number moves between two of its thresholds. */
  readonly moves: readonly (readonly [from: number, to: number])[];
  /** What moves with it: an input, since otherwise the case could not happen, and modes that go on at once. */
  readonly forced: readonly Movement[];
  /** The cases before the movement, of all that does not move, in which the sound is heard: Boolean. */
  readonly when: Node;
  /** The cases in which the movement can happen. `when` lies within. */
  readonly possible: Node;
  /** The cases in which the tolerance of a detector decides whether it is heard. */
  readonly either: Node;
}

/** Tables that were found, by all that they come of: many fits have the same. */
const tablesOf = new WeakMap<Compiled, Map<string, readonly TriggerRow[]>>();

/** The trigger table of a sound on a fit: every movement after which it is heard in some case. */
export function triggerTable(compiled: Compiled, sound: Sound, fit: SettledFit): readonly TriggerRow[] {
  const tables = tablesOf.get(compiled) ?? new Map<string, readonly TriggerRow[]>();
  tablesOf.set(compiled, tables);
  const levels = levelsBehindSound(compiled, sound, fit);
  const cases = new Cases(compiled, sound, fit, levels);
  const key = `${sound.id} ${levels.join(' ')} ${cases.key}`;
  const rows = tables.get(key) ?? rowsOf(compiled, levels, cases);
  tables.set(key, rows);
  return rows;
}

function rowsOf(compiled: Compiled, levels: readonly number[], cases: Cases): TriggerRow[] {
  const { space } = compiled;
  return levels.flatMap((level) => {
    if (isHidden(space.meanings[level])) return [];
    const values = Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => value);
    const rows = new Map<string, TriggerRow>();
    for (const from of values) {
      for (const to of values) {
        if (from === to && !movesWithin(compiled, level, from)) continue;
        for (const { movement, ...found } of cases.of({ level, from, to })) {
          const key = `${found.when} ${found.possible} ${found.either} ${keyOf(found.forced)}`;
          const moves = [...(rows.get(key)?.moves ?? []), [movement.from, movement.to] as const];
          rows.set(key, { ...found, level, moves });
        }
      }
    }
    return [...rows.values()];
  });
}

/**
 * The levels whose movements can set a sound off, ascending, with the hidden ones behind them: what its triggers read, what
 * the sequences among that read, and what these inputs may not stand together with.
 */
export function levelsBehindSound(compiled: Compiled, sound: Sound, fit: SettledFit): readonly number[] {
  const { diagrams, expressions, space } = compiled;
  const options = optionLevels(space, fit);
  const here = (node: Node): Node => diagrams.restrictAll(node, options);
  const asked = sound.triggers.flatMap(({ moves, becomes, while: during }) => [
    ...(moves === undefined ? [] : [levelOf(space, moves)]),
    ...[becomes, during].flatMap((each) => (each ? diagrams.support(here(expressions.compile(each, true))) : [])),
  ]);
  const { read } = stepsBehind(diagrams, asked, modeSteps(compiled, here));
  const inputs = (compiled.inputs[fit.index] as Possible).about(read);
  return [...new Set([...read, ...diagrams.support(inputs)])].sort((a, b) => a - b);
}

interface Found extends Pick<TriggerRow, 'forced' | 'when' | 'possible' | 'either'> {
  readonly movement: Movement;
}

/** Movements at one time, the first of which brings the others, and the cases before them. */
interface Change {
  readonly movements: readonly Movement[];
  readonly before: Node;
}

class Cases {
  readonly #compiled: Compiled;
  readonly #sound: Sound;
  readonly #care: Node;
  readonly #options: ReadonlyMap<number, number>;
  readonly #steps: readonly ModeStep[];

  constructor(compiled: Compiled, sound: Sound, fit: SettledFit, levels: readonly number[]) {
    this.#compiled = compiled;
    this.#sound = sound;
    this.#care = (compiled.possible[fit.index] as Possible).only(levels);
    this.#options = optionLevels(compiled.space, fit);
    this.#steps = modeSteps(compiled, (node) => this.#here(node)).filter(({ level }) => levels.includes(level));
  }

  /** Equal for fits on which the same is heard: nodes are equal exactly when what they say is. */
  get key(): string {
    const steps = this.#steps.map(({ level, from, to, now, later }) => `${level} ${from} ${to} ${now} ${later}`);
    const triggers = this.#sound.triggers.flatMap((each) => [each.becomes, each.while].map((one) => this.#meant(one)));
    return [this.#care, ...steps, ...triggers].join('; ');
  }

  /** The cases in which one movement is heard: alone, and with each input that may be forced to move with it. */
  of(movement: Movement): Found[] {
    const { diagrams } = this.#compiled;
    const before = diagrams.and(this.#care, this.#literal(movement), this.#byTime(movement));
    if (before === diagrams.no) return [];
    const changes = [
      { movements: [movement], before },
      ...(this.#isMode(movement.level) ? [] : this.#forced(movement, before)),
    ];
    return changes.flatMap((change) => this.#heard(this.#answers(change).flatMap((each) => this.#rests(each))));
  }

  /** A movement that could not happen alone, with each one other input that makes it possible. */
  #forced(movement: Movement, before: Node): Change[] {
    const { space, diagrams } = this.#compiled;
    const others = space.meanings.flatMap((meaning, level) =>
      meaning.kind === 'sequence' || isHidden(meaning) ? [level] : [],
    );
    const inputs = diagrams.exists(this.#care, others);
    const blocked = diagrams.and(before, diagrams.not(this.#after(inputs, [movement])));
    if (blocked === diagrams.no) return [];
    const held = diagrams.support(blocked).filter((level) => level !== movement.level && !others.includes(level));
    return held.flatMap((level) => {
      const values = Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => value);
      return values.flatMap((from) =>
        values.flatMap((to) => {
          const movements = [movement, { level, from, to }];
          const possible = diagrams.and(blocked, this.#literal({ level, from }), this.#after(inputs, movements));
          return from === to || possible === diagrams.no ? [] : [{ movements, before: possible }];
        }),
      );
    });
  }

  /** The change with each way in which detectors of numbers that move may answer: the point at which one trips is fixed. */
  #answers({ movements, before }: Change): Change[] {
    const { fleet, space, diagrams } = this.#compiled;
    const isWithin = movements[0]?.from === movements[0]?.to;
    return (isWithin ? [true, false] : [undefined]).flatMap((rises) =>
      fleet.detectors.reduce<Change[]>(
        (changes, { id, number, by }) => {
          const moved = movements.find(({ level }) => level === levelOf(space, number));
          if (!moved) return changes;
          const trips = (rises ?? moved.to > moved.from) === by.startsWith('>');
          const flip = { level: levelOf(space, id), from: trips ? 0 : 1, to: trips ? 1 : 0 };
          return changes.flatMap((change) => [
            change,
            { movements: [...change.movements, flip], before: diagrams.and(change.before, this.#literal(flip)) },
          ]);
        },
        [{ movements, before }],
      ),
    );
  }

  /** The change with all modes that go on at once, until every sequence rests in a case that can happen. */
  #rests(change: Change, depth = 0): Change[] {
    const { diagrams } = this.#compiled;
    const { movements, before } = change;
    // What goes round for ever is reported as an error of its own.
    if (depth > this.#steps.length) return [];
    const rests: Change[] = [];
    let still = before;
    for (const { level, from, to, now } of this.#steps) {
      const moved = movements.find((each) => each.level === level);
      if (still === diagrams.no || (moved && moved.to !== from)) continue;
      const enabled = diagrams.and(
        still,
        moved ? diagrams.yes : this.#literal({ level, from }),
        this.#after(now, [...movements, { level, to: from }]),
      );
      if (enabled === diagrams.no) continue;
      still = diagrams.and(still, diagrams.not(enabled));
      const next = moved
        ? movements.map((each) => (each === moved ? { ...each, to } : each))
        : [...movements, { level, from, to }];
      rests.push(...this.#rests({ movements: next, before: enabled }, depth + 1));
    }
    return [...rests, { movements, before: diagrams.and(still, this.#after(this.#care, movements)) }];
  }

  /** A mode moves by itself only when a delay elapses; anything else may move at any time. */
  #byTime({ level, from, to }: Movement): Node {
    const { diagrams } = this.#compiled;
    if (!this.#isMode(level)) return diagrams.yes;
    const steps = this.#steps.filter((each) => each.level === level && each.from === from && each.to === to);
    return diagrams.or(...steps.map(({ later }) => this.#at(later, [[level, from]])));
  }

  /** Of all that one movement can lead to, by what is seen to move with it, the cases in which it is heard. */
  #heard(changes: readonly Change[]): Found[] {
    const { diagrams, space } = this.#compiled;
    const hidden = space.meanings.flatMap((meaning, level) => (isHidden(meaning) ? [level] : []));
    const judged = changes
      .filter(({ movements: [first], before }) => {
        const isBack = first && first.from === first.to && this.#isMode(first.level);
        return before !== diagrams.no && !isBack;
      })
      .map(({ movements, before }) => {
        const fires = diagrams.or(...this.#sound.triggers.map((trigger) => this.#fires(trigger, movements)));
        return { movements, before, fires: diagrams.and(before, fires) };
      });
    const silent = diagrams.exists(
      diagrams.or(...judged.map(({ before, fires }) => diagrams.and(before, diagrams.not(fires)))),
      hidden,
    );
    const seen = ([first, ...others]: readonly Movement[]): Movement[] => [
      ...(first ? [first] : []),
      ...others.filter(({ level, from, to }) => !isHidden(space.meanings[level]) && from !== to),
    ];
    return [...Map.groupBy(judged, ({ movements }) => keyOf(seen(movements))).values()].flatMap((same) => {
      const [movement, ...forced] = seen(same[0]?.movements ?? []) as [Movement, ...Movement[]];
      const from = [movement, ...forced].map((each) => [each.level, each.from] as const);
      const heard = diagrams.exists(diagrams.or(...same.map(({ fires }) => fires)), hidden);
      if (heard === diagrams.no) return [];
      const possible = diagrams.exists(diagrams.or(...same.map(({ before }) => before)), hidden);
      return [
        {
          movement,
          forced,
          possible: this.#at(possible, from),
          when: this.#at(diagrams.and(heard, diagrams.not(silent)), from),
          either: this.#at(diagrams.and(heard, silent), from),
        },
      ];
    });
  }

  #fires(trigger: Trigger, movements: readonly Movement[]): Node {
    const { diagrams } = this.#compiled;
    if (trigger.moves !== undefined && !movements.some((each) => this.#isMeant(trigger, each))) return diagrams.no;
    const before = movements.map(({ level, from }): [number, number] => [level, from]);
    const after = movements.map(({ level, to }): [number, number] => [level, to]);
    const becomes = trigger.becomes
      ? diagrams.and(
          diagrams.not(this.#at(this.#meant(trigger.becomes), before)),
          this.#at(this.#meant(trigger.becomes), after),
        )
      : diagrams.yes;
    return diagrams.and(becomes, this.#at(this.#meant(trigger.while), after));
  }

  /** What an expression says on this fit; it holds where there is none. */
  #meant(expression: Trigger['becomes']): Node {
    const { diagrams, expressions } = this.#compiled;
    return expression ? this.#here(expressions.compile(expression, true)) : diagrams.yes;
  }

  #isMeant({ moves, from, to }: Trigger, movement: Movement): boolean {
    const { space } = this.#compiled;
    const meaning = space.meanings[movement.level];
    if (!meaning || moves === undefined || levelOf(space, moves) !== movement.level) return false;
    const ids = meaning.kind === 'control' ? this.#positionIds(moves, movement.level) : valueIds(meaning);
    const among = (values: readonly string[] | undefined, value: number): boolean =>
      values === undefined || values.includes(ids[value] ?? '');
    return among(from, movement.from) && among(to, movement.to);
  }

  /** The position ids of one control by the values of the variable that it may share. */
  #positionIds(control: string, level: number): string[] {
    const meaning = this.#compiled.space.meanings[level];
    if (meaning?.kind !== 'control') return [];
    const own = meaning.controls.find(({ id }) => id === control);
    return meaning.values.map((value) => (own ? (own.positions[value.get(own) ?? -1]?.id ?? '') : ''));
  }

  #here(node: Node): Node {
    return this.#compiled.diagrams.restrictAll(node, this.#options);
  }

  #isMode(level: number): boolean {
    return this.#compiled.space.meanings[level]?.kind === 'sequence';
  }

  #literal({ level, from }: Omit<Movement, 'to'>): Node {
    return this.#compiled.diagrams.literal(level, [from]);
  }

  #after(node: Node, movements: readonly Omit<Movement, 'from'>[]): Node {
    return this.#at(
      node,
      movements.map(({ level, to }) => [level, to]),
    );
  }

  #at(node: Node, facts: readonly (readonly [number, number])[]): Node {
    return this.#compiled.diagrams.restrictAll(node, new Map(facts));
  }
}

/** Whether a detector may answer anew while a number stays between two thresholds. */
function movesWithin({ space, fleet }: Compiled, level: number, value: number): boolean {
  const meaning = space.meanings[level];
  if (meaning?.kind !== 'number') return false;
  const cell = meaning.cells[value];
  return (
    cell !== undefined &&
    cell.first < cell.last &&
    fleet.detectors.some(({ number }) => levelOf(space, number) === level)
  );
}

function keyOf(movements: readonly Movement[]): string {
  return movements.map(({ level, from, to }) => `${level} ${from} ${to}`).join(', ');
}
