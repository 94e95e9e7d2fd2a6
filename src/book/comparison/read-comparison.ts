/**
 * Packed comparisons as a fleet that can be compared. Definitions have only what a comparison asks of them; the rest of them
 * is empty.
 */
import {
  controlMeanings,
  type Fit,
  groupFits,
  IMPOSSIBLE,
  type Meaning,
  NOT_FITTED,
  type OutcomeMeaning,
  Outcomes,
  type SettledFit,
  type Space,
  spaceOf,
} from '../../compile/index.ts';
import { Diagrams, loadPacked, type Node } from '../../logic/index.ts';
import {
  type Aircraft,
  type Condition,
  type Control,
  type FittedLegend,
  type Item,
  type Sequence,
  UNKNOWN,
} from '../../model/index.ts';
import type { ComparedFleet } from './comparison.ts';
import type { OnFits, PackedComparison, PackedDefinitions, PackedMeaning } from './packed-comparison.ts';

/** Throws a `PackedError` where the diagrams are damaged. */
export function readComparison(packed: PackedComparison): ComparedFleet {
  const read = readDefinitions(packed);
  const outcomes = new Outcomes();
  const { diagrams, forms } = readForms(packed, read.space, outcomes);
  return comparedOf(packed, read, { diagrams, outcomes, forms }, read.fits);
}

/** The definitions of a packed comparison, and the variables that they make. */
export interface ReadDefinitions extends Definitions {
  readonly aircraft: readonly Aircraft[];
  readonly fits: readonly Fit[];
  readonly space: Space;
}

export function readDefinitions(packed: PackedDefinitions): ReadDefinitions {
  const definitions = definitionsOf(packed);
  const aircraft = packed.aircraft.map(
    ({ serial, registration, kind, renamed }): Aircraft => ({
      ...{ serial, registration, kind, fit: new Map(), made: [], place: NOWHERE },
      changes: renamed.map(([date, value]) => ({ date, value, option: 'registration', place: NOWHERE })),
    }),
  );
  const space = spaceOf(packed.meanings.map((meaning) => meaningOf(meaning, definitions)));
  return { ...definitions, aircraft, fits: fitsOf(packed, aircraft), space };
}

/** The normal forms by attribute and fit, in a manager of their own. Throws a `PackedError` where they are damaged. */
export function readForms(
  packed: Pick<PackedComparison, 'meanings' | 'diagrams' | 'outcomes' | 'forms'>,
  space: Space,
  outcomes: Outcomes,
): { readonly diagrams: Diagrams; readonly forms: readonly (readonly Node[])[] } {
  const levels = new Map(packed.meanings.map(({ level }, at) => [level, at]));
  const levelOf = (level: number): number => levels.get(level) ?? -1;
  const tested = packed.diagrams.levels.map(levelOf);
  const diagrams = new Diagrams(space.variables, {
    order: [...tested, ...space.meanings.keys()].filter((level, at, all) => all.indexOf(level) === at),
  });
  const terminals = new Map<number, number>();
  for (const [terminal, meaning] of packed.outcomes) terminals.set(terminal, outcomeOf(outcomes, meaning, terminals));
  const roots = loadPacked(diagrams, packed.diagrams, levelOf).map((root) =>
    diagrams.map('read', root, (terminal) => terminals.get(terminal) ?? -1),
  );
  return { diagrams, forms: packed.forms.map((byFit) => byFit.map((root) => roots[root] as Node)) };
}

/** `grouped`: the fits that attributes have groups of. */
export function comparedOf(
  packed: PackedDefinitions,
  { items, controls, aircraft, fits, space }: ReadDefinitions,
  { diagrams, outcomes, forms }: Pick<ComparedFleet, 'diagrams' | 'outcomes'> & { forms: readonly (readonly Node[])[] },
  grouped: readonly Fit[],
): ComparedFleet {
  const attributes = items.flatMap((item) => item.attributes.map((attribute) => ({ item, attribute })));
  const levels = new Map(packed.meanings.map(({ level }, at) => [level, at]));
  const occurring = new Map(packed.occurring.map(([level, byFit]) => [levels.get(level), byFit]));
  return {
    ...{ asOf: packed.asOf, aircraft, fits, space, diagrams, outcomes },
    fleet: {
      ...{ items, controls },
      options: packed.options.map((option) => ({
        ...{ ...option, place: NOWHERE },
        values: option.values.map((value) => ({ ...value, place: NOWHERE })),
      })),
      panels: packed.panels.map((panel) => ({ ...panel, controls: [], items: [], place: NOWHERE })),
    },
    behaviours: attributes.map((each, at) => {
      const byFit = forms[at] as readonly Node[];
      return { ...each, forms: byFit, groups: groupFits(grouped, byFit, aircraft) };
    }),
    occurring: (level, fit) => occurring.get(level)?.[fit.index] ?? [],
  };
}

const NOWHERE = { file: { path: '', text: '' }, start: 0, end: 0 };

/** No option of the fleet has this id: the index of a settled fit stands for all its options. */
const INDEX = '#';

function fitsOf(packed: PackedDefinitions, aircraft: readonly Aircraft[]): Fit[] {
  const values = (places: readonly number[]): [string, string][] =>
    packed.options.map(({ id, values: all }, at) => [id, all[places[at] as number]?.id ?? UNKNOWN]);
  const settled = packed.settled.map(
    (places, index): SettledFit => ({
      index,
      options: new Map([...values(places), [INDEX, String(index)]]),
      aircraft: [],
    }),
  );
  return packed.fits.map(({ options, holders, settled: ways }, index): Fit => {
    const held = holders.map(([at, from, until]) => ({
      aircraft: aircraft[at] as Aircraft,
      ...(from === '' ? {} : { from }),
      ...(until === '' ? {} : { until }),
    }));
    const chosen = new Map(values(options));
    return {
      ...{ index, options: chosen, holders: held },
      aircraft: held.filter(({ from }) => from === undefined).map((holder) => holder.aircraft),
      settled: ways.map((way) => settled[way] as SettledFit),
      unknown: packed.options.map(({ id }) => id).filter((id) => chosen.get(id) === UNKNOWN),
    };
  });
}

interface Definitions {
  readonly controls: readonly Control[];
  readonly conditions: readonly Condition[];
  readonly sequences: readonly Sequence[];
  readonly items: readonly Item[];
}

function definitionsOf(packed: PackedDefinitions): Definitions {
  return {
    controls: packed.controls.map(({ fitted, positions, ...control }) => ({
      ...{ ...control, ...whereFitted(fitted), form: '', guarded: false, place: NOWHERE },
      positions: positions.map(({ fitted: on, legends, ...position }) => ({
        ...{ ...position, ...whereFitted(on), legends: legendsOf(legends), place: NOWHERE },
      })),
    })),
    conditions: packed.conditions.map(({ unit, values, ...condition }) => ({
      ...{ ...condition, place: NOWHERE },
      ...(unit === undefined
        ? { values: values.map((value) => ({ ...value, place: NOWHERE })) }
        : { number: { unit, from: '', to: '', step: '' } }),
    })),
    sequences: packed.sequences.map(({ modes, ...sequence }) => ({
      ...{ ...sequence, kind: 'sequence', initial: '', stores: [], transitions: [], priorityDeclared: false },
      modes: modes.map((mode) => ({ ...mode, sets: [], final: false, place: NOWHERE })),
      place: NOWHERE,
    })),
    items: packed.items.map(({ fitted, legends, attributes, ...item }) => ({
      ...{ ...item, ...whereFitted(fitted), legends: legendsOf(legends), place: NOWHERE },
      ...{ stations: [], mountings: [], inhibit: [], suppressedBy: [], supply: [] },
      attributes: attributes.map(({ lamp, states, ...attribute }) => ({
        ...{ ...attribute, policy: 'any', rules: [], place: NOWHERE },
        ...(lamp ? { lamp: { supply: [] } } : {}),
        states: states.map((state) => ({ ...state, place: NOWHERE })),
      })),
    })),
  };
}

/** An expression that holds on these settled fits. */
function expressionOn(fits: OnFits): FittedLegend['when'] {
  return { op: 'among', of: { kind: 'option', id: INDEX }, values: fits.map(String), place: NOWHERE };
}

function whereFitted(fits: OnFits | undefined): Pick<Item, 'fitted'> {
  return fits === undefined ? {} : { fitted: expressionOn(fits) };
}

function legendsOf(legends: readonly { readonly when: OnFits; readonly legend: string }[]): FittedLegend[] {
  return legends.map(({ when, legend }) => ({ when: expressionOn(when), legend }));
}

function meaningOf(packed: PackedMeaning, { controls, conditions, sequences, items }: Definitions): Meaning {
  const byId = <T extends { readonly id: string }>(all: readonly T[], id: string): T => {
    const found = all.find((each) => each.id === id);
    if (!found) throw new Error(`nothing is called ${id}`);
    return found;
  };
  switch (packed.kind) {
    case 'control': {
      const found = controlMeanings({ controls }).find(({ control }) => control.id === packed.id);
      if (!found) throw new Error(`no control is called ${packed.id}`);
      return found;
    }
    case 'condition':
      return { kind: 'condition', condition: byId(conditions, packed.id) };
    case 'sequence':
      return { kind: 'sequence', sequence: byId(sequences, packed.id) };
    case 'lamp': {
      const item = byId(items, packed.id);
      return { kind: 'lamp', item, lamp: byId(item.attributes, packed.lamp) };
    }
    case 'number': {
      const cuts = packed.cuts.map(([value, lower]) => ({
        ...{ step: 0n, value, belongsTo: lower ? ('lower' as const) : ('upper' as const) },
      }));
      const cells = [...cuts, undefined].map((above, at) => {
        const below = cuts[at - 1];
        return { first: 0n, last: 0n, ...(below ? { below } : {}), ...(above ? { above } : {}) };
      });
      return { kind: 'number', condition: byId(conditions, packed.id), cells };
    }
  }
}

/** The same outcome among those of this fleet; `terminals` has those that it is made of. */
function outcomeOf(outcomes: Outcomes, meaning: OutcomeMeaning, terminals: ReadonlyMap<number, number>): number {
  const members = (of: readonly number[]): number[] => of.map((each) => terminals.get(each) ?? -1);
  switch (meaning.kind) {
    case 'impossible':
      return IMPOSSIBLE;
    case 'not fitted':
      return NOT_FITTED;
    case 'state':
      return outcomes.ofState(meaning.state);
    case 'not stated':
      return outcomes.ofQuery(meaning.query);
    case 'either':
      return members(meaning.of).reduce((a, b) => outcomes.either(a, b));
    case 'depends':
      return outcomes.ofDepends(meaning.options, members(meaning.of));
    default:
      throw new Error(`a normal form is ${meaning.kind}`);
  }
}
