/** The tables and flows of one attribute of an item, for each fit group. */
import {
  type Behaviour,
  type Compiled,
  type Formed,
  type Group,
  type Holder,
  type Part,
  partForm,
  partNormals,
  partTable,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { StateTable } from '../logic/index.ts';
import { itemAddress } from './addresses.ts';
import type { AttributeView, GroupView, StateView, TableView } from './book.ts';
import type { ToldChanges } from './book-changes.ts';
import { effectivity } from './effectivity.ts';
import { settledOf } from './fits.ts';
import { flowView } from './flows.ts';
import { followsItsLight } from './lamps.ts';
import type { ChangedRows } from './releases/changed-rows.ts';
import type { KeptOrder } from './releases/table-orders.ts';
import { lampAt, outcomeView, tableView, valuesInWords } from './tables.ts';

/** "Logo lights", or "Left landing light: lamp" where several things can be seen of the item, its single lamps apart. */
export function attributeTitle({ item, attribute }: Pick<Behaviour, 'item' | 'attribute'>): string {
  const whole = item.attributes.filter(({ lamp }) => lamp === undefined);
  return whole.length > 1 || attribute.lamp ? `${item.title}: ${attribute.title}` : item.title;
}

/**
 * The anchor of a group's tables: by the serial of its first aircraft, which stays when the group gains others. A group
 * that comes later goes by the first that it will have, with the date where that aircraft gives its serial to another.
 */
export function groupAnchor({ item, attribute, groups }: Formed, group: Group): string {
  const first = namesake(group);
  const shared = groups.some((other) => other !== group && namesake(other)?.aircraft === first?.aircraft);
  const date = shared && first?.from !== undefined ? `-${first.from}` : '';
  return `${item.id}-${attribute.id}-${first?.aircraft.serial ?? ''}${date}`.toLowerCase();
}

function namesake({ holders }: Group): Holder | undefined {
  return holders.find(({ from }) => from === undefined) ?? holders[0];
}

/** The views of all behaviours, made once: the pages of items, of controls and the notes show the same ones. */
export type AttributeViews = ReadonlyMap<Behaviour, AttributeView> & { readonly changes?: TableChanges };

/** What has changed in tables since the last revision, and where all of it is told. */
export interface TableChanges {
  readonly order: KeptOrder;
  readonly rows: ChangedRows;
  readonly told: ToldChanges;
}

export function attributeViews(compiled: Compiled, changes?: TableChanges): AttributeViews {
  const views = new Map(
    compiled.behaviours.map((behaviour) => [behaviour, attributeView(compiled, behaviour, undefined, changes)]),
  );
  return changes ? Object.assign(views, { changes }) : views;
}

export function viewOf(views: AttributeViews, behaviour: Behaviour): AttributeView {
  const view = views.get(behaviour);
  if (!view) throw new Error(`${behaviour.item.id} has no view`);
  return view;
}

/** `own` is the control that stands first in the tables, where it is not the attribute's. */
export function attributeView(
  compiled: Compiled,
  behaviour: Behaviour,
  own?: string,
  changes?: TableChanges,
): AttributeView {
  return {
    id: `${behaviour.item.id}-${behaviour.attribute.id}`,
    title: attributeTitle(behaviour),
    to: itemAddress(behaviour.item),
    groups: fittedFirst(behaviour.groups.map((group) => groupView(compiled, behaviour, group, own, changes))),
  };
}

/** Groups that have the item come before those that lack it: the reader came for what is there. */
function fittedFirst(groups: readonly GroupView[]): GroupView[] {
  const lacks = ({ constant }: GroupView): boolean => constant?.glyph === 'not-fitted';
  return [...groups.filter((group) => !lacks(group)), ...groups.filter(lacks)];
}

function groupView(
  compiled: Compiled,
  behaviour: Behaviour,
  group: Group,
  own: string | undefined,
  changes: TableChanges | undefined,
): GroupView {
  const id = groupAnchor(behaviour, group);
  const holdsFor = { id, effectivity: effectivity(compiled.fleet, group.holders) };
  const constant = constantState(compiled, behaviour, group);
  if (constant) return { ...holdsFor, constant };
  const table = (part: Part): StateTable | undefined => {
    const first = own ?? behaviour.attribute.control;
    return partTable(compiled, behaviour, group, part, own, changes?.order(behaviour, group, part, first));
  };
  const [normal, abnormal] = [table('normal'), table('abnormal')];
  const marked = (part: Part, table: StateTable): TableView =>
    withMarks(partView(compiled, behaviour, group, part, table), changes, (rows) => rows(behaviour, group, table));
  return {
    ...holdsFor,
    ...(normal ? { normal: marked('normal', normal) } : {}),
    ...(abnormal ? { abnormal: marked('abnormal', abnormal) } : {}),
    // A lamp that does as its light does would be drawn as the light is.
    ...(normal && !followsItsLight(compiled, behaviour) ? flowOf(compiled, behaviour, group, normal) : {}),
  };
}

/** The table with marks at the rows that have changed. */
function withMarks(
  view: TableView,
  changes: TableChanges | undefined,
  ask: (rows: ChangedRows) => readonly boolean[],
): TableView {
  const changed = changes ? ask(changes.rows) : [];
  if (!changes || !changed.includes(true)) return view;
  const rows = view.rows.map((row, at) => (changed[at] ? { ...row, changed: true as const } : row));
  return { ...view, rows, changed: changes.told };
}

function flowOf(compiled: Compiled, behaviour: Behaviour, group: Group, table: StateTable): Pick<GroupView, 'flow'> {
  const form = partForm(compiled.diagrams, compiled.space, group.form, 'normal');
  if (form === undefined) return {};
  const words = { id: `${groupAnchor(behaviour, group)}-flow`, title: `${attributeTitle(behaviour)}, normal cases` };
  const flow = flowView(compiled, behaviour.attribute, form, table, settledOf(group.fits), words);
  return flow ? { flow } : {};
}

/** The one outcome of a group, where there is only one. */
export function constantState(compiled: Compiled, behaviour: Behaviour, group: Group): StateView | undefined {
  const outcomes = compiled.diagrams.terminals(group.form).filter((outcome) => outcome !== 0);
  const only = outcomes[0];
  return outcomes.length === 1 && only !== undefined ? outcomeView(compiled, behaviour.attribute, only) : undefined;
}

function partView(compiled: Compiled, behaviour: Behaviour, group: Group, part: Part, table: StateTable): TableView {
  const normals = partNormals(compiled, group.form, part);
  const about = valuesInWords(compiled, normals, behaviour.item, part);
  const working = normals.flatMap(([level]) => lampAt(compiled, level) ?? []);
  const name = part === 'normal' ? 'Normal cases' : 'Abnormal cases';
  const anchor = groupAnchor(behaviour, group);
  return tableView(compiled, behaviour.attribute, table, settledOf(group.fits), {
    id: part === 'normal' ? `${anchor}-normal` : `${anchor}-abnormal`,
    caption: about.length > 0 ? `${name}: ${list(about, part === 'normal' ? 'and' : 'or')}` : name,
    resultTitle: attributeTitle(behaviour),
    ...(part === 'normal' && working.length > 0 ? { working } : {}),
  });
}
