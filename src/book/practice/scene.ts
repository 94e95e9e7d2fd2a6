/** What a question takes place in: a case of a procedure's stage on one aircraft, with at most one thing otherwise. */
import {
  absentValue,
  type Compiled,
  type Fit,
  isHidden,
  normalValue,
  positionsOf,
  type SettledFit,
  type StageCases,
  valueIds,
  valueOfPosition,
} from '../../compile/index.ts';
import type { Node } from '../../logic/index.ts';
import type { Aircraft, Control, Stage } from '../../model/index.ts';
import type { Random } from './random.ts';

/** Values by level. */
export type Facts = ReadonlyMap<number, number>;

/** An aircraft that is asked about. Every option of it is known. */
export interface Subject {
  readonly aircraft: Aircraft;
  readonly fit: Fit;
  readonly settled: SettledFit;
}

export interface Scene {
  readonly subject: Subject;
  readonly stage: Stage;
  /** Everything that readers see. */
  readonly facts: Facts;
  /** The same by level, for evaluation. */
  readonly values: readonly number[];
  /** The one thing that is otherwise than the stage has it, and how the stage has it. */
  readonly changed?: { readonly level: number; readonly usual: number };
}

export type Change = 'none' | 'control' | 'abnormal';

/** The subjects out of some aircraft, in their order; none with an unknown option, since it is not known what its answers are. */
export function subjectsOf({ fits }: Compiled, aircraft: readonly Aircraft[]): Subject[] {
  return aircraft.flatMap((each): Subject[] => {
    const fit = fits.find((one) => one.aircraft.includes(each));
    const [settled, ...others] = fit?.settled ?? [];
    return fit && settled && others.length === 0 ? [{ aircraft: each, fit, settled }] : [];
  });
}

/**
 * A scene with a change of one kind in one of `levels`; undefined where the draw leads to none. `wanted` says for a change,
 * or for none, which cases will do: a Boolean diagram over what readers see. All stages and changes are tried for one.
 */
export function drawScene(
  compiled: Compiled,
  random: Random,
  subject: Subject,
  change: Change,
  levels: readonly number[],
  wanted: (to?: OtherValue) => Node,
): Scene | undefined {
  const stages = compiled.procedures.flatMap((course) => course.stages);
  for (const { stage, onFits } of random.shuffled(stages)) {
    const cases = onFits[subject.settled.index];
    if (!cases || cases.cases === compiled.diagrams.no) continue;
    const changes: readonly (OtherValue | undefined)[] =
      change === 'none'
        ? [undefined]
        : levels.flatMap((level) =>
            (change === 'control' ? otherPositions : abnormalValues)(compiled, subject.settled, level, cases.facts),
          );
    for (const to of random.shuffled(changes)) {
      const usual = drawCase(compiled, random, cases, wanted(to));
      if (!usual) continue;
      const facts = to ? new Map([...usual, [to.level, to.value]]) : usual;
      const changed = to && { level: to.level, usual: usual.get(to.level) as number };
      return { subject, stage, facts, values: valuesOf(compiled, facts), ...(changed ? { changed } : {}) };
    }
  }
  return undefined;
}

function valuesOf({ space }: Compiled, facts: Facts): number[] {
  return space.meanings.map((_, level) => facts.get(level) ?? 0);
}

/** One of the cases that can be in a stage and that will do; undefined where none will. */
function drawCase(
  { diagrams, space }: Compiled,
  random: Random,
  { facts, values, cases }: StageCases,
  wanted: Node,
): Facts | undefined {
  const drawn = new Map(facts);
  const several = [...values].filter(([level, some]) => some.length > 1 && !facts.has(level));
  const { no } = diagrams;
  let left = diagrams.and(
    cases,
    diagrams.restrictAll(wanted, facts),
    ...several.map(([level, some]) => diagrams.literal(level, some)),
  );
  if (left === no) return undefined;
  const tied = new Set(diagrams.support(left));
  for (const [level, meaning] of space.meanings.entries()) {
    if (meaning.kind === 'option' || isHidden(meaning) || drawn.has(level)) continue;
    const size = space.variables[level]?.size ?? 0;
    const all = values.get(level) ?? Array.from({ length: size }, (_, value) => value);
    const value = random.pick(
      tied.has(level) ? all.filter((each) => diagrams.restrict(left, level, each) !== no) : all,
    );
    if (value === undefined) continue;
    drawn.set(level, value);
    if (tied.has(level)) left = diagrams.restrict(left, level, value);
  }
  return drawn;
}

/** What one thing is otherwise. */
export interface OtherValue {
  readonly level: number;
  readonly value: number;
}

/** Where else a control can be left. */
function otherPositions(compiled: Compiled, fit: SettledFit, level: number, facts: Facts): OtherValue[] {
  const control = controlAt(compiled, fit, level);
  const meaning = compiled.space.meanings[level];
  if (!control || meaning?.kind !== 'control') return [];
  return positionsOf(control, fit).flatMap((index) => {
    const position = control.positions[index];
    const value = valueOfPosition(meaning, control, index);
    const isLeft = position !== undefined && position.returns === undefined && !position.abnormal;
    return isLeft && value !== facts.get(level) ? [{ level, value }] : [];
  });
}

/** What a condition can be that is marked as abnormal. */
function abnormalValues({ space }: Compiled, _fit: SettledFit, level: number, facts: Facts): OtherValue[] {
  const meaning = space.meanings[level];
  const normal = normalValue(meaning);
  if (meaning?.kind !== 'condition' || normal === undefined || facts.get(level) !== normal) return [];
  return valueIds(meaning).flatMap((_, value) => (value === normal ? [] : [{ level, value }]));
}

/** The control that a fit has of those that share a variable. */
export function controlAt(compiled: Compiled, fit: SettledFit, level: number): Control | undefined {
  const meaning = compiled.space.meanings[level];
  if (meaning?.kind !== 'control') return undefined;
  return meaning.controls.find((control) => positionsOf(control, fit).length > 0);
}

/** Whether a fact says that something is not fitted, which no question states. */
export function isAbsent({ space }: Compiled, level: number, value: number): boolean {
  const meaning = space.meanings[level];
  return (meaning?.kind === 'control' || meaning?.kind === 'sequence') && value === absentValue(meaning);
}

/** Values by level with another one at a level. */
export function withValue(values: readonly number[], level: number, value: number): number[] {
  return values.map((each, at) => (at === level ? value : each));
}
