/** A panel on paper: the tables of all that can be seen of it, or a sentence for each position of its controls. */
import { type Behaviour, type Compiled, type Fit, positionsOf } from '../../compile/index.ts';
import { type AttributeViews, groupAnchor, viewOf } from '../attributes.ts';
import type { GroupView, TableView } from '../book.ts';
import { legend, text } from '../cells.ts';
import { drivenBy } from '../driven.ts';
import { groupOf } from '../fits.ts';
import { followsItsLight } from '../lamps.ts';
import { listedControl } from '../links.ts';
import { sentenceGroups } from '../sentence-groups.ts';
import { answer, cell, row, type SheetContent, type Subject, words } from './block.ts';
import { folded } from './fold.ts';

/** A table for each thing that can be seen, its single lamps apart where they do as their light does; messages apart. */
export function panelTables(compiled: Compiled, views: AttributeViews, panel: string, abnormal: boolean): Subject[] {
  const seen = compiled.behaviours.filter(
    (behaviour) =>
      behaviour.item.panel === panel &&
      behaviour.item.kind !== 'message' &&
      behaviour.item.kind !== 'supply' &&
      !followsItsLight(compiled, behaviour),
  );
  const parts = abnormal ? (['normal', 'abnormal'] as const) : (['normal'] as const);
  return seen.flatMap((behaviour) =>
    parts.map((part) => {
      const byGroup = new Map(
        viewOf(views, behaviour).groups.map((group) => [group.id, contentOf(views, behaviour, group, part, abnormal)]),
      );
      return {
        key: `${behaviour.item.id}-${behaviour.attribute.id}-${part}`,
        on: (fit: Fit) => byGroup.get(groupAnchor(behaviour, groupOf(behaviour, fit))),
      };
    }),
  );
}

function contentOf(
  views: AttributeViews,
  behaviour: Behaviour,
  group: GroupView,
  part: 'normal' | 'abnormal',
  both: boolean,
): SheetContent | undefined {
  const { title, to } = viewOf(views, behaviour);
  const block = { title, to: { to, title, anchor: group.id } };
  const { constant } = group;
  if (constant) {
    if (part === 'abnormal' || constant.glyph === 'not-fitted') return undefined;
    return { ...block, columns: [], rows: [row(words([text('In every case')]), answer(constant))] };
  }
  const table: TableView | undefined = group[part];
  if (!table) return undefined;
  const titles = table.columns.map((column) => column.title);
  const others = part === 'normal' ? 'In all other cases' : 'In all other abnormal cases';
  const { columns, rows } = folded(titles, table.rows, others);
  return {
    ...block,
    ...(part === 'abnormal' || (both && group.abnormal) ? { note: table.caption } : {}),
    columns: [...columns, [text('Then')]],
    rows,
  };
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
          if (positionsOf(compiled, control, fit).length === 0) return undefined;
          const [group] = sentenceGroups({ ...compiled, fits: [fit] }, control, driven);
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
