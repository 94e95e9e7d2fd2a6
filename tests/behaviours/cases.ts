/** The cases that can happen on a fit, one by one, over the variables that somebody names. */
import { type Compiled, type Fit, valueIds } from '../../src/compile/index.ts';
import type { Node } from '../../src/logic/index.ts';
import { type Column, columnOf, type Value, valuesOf } from './columns.ts';

/** By level. */
export type Case = ReadonlyMap<number, Value>;

export interface Variables {
  readonly columns: readonly Column[];
  readonly values: readonly (readonly Value[])[];
}

/** The variables of a table, with those at the levels in `also`, and their values as the table's cells cut them. */
export function variablesOf(
  compiled: Compiled,
  ids: readonly string[],
  rows: readonly (readonly string[])[],
  also: readonly number[],
): Variables {
  const named = ids.map((id) => columnOf(compiled, id));
  const others = also
    .filter((level) => named.every((column) => column.level !== level))
    .map((level) => columnOf(compiled, compiled.space.variables[level]?.id ?? ''));
  const columns = [...named, ...others];
  const values = columns.map((column, at) =>
    valuesOf(column, at < named.length ? rows.map((row) => row[at] ?? '-') : []),
  );
  return { columns, values };
}

/** Every case over the variables that some values of all others complete to one that can happen. */
export function* possibleCases(compiled: Compiled, fit: Fit, { columns, values }: Variables): Iterable<Case> {
  const { diagrams } = compiled;
  const kept = new Set(columns.map(({ level }) => level));
  const projected = fit.settled.map(({ index }) => {
    const possible = compiled.possible[index]?.whole ?? diagrams.no;
    return diagrams.exists(
      possible,
      diagrams.support(possible).filter((level) => !kept.has(level)),
    );
  });
  yield* completions(0, diagrams.or(...projected), new Map());

  function* completions(at: number, possible: Node, so: Case): Iterable<Case> {
    if (possible === diagrams.no) return;
    const column = columns[at];
    if (!column) {
      yield so;
      return;
    }
    for (const value of values[at] ?? []) {
      const rest = diagrams.restrict(possible, column.level, value.value);
      yield* completions(at + 1, rest, new Map([...so, [column.level, value]]));
    }
  }
}

/** Whether everything in the case has its normal value, where it has one. */
export function isNormal(columns: readonly Column[], so: Case): boolean {
  return columns.every(({ level, meaning }) => {
    const value = so.get(level)?.value;
    switch (meaning.kind) {
      case 'condition':
        return meaning.condition.normal === undefined || valueIds(meaning)[value ?? -1] === meaning.condition.normal;
      case 'lamp':
        return valueIds(meaning)[value ?? -1] === 'serviceable';
      case 'sequence':
        return meaning.sequence.normal === undefined || valueIds(meaning)[value ?? -1] === meaning.sequence.normal;
      default:
        return true;
    }
  });
}

/** "selector OFF, airspeed 240" */
export function caseText(columns: readonly Column[], so: Case): string {
  return columns.map(({ id, level }) => `${id} ${so.get(level)?.written}`).join(', ') || 'any case';
}
