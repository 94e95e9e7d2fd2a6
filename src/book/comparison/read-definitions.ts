/** The words of a packed fleet as definitions again, and its fits. What nobody asks of a packed fleet is empty. */
import { controlMeanings, type Fit, type Meaning, type SettledFit, type Space, spaceOf } from '../../compile/index.ts';
import {
  type Aircraft,
  type Condition,
  type Control,
  type FittedLegend,
  type Item,
  type Option,
  type Panel,
  type Sequence,
  UNKNOWN,
} from '../../model/index.ts';
import type { OnFits, PackedDefinitions, PackedMeaning } from './packed-comparison.ts';

export const NOWHERE = { file: { path: '', text: '' }, start: 0, end: 0 };

export interface ReadDefinitions extends Definitions {
  readonly aircraft: readonly Aircraft[];
  readonly options: readonly Option[];
  readonly panels: readonly Panel[];
  readonly settled: readonly SettledFit[];
  readonly fits: readonly Fit[];
  /** The variables that they make. */
  readonly space: Space;
}

export function readDefinitions(packed: PackedDefinitions): ReadDefinitions {
  const aircraft = packed.aircraft.map(
    ({ serial, registration, kind, renamed }): Aircraft => ({
      ...{ serial, registration, kind, fit: new Map(), made: [], place: NOWHERE },
      changes: renamed.map(([date, value]) => ({ date, value, option: 'registration', place: NOWHERE })),
    }),
  );
  const definitions = definitionsOf(packed);
  return {
    ...definitions,
    space: spaceOf(packed.meanings.map((meaning) => meaningOf(meaning, definitions))),
    ...fitsOf(packed, aircraft),
    aircraft,
    options: packed.options.map((option) => ({
      ...{ ...option, place: NOWHERE },
      values: option.values.map((value) => ({ ...value, place: NOWHERE })),
    })),
    panels: packed.panels.map((panel) => ({ ...panel, controls: [], items: [], place: NOWHERE })),
  };
}

/** No option of the fleet has this id: the index of a settled fit stands for all its options. */
const INDEX = '#';

function fitsOf(packed: PackedDefinitions, aircraft: readonly Aircraft[]): Pick<ReadDefinitions, 'fits' | 'settled'> {
  const values = (places: readonly number[]): [string, string][] =>
    packed.options.map(({ id, values: all }, at) => [id, all[places[at] as number]?.id ?? UNKNOWN]);
  const settled = packed.settled.map(
    (places, index): SettledFit => ({
      index,
      options: new Map([...values(places), [INDEX, String(index)]]),
      aircraft: [],
    }),
  );
  const fits = packed.fits.map(({ options, holders, settled: ways }, index): Fit => {
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
  return { fits, settled };
}

export interface Definitions {
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

export function meaningOf(packed: PackedMeaning, { controls, conditions, sequences, items }: Definitions): Meaning {
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
