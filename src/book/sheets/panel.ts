/** A panel on paper: the tables of all that can be seen of it, or a sentence for each position of its controls. */
import { type Behaviour, type Compiled, type Fit, partForm, positionsOf } from '../../compile/index.ts';
import { type AttributeViews, groupAnchor, viewOf } from '../attributes.ts';
import type { AttributeView, GroupView } from '../book.ts';
import { legend, text } from '../cells.ts';
import { drivenBy } from '../driven.ts';
import { groupOf } from '../fits.ts';
import { listedControl } from '../links.ts';
import { sentenceGroups } from '../sentence-groups.ts';
import { answer, cell, lampsIn, row, type SheetContent, type Subject, words } from './block.ts';
import { folded } from './fold.ts';

/** A table for each thing that can be seen, its single lamps apart where they do as their light does; messages apart. */
export function panelTables(compiled: Compiled, views: AttributeViews, panel: string, abnormal: boolean): Subject[] {
  const seen = compiled.behaviours.filter(
    ({ item }) => item.panel === panel && item.kind !== 'message' && item.kind !== 'supply',
  );
  const on = (behaviour: Behaviour, fit: Fit, part: Part): SheetContent | undefined => {
    const view = viewOf(views, behaviour);
    const anchor = groupAnchor(behaviour, groupOf(behaviour, fit));
    const group = view.groups.find(({ id }) => id === anchor);
    const { item, attribute } = behaviour;
    const content = group && contentOf(view, group, part, abnormal);
    return content && { ...content, ...(attribute.lamp ? { lamps: [`${item.id}-${attribute.id}`] } : {}) };
  };
  return seen.flatMap((behaviour) => {
    const light = seen.find(({ item, attribute }) => item === behaviour.item && !attribute.lamp);
    return (abnormal ? PARTS : NORMAL).map((part) => ({
      key: `${behaviour.item.id}-${behaviour.attribute.id}-${part}`,
      on: (fit: Fit) => {
        const content = on(behaviour, fit, part);
        if (!content || !behaviour.attribute.lamp || !light) return content;
        // What the light tells already is not said again of each lamp.
        const told = on(light, fit, part);
        return told && JSON.stringify(told.rows) === JSON.stringify(content.rows) ? undefined : content;
      },
    }));
  });
}

type Part = 'normal' | 'abnormal';
const NORMAL: readonly Part[] = ['normal'];
const PARTS: readonly Part[] = ['normal', 'abnormal'];

/** `both`: normal and abnormal cases are told, so that it must be said which. */
function contentOf(
  { title, to }: AttributeView,
  group: GroupView,
  part: Part,
  both: boolean,
): SheetContent | undefined {
  const block = { title, to: { to, title, anchor: group.id } };
  const { constant, [part]: table } = group;
  if (constant) {
    if (part === 'abnormal' || constant.glyph === 'not-fitted') return undefined;
    return { ...block, columns: [], rows: [row(words([text('In every case')]), answer(constant))] };
  }
  if (!table) return undefined;
  const [only] = table.rows;
  const note = both && group.abnormal ? { note: part === 'normal' ? 'Normal cases' : 'Abnormal cases' } : {};
  if (table.columns.length === 0 && only) {
    const cases = part === 'normal' ? 'In every normal case' : 'In every abnormal case';
    return { ...block, ...note, columns: [], rows: [row(words([text(cases)]), answer(only.result))] };
  }
  const titles = table.columns.map((column) => column.title);
  const others = part === 'normal' ? 'In all other cases' : 'In all other abnormal cases';
  const marked = table.rows.map(({ key, cells, ...rest }) => ({
    ...rest,
    key,
    cells: cells.map((each, at) => {
      const lamp = table.columns[at]?.lamp;
      return { ...each, ...lampsIn(key, at, lamp === undefined ? undefined : [lamp]) };
    }),
  }));
  const { columns, rows } = folded(titles, marked, others);
  return { ...block, ...note, columns: [...columns, [text('Then')]], rows };
}

/** Whether a lamp does on a fit, in normal cases, what its light is driven to do. */
function doesAsItsLight(compiled: Compiled, behaviour: Behaviour, fit: Fit): boolean {
  if (!behaviour.attribute.lamp) return false;
  const light = compiled.behaviours.find(({ item, attribute }) => item === behaviour.item && !attribute.lamp);
  const normal = (of: Behaviour): number | undefined =>
    partForm(compiled.diagrams, compiled.space, groupOf(of, fit).form, 'normal');
  return light !== undefined && normal(light) === normal(behaviour);
}

/** A table for each control: what each of its positions does. */
export function panelPositions(compiled: Compiled, panel: string): Subject[] {
  return compiled.fleet.controls
    .filter((control) => control.panel === panel)
    .map((control) => {
      const driven = drivenBy(compiled, control);
      return {
        key: control.id,
        on: (fit: Fit) => {
          if (positionsOf(control, fit).length === 0) return undefined;
          const told = driven.filter((behaviour) => !doesAsItsLight(compiled, behaviour, fit));
          const [group] = sentenceGroups({ ...compiled, fits: [fit] }, control, told);
          if (!group) return undefined;
          return {
            title: control.title,
            to: listedControl(control),
            columns: [],
            rows: group.positions.map((position) =>
              row(
                words([legend(position.legend)]),
                cell(
                  position.says.map((run) => ({ words: run })),
                  { answer: true },
                ),
              ),
            ),
          };
        },
      };
    });
}
