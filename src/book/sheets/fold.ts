/** Shorter tables for paper: the rows of the commonest state become one, "in all other cases". */
import type { Cell, Inline, Row, StateView } from '../book.ts';
import type { SheetCell, SheetRow } from '../book-sheets.ts';
import { plain, text } from '../cells.ts';
import { answer, cell } from './block.ts';

/** States that are no single answer are shown case by case. */
const PLAIN: readonly StateView['glyph'][] = ['dark', 'lit', 'flashing', 'none'];

/** A cell that may say of lamps whether they work. */
type FoldedCell = Cell & Pick<SheetCell, 'lamps'>;
type FoldedRow = Omit<Row, 'cells'> & { readonly cells: readonly FoldedCell[] };

export interface Folded {
  readonly columns: readonly (readonly Inline[])[];
  readonly rows: readonly SheetRow[];
}

/**
 * The rows of a state table, on paper. Where several have the commonest state, which `others` then says of all other cases, the
 * columns that mattered in them alone go too. Of states that are as common as each other, dark is the one that folds, then the one
 * that stands first.
 */
export function folded(columns: readonly (readonly Inline[])[], rows: readonly FoldedRow[], others: string): Folded {
  const common = commonest(rows);
  const kept = common ? rows.filter(({ result }) => result.text !== common.text) : rows;
  if (!common || kept.length === 0 || kept.length + 1 >= rows.length) return { columns, rows: regrouped(rows) };
  const used = columns.flatMap((_, at) => (kept.some(({ cells }) => cells[at]?.any === false) ? [at] : []));
  const left = kept.map((each) => ({ ...each, cells: used.map((at) => each.cells[at] as FoldedCell) }));
  return {
    columns: used.map((at) => columns[at] as readonly Inline[]),
    rows: [
      ...regrouped(left),
      { cells: [cell([{ words: [text(others)] }], { span: used.length }), answer(common)], first: true },
    ],
  };
}

/** The state that most rows have; undefined where no single state stands in two. */
function commonest(rows: readonly FoldedRow[]): StateView | undefined {
  const states = rows.map(({ result }) => result).filter(({ glyph }) => PLAIN.includes(glyph));
  const counted = [...Map.groupBy(states, ({ text: name }) => name).values()].filter(({ length }) => length > 1);
  const [most] = counted.toSorted((a, b) => b.length - a.length || rank(a[0]) - rank(b[0]));
  return most?.[0];
}

function rank(state: StateView | undefined): number {
  return state?.glyph === 'dark' ? 0 : 1;
}

/** The rows with what repeats the row above marked anew. */
function regrouped(rows: readonly FoldedRow[]): SheetRow[] {
  let above: string[] = [];
  return rows.map(({ cells, result }) => {
    const said = cells.map(({ text: runs }) => plain(runs));
    const unlike = said.findIndex((each, at) => each !== above[at]);
    const shared = unlike === -1 ? said.length : unlike;
    above = said;
    return {
      first: shared === 0,
      cells: [
        ...cells.map(({ text: runs, any, lamps }, at) =>
          cell([{ words: runs }], { quiet: any || at < shared, ...(lamps ? { lamps } : {}) }),
        ),
        answer(result),
      ],
    };
  });
}
