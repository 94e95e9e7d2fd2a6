/** The tables and flows of one attribute of an item, for each fit group. */
import { type Behaviour, type Compiled, type Group, partForm, partNormals, partTable } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import { itemAddress } from './addresses.ts';
import type { AttributeView, GroupView, StateView, TableView } from './book.ts';
import { effectivity } from './effectivity.ts';
import { flowView } from './flows.ts';
import { outcomeView, tableView, valuesInWords } from './tables.ts';

/** "Logo lights", or "Left landing light: lamp" where the item has several attributes. */
export function attributeTitle({ item, attribute }: Behaviour): string {
  return item.attributes.length > 1 ? `${item.title}: ${attribute.title}` : item.title;
}

/** The anchor of a group's tables: by the serial of its first aircraft, which stays when the group gains others. */
export function groupAnchor({ item, attribute }: Behaviour, group: Group): string {
  return `${item.id}-${attribute.id}-${group.aircraft[0]?.serial ?? ''}`.toLowerCase();
}

export function attributeView(compiled: Compiled, behaviour: Behaviour): AttributeView {
  return {
    id: `${behaviour.item.id}-${behaviour.attribute.id}`,
    title: attributeTitle(behaviour),
    to: itemAddress(behaviour.item),
    groups: behaviour.groups.map((group) => groupView(compiled, behaviour, group)),
  };
}

function groupView(compiled: Compiled, behaviour: Behaviour, group: Group): GroupView {
  const id = groupAnchor(behaviour, group);
  const holdsFor = { id, effectivity: effectivity(compiled.fleet, group.aircraft) };
  const constant = constantState(compiled, behaviour, group);
  if (constant) return { ...holdsFor, constant };
  const { diagrams, space } = compiled;
  const normal = partView(compiled, behaviour, group, 'normal');
  const abnormal = partView(compiled, behaviour, group, 'abnormal');
  const form = partForm(diagrams, space, group.form, 'normal');
  const table = partTable(compiled, behaviour, group, 'normal');
  const title = `${attributeTitle(behaviour)}, normal cases`;
  const flow = form !== undefined && table
    ? flowView(compiled, behaviour.attribute, form, table, { id: `${id}-flow`, title })
    : undefined;
  return { ...holdsFor, ...(normal ? { normal } : {}), ...(abnormal ? { abnormal } : {}), ...(flow ? { flow } : {}) };
}

/** The one outcome of a group, where there is only one. */
export function constantState(compiled: Compiled, behaviour: Behaviour, group: Group): StateView | undefined {
  const outcomes = compiled.diagrams.terminals(group.form).filter((outcome) => outcome !== 0);
  const only = outcomes[0];
  return outcomes.length === 1 && only !== undefined ? outcomeView(compiled, behaviour.attribute, only) : undefined;
}

function partView(compiled: Compiled, behaviour: Behaviour, group: Group, part: 'normal' | 'abnormal'): TableView | undefined {
  const table = partTable(compiled, behaviour, group, part);
  if (!table) return undefined;
  const about = valuesInWords(compiled, partNormals(compiled, group.form, part));
  const name = part === 'normal' ? 'Normal cases' : 'Abnormal cases';
  const caption = about.length > 0 ? `${name}: ${list(about, part === 'normal' ? 'and' : 'or')}` : name;
  return tableView(compiled, behaviour.attribute, table, {
    id: part === 'normal' ? groupAnchor(behaviour, group) : `${groupAnchor(behaviour, group)}-abnormal`,
    caption,
    resultTitle: attributeTitle(behaviour),
  });
}
