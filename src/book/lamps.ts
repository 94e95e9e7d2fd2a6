/** The lamps of a light: what is known of each, and which behave alike. */
import { type Comparable, type Compiled, type Formed, levelOf, partForm } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Node } from '../logic/index.ts';
import type { Item } from '../model/index.ts';
import type { LampView } from './book.ts';
import { upperFirst } from './cells.ts';
import { listedSupplies } from './links.ts';

export function lampViews({ fleet }: Compiled, item: Item): LampView[] {
  return item.attributes.flatMap(({ id, title, lamp }) => {
    if (!lamp) return [];
    const { supply, ...seen } = lamp;
    return [{ ...seen, anchor: `${item.id}-${id}`, title, supply: listedSupplies(fleet, supply) }];
  });
}

/** "The left lamp and the right lamp behave alike, apart from failures of their own." */
export function lampsAlike(compiled: Compiled, item: Item): string[] {
  const { behaviours, diagrams, space } = compiled;
  const lamps = behaviours.filter((each) => each.item === item && each.attribute.lamp);
  const groups = Map.groupBy(lamps, ({ attribute, forms }) => {
    const own = levelOf(space, `${item.id}.${attribute.id}`);
    return forms.map((form) => diagrams.restrict(form, own, SERVICEABLE)).join(' ');
  });
  return [...groups.values()].flatMap((alike) => {
    if (alike.length < 2) return [];
    const titles = list(
      alike.map(({ attribute }) => `the ${attribute.title}`),
      'and',
    );
    return [`${upperFirst(titles)} behave alike, apart from failures of their own.`];
  });
}

const SERVICEABLE = 0;

/** Whether a behaviour is that of a lamp which, in normal cases, does as its light does on every fit. */
export function followsItsLight(
  { behaviours, diagrams, space }: Pick<Comparable, 'behaviours' | 'diagrams' | 'space'>,
  { item, attribute, forms }: Formed,
): boolean {
  if (!attribute.lamp) return false;
  const light = behaviours.find((each) => each.item === item && !each.attribute.lamp);
  const normalOf = (form: Node): Node | undefined => partForm(diagrams, space, form, 'normal');
  return forms.every((form, index) => {
    const driven = light?.forms[index];
    return driven !== undefined && normalOf(form) === normalOf(driven);
  });
}
