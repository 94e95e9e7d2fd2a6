/**
 * The variables of the diagrams and what they mean. Options stand at the top of the order, so that restriction to a fit
 * only follows pointers; controls, conditions, detectors, lamps and sequences follow in the author's order. Last come the
 * answers that nobody has given, for what is not stated.
 */
import type { Variable } from '../logic/index.ts';
import type {
  Attribute,
  Condition,
  Control,
  Detector,
  Fleet,
  Item,
  NumberRange,
  Option,
  Sequence,
  Store,
} from '../model/index.ts';
import { comparisonsIn, cutCells, detectorCuts, expressionsOf, type NumberCell } from './cells.ts';

/** Controls that count as one where aircraft are compared, and the positions that share each value. */
export interface ControlMeaning {
  readonly kind: 'control';
  /** The first of them in the author's order that has no counterpart of its own. */
  readonly control: Control;
  /** All of them, `control` first. Never two on one aircraft. */
  readonly controls: readonly Control[];
  /** By value: the position's index for each control that has one. One more value says that the control is absent. */
  readonly values: readonly ReadonlyMap<Control, number>[];
}

export type Meaning =
  | { readonly kind: 'option'; readonly option: Option }
  | ControlMeaning
  | { readonly kind: 'condition'; readonly condition: Condition }
  | { readonly kind: 'number'; readonly condition: Condition; readonly cells: readonly NumberCell[] }
  /** Value 1: it trips. Hidden from readers, who see the number. */
  | { readonly kind: 'detector'; readonly detector: Detector }
  /** Value 1: the lamp has failed. */
  | { readonly kind: 'lamp'; readonly item: Item; readonly lamp: Attribute }
  /** Values are the modes, then one more: the sequence is absent. */
  | { readonly kind: 'sequence'; readonly sequence: Sequence }
  /** A store's level. Hidden: only the guards of transitions read it. */
  | {
      readonly kind: 'store';
      readonly store: Store;
      readonly range: NumberRange;
      readonly cells: readonly NumberCell[];
    }
  /** What the state would be where it is not stated: an answer that nobody knows. Hidden. */
  | { readonly kind: 'unstated'; readonly item: Item; readonly attribute: Attribute };

export interface Space {
  readonly variables: readonly Variable[];
  /** Parallel to `variables`; the index is the level. */
  readonly meanings: readonly Meaning[];
  /** By option, control, condition, detector, sequence and store id, `item.lamp` and `?item.attribute`. */
  readonly levelOf: ReadonlyMap<string, number>;
}

export function makeSpace(fleet: Fleet): Space {
  const compared = comparisons(fleet);
  const meanings: Meaning[] = [
    ...fleet.options.map((option) => ({ kind: 'option', option }) as const),
    ...controlMeanings(fleet),
    ...fleet.conditions.map(
      (condition): Meaning =>
        condition.number
          ? { kind: 'number', condition, cells: cutCells(condition.number, compared.get(condition.id) ?? []) }
          : { kind: 'condition', condition },
    ),
    ...fleet.detectors.map((detector) => ({ kind: 'detector', detector }) as const),
    ...fleet.items.flatMap((item) =>
      item.attributes.flatMap((lamp): Meaning[] => (lamp.lamp ? [{ kind: 'lamp', item, lamp }] : [])),
    ),
    ...fleet.sequences.map((sequence) => ({ kind: 'sequence', sequence }) as const),
    ...fleet.sequences.flatMap(({ stores }) => stores.map((store) => storeMeaning(store, compared))),
    ...fleet.items.flatMap((item) =>
      item.attributes.flatMap((attribute): Meaning[] =>
        attribute.rules.some(({ query }) => query !== undefined) ? [{ kind: 'unstated', item, attribute }] : [],
      ),
    ),
  ];
  return spaceOf(meanings);
}

/** The variables with these meanings, in their order. */
export function spaceOf(meanings: readonly Meaning[]): Space {
  const variables = meanings.map((meaning) => ({
    id: idOf(meaning),
    size: sizeOf(meaning),
    ordered: meaning.kind === 'number' || meaning.kind === 'store',
  }));
  const levels = meanings.flatMap((meaning, level): [string, number][] =>
    meaning.kind === 'control' ? meaning.controls.map(({ id }) => [id, level]) : [[idOf(meaning), level]],
  );
  return { variables, meanings, levelOf: new Map(levels) };
}

type Comparisons = Map<string, { by: '<' | '<=' | '>' | '>=' | '='; value: string }[]>;

/** What each number is compared with, by expressions and by detectors. */
function comparisons(fleet: Fleet): Comparisons {
  const compared: Comparisons = new Map();
  const add = (id: string, by: '<' | '<=' | '>' | '>=' | '=', value: string): void => {
    compared.set(id, [...(compared.get(id) ?? []), { by, value }]);
  };
  for (const expression of expressionsOf(fleet)) {
    for (const comparison of comparisonsIn(expression)) {
      add(comparison.op === 'level' ? comparison.store : comparison.condition, comparison.by, comparison.value);
    }
  }
  for (const detector of fleet.detectors) {
    for (const value of detectorCuts(detector)) add(detector.number, detector.by, value);
  }
  return compared;
}

/** A level is not counted in steps: it is cut finely enough that something lies between any two levels that are named. */
function storeMeaning(store: Store, compared: Comparisons): Meaning {
  const comparisons = compared.get(store.id) ?? [];
  const scale = Math.max(
    ...[store.capacity, ...comparisons.map(({ value }) => value)].map((each) => each.split('.')[1]?.length ?? 0),
  );
  const range = { unit: store.unit, from: '0', to: store.capacity, step: `0.${'0'.repeat(scale)}1` };
  return { kind: 'store', store, range, cells: cutCells(range, comparisons) };
}

/** One meaning for each control that has no counterpart of its own, in the author's order. */
export function controlMeanings(fleet: Pick<Fleet, 'controls'>): ControlMeaning[] {
  const heads = fleet.controls.filter(({ counterpart }) => counterpart === undefined);
  return heads.map((control) => {
    const others = fleet.controls.filter(({ counterpart }) => counterpart === control.id);
    const values = control.positions.map((_, index) => new Map([[control, index]]));
    for (const other of others) {
      other.positions.forEach((position, index) => {
        const same = control.positions.findIndex(({ id }) => id === position.as);
        if (same >= 0) values[same]?.set(other, index);
        else values.push(new Map([[other, index]]));
      });
    }
    return { kind: 'control', control, controls: [control, ...others], values };
  });
}

/** The level of a name that the model has checked. */
export function levelOf(space: Space, id: string): number {
  const level = space.levelOf.get(id);
  if (level === undefined) throw new Error(`no variable is called ${id}`);
  return level;
}

/** The meaning of a control's variable. */
export function controlMeaning(space: Space, control: Control): ControlMeaning {
  const meaning = space.meanings[levelOf(space, control.id)];
  if (meaning?.kind !== 'control') throw new Error(`${control.id} is not a control`);
  return meaning;
}

/** The value of a control's variable for one of its own positions, by index. */
export function valueOfPosition(meaning: ControlMeaning, control: Control, position: number): number {
  return meaning.values.findIndex((each) => each.get(control) === position);
}

type Options = ReadonlyMap<string, string>;

/** By space and fit: asked for again and again. */
const KNOWN_LEVELS = new WeakMap<Space, WeakMap<Options, ReadonlyMap<number, number>>>();

/** The restriction of the options to a fit of which all values are known, for `restrictAll`. */
export function optionLevels(space: Space, { options }: { readonly options: Options }): ReadonlyMap<number, number> {
  const known = KNOWN_LEVELS.get(space) ?? new WeakMap<Options, ReadonlyMap<number, number>>();
  KNOWN_LEVELS.set(space, known);
  const found = known.get(options);
  if (found) return found;
  const levels = new Map<number, number>();
  known.set(options, levels);
  for (const [id, value] of options) {
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

/** The ids of a variable's values, in order, without the last one of controls and sequences, "absent". Numbers have none. */
export function valueIds(meaning: Meaning): readonly string[] {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.values.map((value) => value.id);
    case 'control':
      return meaning.values.map((value) => {
        const [[control, index]] = [...value] as [[Control, number]];
        return control.positions[index]?.id ?? '';
      });
    case 'condition':
      return (meaning.condition.values ?? []).map((value) => value.id);
    case 'number':
    case 'store':
      return [];
    case 'detector':
      return ['no', 'yes'];
    case 'lamp':
      return ['serviceable', 'failed'];
    case 'sequence':
      return meaning.sequence.modes.map((mode) => mode.id);
    case 'unstated':
      return meaning.attribute.states.map((state) => state.id);
  }
}

/** The value that says that the control or sequence is absent. */
export function absentValue(meaning: Extract<Meaning, { kind: 'control' | 'sequence' }>): number {
  return valueIds(meaning).length;
}

/** Whether readers never see the variable: what they see is which states it leaves open. */
export function isHidden(meaning: Meaning | undefined): boolean {
  return meaning?.kind === 'detector' || meaning?.kind === 'store' || meaning?.kind === 'unstated';
}

/** The value that a condition, lamp or sequence has in normal cases, where it has one. */
export function normalValue(meaning: Meaning | undefined): number | undefined {
  switch (meaning?.kind) {
    case 'condition': {
      const { normal } = meaning.condition;
      return normal === undefined ? undefined : valueIds(meaning).indexOf(normal);
    }
    case 'lamp':
      return 0;
    case 'sequence': {
      const { normal } = meaning.sequence;
      return normal === undefined ? undefined : valueIds(meaning).indexOf(normal);
    }
    default:
      return undefined;
  }
}

/** The values that a variable has in normal cases; undefined where it can be anything in them. */
export function normalValues(meaning: Meaning | undefined): readonly number[] | undefined {
  const only = normalValue(meaning);
  if (meaning?.kind !== 'control') return only === undefined ? undefined : [only];
  const isAbnormal = (value: ReadonlyMap<Control, number>): boolean =>
    [...value].some(([control, position]) => control.positions[position]?.abnormal === true);
  if (!meaning.values.some(isAbnormal)) return undefined;
  const normal = meaning.values.flatMap((value, at) => (isAbnormal(value) ? [] : [at]));
  return [...normal, absentValue(meaning)];
}

/** The id that expressions and levels know a variable by. */
export function idOf(meaning: Meaning): string {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.id;
    case 'control':
      return meaning.control.id;
    case 'condition':
    case 'number':
      return meaning.condition.id;
    case 'detector':
      return meaning.detector.id;
    case 'lamp':
      return `${meaning.item.id}.${meaning.lamp.id}`;
    case 'sequence':
      return meaning.sequence.id;
    case 'store':
      return meaning.store.id;
    case 'unstated':
      return `?${meaning.item.id}.${meaning.attribute.id}`;
  }
}

function sizeOf(meaning: Meaning): number {
  if (meaning.kind === 'number' || meaning.kind === 'store') return meaning.cells.length;
  const absent = meaning.kind === 'control' || meaning.kind === 'sequence' ? 1 : 0;
  return valueIds(meaning).length + absent;
}
