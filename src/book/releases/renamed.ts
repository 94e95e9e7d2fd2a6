/** An earlier release under the ids of the present fleet: what was called otherwise then is the same thing. */
import type { Fleet } from '../../model/index.ts';
import type { PackedComparison } from '../comparison/packed-comparison.ts';
import type { Released } from './released.ts';

type Ids = ReadonlyMap<string, string>;

export function renamed({ comparison, occurring, words, listings }: Released, fleet: Fleet): Released {
  const { panels, options, controls, conditions, sequences, items, sounds, procedures, signals, detectors } = fleet;
  const defined = [panels, options, controls, conditions, sequences, items, sounds, procedures, signals, detectors];
  const ids = formerOf([...defined, fleet.queries, fleet.glossary, fleet.sheets, fleet.practice].flat());
  const id = (one: string): string => ids.get(one) ?? one;
  const values = new Map(options.map((option) => [option.id, formerOf(option.values)]));
  const positions = new Map(controls.map((control) => [control.id, formerOf(control.positions)]));
  const value = (option: string, one: string): string => values.get(option)?.get(one) ?? one;
  /** The position of a control, which goes by its present id. */
  const position = (control: string, one: string): string => positions.get(control)?.get(one) ?? one;
  const named = <T extends { readonly id: string }>(one: T): T => ({ ...one, id: id(one.id) });
  const placed = <T extends { readonly id: string; readonly panel: string }>(one: T): T => ({
    ...named(one),
    panel: id(one.panel),
  });
  const renamedComparison: PackedComparison = {
    ...comparison,
    options: comparison.options.map((option) => ({
      ...named(option),
      values: option.values.map((one) => ({ ...one, id: value(id(option.id), one.id) })),
    })),
    panels: comparison.panels.map(named),
    controls: comparison.controls.map((control) => ({
      ...placed(control),
      ...(control.counterpart === undefined ? {} : { counterpart: id(control.counterpart) }),
      positions: control.positions.map((one) => ({
        ...{ ...one, id: position(id(control.id), one.id) },
        ...(one.returns === undefined ? {} : { returns: position(id(control.id), one.returns) }),
        ...(one.as === undefined || control.counterpart === undefined
          ? {}
          : { as: position(id(control.counterpart), one.as) }),
      })),
    })),
    conditions: comparison.conditions.map(named),
    sequences: comparison.sequences.map(placed),
    items: comparison.items.map((item) => ({
      ...placed(item),
      attributes: item.attributes.map((attribute) => ({
        ...attribute,
        ...(attribute.control === undefined ? {} : { control: id(attribute.control) }),
      })),
    })),
    meanings: comparison.meanings.map(named),
    outcomes: comparison.outcomes.map(([terminal, meaning]) => [
      terminal,
      meaning.kind === 'depends' ? { ...meaning, options: meaning.options.map(id) } : meaning,
    ]),
  };
  return {
    comparison: renamedComparison,
    words,
    occurring: Object.fromEntries(
      Object.entries(occurring).map(([of, byFit]) => [
        id(of),
        byFit.map((list) => list.map((one) => position(id(of), one))),
      ]),
    ),
    listings: listings.map((listing) => {
      const [of = '', attribute] = listing.kind === 'lamp' ? listing.id.split('.') : [listing.id];
      return { ...listing, id: attribute === undefined ? id(of) : `${id(of)}.${attribute}` };
    }),
  };
}

function formerOf(all: readonly { readonly id: string; readonly formerly?: readonly string[] }[]): Ids {
  return new Map(all.flatMap(({ id, formerly = [] }) => formerly.map((former) => [former, id] as const)));
}
