/**
 * What a page needs to compare any two aircraft by itself: the normal forms of every fit as packed diagrams, and the words of
 * what they read. Plain JSON.
 */
import { type Compiled, comparable, levelOf, type Meaning, type OutcomeMeaning } from '../../compile/index.ts';
import { type PackedDiagrams, pack } from '../../logic/index.ts';
import type {
  Aircraft,
  Condition,
  Control,
  FittedLegend,
  Glyph,
  Item,
  Option,
  Panel,
  Position,
  Sequence,
} from '../../model/index.ts';
import { holdsOnFit } from '../../model/index.ts';

/** The settled fits on which something over options holds, by index. */
export type OnFits = readonly number[];
/** An expression over options is packed as where it holds. */
type Fitted<T> = Omit<T, 'fitted' | 'legends'> & {
  readonly fitted?: OnFits;
  readonly legends: readonly { readonly when: OnFits; readonly legend: string }[];
};
type Named<T extends { id: string; title: string }, K extends keyof T = never> = Pick<T, 'id' | 'title' | K>;

export type PackedPosition = Fitted<
  Pick<Position, 'id' | 'legend' | 'legends' | 'returns' | 'as' | 'abnormal' | 'fitted'>
>;
export type PackedControl = Omit<Fitted<Named<Control, 'panel' | 'counterpart' | 'fitted'>>, 'legends'> & {
  readonly positions: readonly PackedPosition[];
};
export type PackedItem = Fitted<
  Named<Item, 'kind' | 'panel' | 'noun' | 'plural' | 'colour' | 'legend' | 'legends' | 'fitted'>
> & {
  readonly attributes: readonly {
    readonly id: string;
    readonly title: string;
    readonly lamp: boolean;
    readonly control?: string;
    readonly states: readonly { readonly id: string; readonly title: string; readonly glyph: Glyph }[];
  }[];
};

/** What a variable is, by the id of its definition. Levels that nothing here reads have none. */
export type PackedMeaning =
  | { readonly kind: 'control' | 'condition' | 'sequence'; readonly level: number; readonly id: string }
  | {
      readonly kind: 'number';
      readonly level: number;
      readonly id: string;
      /** Where cells meet: the value, and whether it belongs to the lower one. */
      readonly cuts: readonly (readonly [value: string, lower: boolean])[];
    }
  | { readonly kind: 'lamp'; readonly level: number; readonly id: string; readonly lamp: string };

export interface PackedComparison {
  readonly asOf: string;
  readonly aircraft: readonly (Pick<Aircraft, 'serial' | 'registration' | 'kind'> & {
    /** Registrations that it will have, by their first days. */
    readonly renamed: readonly (readonly [date: string, registration: string])[];
  })[];
  readonly options: readonly (Named<Option> & { readonly values: readonly Named<Option['values'][number]>[] })[];
  /** Values of the options by their places. */
  readonly settled: readonly (readonly number[])[];
  readonly fits: readonly {
    /** Values of the options by their places; -1 where it is unknown. */
    readonly options: readonly number[];
    /** Which of `aircraft`, and the first and the last day, empty where there is none. */
    readonly holders: readonly (readonly [aircraft: number, from: string, until: string])[];
    readonly settled: readonly number[];
  }[];
  readonly panels: readonly Named<Panel>[];
  readonly controls: readonly PackedControl[];
  readonly conditions: readonly (Pick<Condition, 'id' | 'title' | 'normal' | 'noun'> & {
    readonly unit?: string;
    readonly values: readonly { readonly id: string; readonly title: string; readonly says: string }[];
  })[];
  readonly sequences: readonly (Named<Sequence, 'panel' | 'noun' | 'normal'> & {
    readonly modes: readonly { readonly id: string; readonly title: string; readonly says: string }[];
  })[];
  readonly items: readonly PackedItem[];
  readonly meanings: readonly PackedMeaning[];
  /** By level, where it is not the same on every fit, the values that occur on each. */
  readonly occurring: readonly (readonly [level: number, byFit: readonly (readonly number[])[]])[];
  /** What the terminals of the diagrams mean, ascending; what is said of several comes after these. */
  readonly outcomes: readonly (readonly [terminal: number, meaning: OutcomeMeaning])[];
  readonly diagrams: PackedDiagrams;
  /** By attribute of an item, in order, which diagram it is on each fit. */
  readonly forms: readonly (readonly number[])[];
}

/** What a packed comparison says of fits and definitions, without how anything behaves. */
export type PackedDefinitions = Omit<PackedComparison, 'diagrams' | 'forms' | 'outcomes'>;

/** `words`: of conditions and sequences that a normal form reads, or of all of them. */
export function packComparison(compiled: Compiled, words: 'read' | 'all' = 'read'): PackedComparison {
  const { occurring } = comparable(compiled);
  const { fleet, fits, settled, behaviours, diagrams, space } = compiled;
  const roots = [...new Set(behaviours.flatMap(({ forms }) => forms))];
  const places = new Map(roots.map((root, at) => [root, at]));
  const packed = pack(diagrams, roots);
  const byLevel = space.meanings.flatMap(({ kind }, level): [number, (readonly number[])[]][] => {
    if (kind !== 'control' && kind !== 'sequence' && kind !== 'condition') return [];
    const byFit = fits.map((fit) => occurring(level, fit));
    return new Set(byFit.map((values) => values.join())).size > 1 ? [[level, byFit]] : [];
  });
  // The control of an item stands first in its tables.
  const driving = behaviours.flatMap(({ attribute: { control } }) => (control ? [levelOf(space, control)] : []));
  const levels = new Set([...packed.levels, ...byLevel.map(([level]) => level), ...driving]);
  const used = space.meanings.flatMap((meaning, level) => (levels.has(level) ? packedMeaning(meaning, level) : []));
  const isUsed = ({ id }: { readonly id: string }): boolean =>
    words === 'all' || used.some((meaning) => meaning.id === id);
  const valueAt = (options: ReadonlyMap<string, string>): number[] =>
    fleet.options.map(({ id, values }) => values.findIndex((value) => value.id === options.get(id)));
  const serials = fleet.aircraft.map(({ serial }) => serial);
  const on = fittedOn(compiled);
  return {
    asOf: fleet.book.date,
    aircraft: fleet.aircraft.map(({ serial, registration, kind, changes }) => ({
      ...{ serial, registration, kind },
      renamed: changes
        .filter(({ option }) => option === 'registration')
        .map(({ date, value }) => [date, value] as const),
    })),
    options: fleet.options.map((option) => ({ ...named(option), values: option.values.map(named) })),
    settled: settled.map(({ options }) => valueAt(options)),
    fits: fits.map(({ options, holders, settled: ways }) => ({
      options: valueAt(options),
      holders: holders.map(
        ({ aircraft, from = '', until = '' }) => [serials.indexOf(aircraft.serial), from, until] as const,
      ),
      settled: ways.map(({ index }) => index),
    })),
    panels: fleet.panels.map(named),
    controls: fleet.controls.map((control) => ({
      ...named(control),
      ...kept(control, 'panel', 'counterpart'),
      ...on.fitted(control),
      positions: control.positions.map((position) => ({
        ...kept(position, 'id', 'legend', 'returns', 'as', 'abnormal'),
        ...on.fitted(position),
        legends: on.legends(position),
      })),
    })),
    conditions: fleet.conditions.filter(isUsed).map((condition) => ({
      ...named(condition),
      ...kept(condition, 'normal', 'noun'),
      ...(condition.number ? { unit: condition.number.unit } : {}),
      values: (condition.values ?? []).map((value) => kept(value, 'id', 'title', 'says')),
    })),
    sequences: fleet.sequences.filter(isUsed).map((sequence) => ({
      ...named(sequence),
      ...kept(sequence, 'panel', 'noun', 'normal'),
      modes: sequence.modes.map((mode) => kept(mode, 'id', 'title', 'says')),
    })),
    items: fleet.items.map((item) => ({
      ...named(item),
      ...kept(item, 'kind', 'panel', 'noun', 'plural', 'colour', 'legend'),
      ...on.fitted(item),
      legends: on.legends(item),
      attributes: item.attributes.map((attribute) => ({
        ...named(attribute),
        ...kept(attribute, 'control'),
        lamp: attribute.lamp !== undefined,
        states: attribute.states.map((state) => kept(state, 'id', 'title', 'glyph')),
      })),
    })),
    meanings: used,
    occurring: byLevel,
    outcomes: outcomesOf(compiled, packed.terminals),
    diagrams: packed,
    forms: behaviours.map(({ forms }) => forms.map((form) => places.get(form) as number)),
  };
}

export function packedMeaning(meaning: Meaning, level: number): PackedMeaning[] {
  switch (meaning.kind) {
    case 'control':
      return [{ kind: 'control', level, id: meaning.control.id }];
    case 'condition':
      return [{ kind: 'condition', level, id: meaning.condition.id }];
    case 'sequence':
      return [{ kind: 'sequence', level, id: meaning.sequence.id }];
    case 'number': {
      const cuts = meaning.cells.flatMap(({ above }) =>
        above ? [[above.value, above.belongsTo === 'lower'] as const] : [],
      );
      return [{ kind: 'number', level, id: meaning.condition.id, cuts }];
    }
    case 'lamp':
      return [{ kind: 'lamp', level, id: meaning.item.id, lamp: meaning.lamp.id }];
    default:
      throw new Error(`a normal form reads ${meaning.kind}`);
  }
}

/** Those of the terminals, and those that they are made of. */
export function outcomesOf(
  { outcomes }: Pick<Compiled, 'outcomes'>,
  terminals: readonly number[],
): PackedComparison['outcomes'] {
  const found = new Set<number>();
  const visit = (terminal: number): void => {
    found.add(terminal);
    const meaning = outcomes.meaning(terminal);
    if ('of' in meaning) for (const each of meaning.of) visit(each);
  };
  for (const terminal of terminals) visit(terminal);
  return [...found].sort((a, b) => a - b).map((terminal) => [terminal, outcomes.meaning(terminal)]);
}

function fittedOn({ settled }: Compiled): {
  fitted: (thing: Pick<Item, 'fitted'>) => { fitted?: OnFits };
  legends: (thing: Pick<Item, 'legends'>) => { when: OnFits; legend: string }[];
} {
  const where = (when: FittedLegend['when']): number[] =>
    settled.filter(({ options }) => holdsOnFit(when, options) === true).map(({ index }) => index);
  return {
    fitted: ({ fitted }) => (fitted ? { fitted: where(fitted) } : {}),
    legends: ({ legends }) => legends.map(({ when, legend }) => ({ when: where(when), legend })),
  };
}

function named<T extends { readonly id: string; readonly title: string }>({
  id,
  title,
}: T): { id: string; title: string } {
  return { id, title };
}

/** Some of the properties of a thing, those that it has. */
function kept<T extends object, K extends keyof T>(thing: T, ...keys: readonly K[]): Pick<T, K> {
  return Object.fromEntries(keys.filter((key) => thing[key] !== undefined).map((key) => [key, thing[key]])) as Pick<
    T,
    K
  >;
}
