/**
 * The variables of the diagrams and what they mean. Options stand at the top of the order, so that restriction to a fit
 * only follows pointers; controls and conditions follow in the author's order.
 */
import type { Variable } from '../logic/index.ts';
import type { Condition, Control, Fleet, Option } from '../model/index.ts';
import { comparisonsIn, cutCells, expressionsOf, type NumberCell } from './cells.ts';

export type Meaning =
  | { readonly kind: 'option'; readonly option: Option }
  /** Values are the positions, over all fits, then one more: the control is absent. */
  | { readonly kind: 'control'; readonly control: Control }
  | { readonly kind: 'condition'; readonly condition: Condition }
  | { readonly kind: 'number'; readonly condition: Condition; readonly cells: readonly NumberCell[] };

export interface Space {
  readonly variables: readonly Variable[];
  /** Parallel to `variables`; the index is the level. */
  readonly meanings: readonly Meaning[];
  readonly levelOf: ReadonlyMap<string, number>;
}

export function makeSpace(fleet: Fleet): Space {
  const compared = new Map<string, { by: '<' | '<=' | '>' | '>=' | '='; value: string }[]>();
  for (const expression of expressionsOf(fleet)) {
    for (const { condition, by, value } of comparisonsIn(expression)) {
      const list = compared.get(condition) ?? [];
      list.push({ by, value });
      compared.set(condition, list);
    }
  }
  const meanings: Meaning[] = [
    ...fleet.options.map((option) => ({ kind: 'option', option }) as const),
    ...fleet.controls.map((control) => ({ kind: 'control', control }) as const),
    ...fleet.conditions.map(
      (condition): Meaning =>
        condition.number
          ? { kind: 'number', condition, cells: cutCells(condition.number, compared.get(condition.id) ?? []) }
          : { kind: 'condition', condition },
    ),
  ];
  const variables = meanings.map((meaning) => ({
    id: idOf(meaning),
    size: sizeOf(meaning),
    ordered: meaning.kind === 'number',
  }));
  return { variables, meanings, levelOf: new Map(variables.map(({ id }, level) => [id, level])) };
}

/** The level of a name that the model has checked. */
export function levelOf(space: Space, id: string): number {
  const level = space.levelOf.get(id);
  if (level === undefined) throw new Error(`no variable is called ${id}`);
  return level;
}

/** The restriction of the options to a fit, for `restrictAll`. */
export function optionLevels(
  space: Space,
  fit: { readonly options: ReadonlyMap<string, string> },
): Map<number, number> {
  const levels = new Map<number, number>();
  for (const [id, value] of fit.options) {
    const level = levelOf(space, id);
    const meaning = space.meanings[level];
    if (meaning?.kind !== 'option') throw new Error(`${id} is not an option`);
    levels.set(
      level,
      meaning.option.values.findIndex((each) => each.id === value),
    );
  }
  return levels;
}

/** The ids of a variable's values, in order; for controls without the last value, "absent". Numbers have none. */
export function valueIds(meaning: Meaning): readonly string[] {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.values.map((value) => value.id);
    case 'control':
      return meaning.control.positions.map((position) => position.id);
    case 'condition':
      return (meaning.condition.values ?? []).map((value) => value.id);
    case 'number':
      return [];
  }
}

/** The value of a control's variable that says that the control is absent. */
export function absentValue(control: Control): number {
  return control.positions.length;
}

function idOf(meaning: Meaning): string {
  if (meaning.kind === 'option') return meaning.option.id;
  return meaning.kind === 'control' ? meaning.control.id : meaning.condition.id;
}

function sizeOf(meaning: Meaning): number {
  if (meaning.kind === 'number') return meaning.cells.length;
  return valueIds(meaning).length + (meaning.kind === 'control' ? 1 : 0);
}
