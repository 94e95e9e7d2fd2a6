/** The tables and flows of one attribute of an item, for each fit group. */
import {
  type Behaviour,
  type Compiled,
  type Group,
  type Part,
  partForm,
  partNormals,
  partTable,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { StateTable } from '../logic/index.ts';
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

/** The views of all behaviours, made once: the pages of items, of controls and the notes show the same ones. */
export type AttributeViews = ReadonlyMap<Behaviour, AttributeView>;

export function attributeViews(compiled: Compiled): AttributeViews {
  return new Map(compiled.behaviours.map((behaviour) => [behaviour, attributeView(compiled, behaviour)]));
}

export function viewOf(views: AttributeViews, behaviour: Behaviour): AttributeView {
  const view = views.get(behaviour);
  if (!view) throw new Error(`${behaviour.item.id} has no view`);
  return view;
}

function attributeView(compiled: Compiled, behaviour: Behaviour): AttributeView {
  return {
    id: `${behaviour.item.id}-${behaviour.attribute.id}`,
    title: attributeTitle(behaviour),
    to: itemAddress(behaviour.item),
    groups: fittedFirst(behaviour.groups.map((group) => groupView(compiled, behaviour, group))),
  };
}

/** Groups that have the item come before those that lack it: the reader came for what is there. */
function fittedFirst(groups: readonly GroupView[]): GroupView[] {
  const lacks = ({ constant }: GroupView): boolean => constant?.glyph === 'not-fitted';
  return [...groups.filter((group) => !lacks(group)), ...groups.filter(lacks)];
}

function groupView(compiled: Compiled, behaviour: Behaviour, group: Group): GroupView {
  const id = groupAnchor(behaviour, group);
  const holdsFor = { id, effectivity: effectivity(compiled.fleet, group.aircraft) };
  const constant = constantState(compiled, behaviour, group);
  if (constant) return { ...holdsFor, constant };
  const normal = partTable(compiled, behaviour, group, 'normal');
  const abnormal = partTable(compiled, behaviour, group, 'abnormal');
  return {
    ...holdsFor,
    ...(normal ? { normal: partView(compiled, behaviour, group, 'normal', normal) } : {}),
    ...(abnormal ? { abnormal: partView(compiled, behaviour, group, 'abnormal', abnormal) } : {}),
    ...(normal ? flowOf(compiled, behaviour, group, normal) : {}),
  };
}

function flowOf(compiled: Compiled, behaviour: Behaviour, group: Group, table: StateTable): Pick<GroupView, 'flow'> {
  const form = partForm(compiled.diagrams, compiled.space, group.form, 'normal');
  if (form === undefined) return {};
  const words = { id: `${groupAnchor(behaviour, group)}-flow`, title: `${attributeTitle(behaviour)}, normal cases` };
  const flow = flowView(compiled, behaviour.attribute, form, table, words);
  return flow ? { flow } : {};
}

/** The one outcome of a group, where there is only one. */
export function constantState(compiled: Compiled, behaviour: Behaviour, group: Group): StateView | undefined {
  const outcomes = compiled.diagrams.terminals(group.form).filter((outcome) => outcome !== 0);
  const only = outcomes[0];
  return outcomes.length === 1 && only !== undefined ? outcomeView(compiled, behaviour.attribute, only) : undefined;
}

function partView(compiled: Compiled, behaviour: Behaviour, group: Group, part: Part, table: StateTable): TableView {
  const about = valuesInWords(compiled, partNormals(compiled, group.form, part));
  const name = part === 'normal' ? 'Normal cases' : 'Abnormal cases';
  const anchor = groupAnchor(behaviour, group);
  return tableView(compiled, behaviour.attribute, table, {
    id: part === 'normal' ? `${anchor}-normal` : `${anchor}-abnormal`,
    caption: about.length > 0 ? `${name}: ${list(about, part === 'normal' ? 'and' : 'or')}` : name,
    resultTitle: attributeTitle(behaviour),
  });
}
