/** State tables as the page shows them. */
import { type Meaning, type On, type Part, valuesTitle, variableTitle, type Worded } from '../compile/index.ts';
import type { StateTable } from '../logic/index.ts';
import { type Attribute, type Item, withSmallInitial } from '../model/index.ts';
import type { Cell, StateView, TableView } from './book.ts';
import { cellText, columnTitle, plain, stateView } from './cells.ts';
import { rowKey } from './row-keys.ts';

export function meaningAt(compiled: Worded, level: number): Meaning {
  const meaning = compiled.space.meanings[level];
  if (!meaning) throw new Error(`no variable at level ${level}`);
  return meaning;
}

export function outcomeView(compiled: Worded, attribute: Attribute, outcome: number): StateView {
  return stateView(compiled, attribute, outcome);
}

/** Rows of cells, each with what must be said of it beside the rows above: any, again, first. */
export function cellRows(
  compiled: Worded,
  table: StateTable,
  on: On,
): { key: string; cells: Cell[]; first: boolean }[] {
  const meanings = table.columns.map((level) => meaningAt(compiled, level));
  let above: string[] = [];
  return table.rows.map(({ cells }) => {
    const texts = cells.map((values, column) => cellText(meanings[column] as Meaning, values, on));
    const words = texts.map(plain);
    const same = words.findIndex((word, column) => word !== above[column]);
    const shared = same === -1 ? words.length : same;
    above = words;
    return {
      key: rowKey(cells, meanings),
      first: shared === 0,
      cells: texts.map((each, column) => ({ text: each, any: cells[column] === undefined, again: column < shared })),
    };
  });
}

export function tableView(
  compiled: Worded,
  attribute: Attribute,
  table: StateTable,
  on: On,
  words: { id: string; caption: string; resultTitle: string; working?: readonly string[] },
): TableView {
  return {
    ...words,
    columns: table.columns.map((level) => {
      const lamp = lampAt(compiled, level);
      return { title: columnTitle(meaningAt(compiled, level), on), ...(lamp === undefined ? {} : { lamp }) };
    }),
    rows: cellRows(compiled, table, on).map((row, index) => ({
      ...row,
      result: outcomeView(compiled, attribute, table.rows[index]?.outcome ?? 0),
    })),
  };
}

/** The anchor of a lamp's tables, where the variable says whether the lamp works. */
export function lampAt(compiled: Worded, level: number): string | undefined {
  const meaning = meaningAt(compiled, level);
  return meaning.kind === 'lamp' ? `${meaning.item.id}-${meaning.lamp.id}` : undefined;
}

/**
 * "AC bus 1 lost", "AC bus 2 lost": the values of conditions that a part of the cases is about. A lamp of the item that they
 * are told of goes by its own title, and all lamps of a light that have the same value are told at once.
 */
export function valuesInWords(
  compiled: Worded,
  values: readonly (readonly [level: number, values: readonly number[]])[],
  about: Item,
  part: Part,
): string[] {
  const told = values.map(([level, list]) => ({ meaning: meaningAt(compiled, level), list }));
  const byLight = Map.groupBy(told, ({ meaning }) => (meaning.kind === 'lamp' ? meaning.item : meaning));
  return [...byLight.values()].flatMap((some) => {
    const [{ meaning, list }] = some as [(typeof told)[number]];
    const lamps = meaning.kind === 'lamp' ? meaning.item.attributes.filter(({ lamp }) => lamp) : [];
    if (meaning.kind === 'lamp' && some.length > 1 && some.length === lamps.length) {
      const which = part === 'normal' ? 'all lamps' : 'any lamp';
      const of = meaning.item === about ? '' : ` of the ${withSmallInitial(meaning.item.title)}`;
      return [`${which}${of} ${valuesTitle(meaning, list)}`];
    }
    return some.map((each) => `${titleFor(each.meaning, about)} ${valuesTitle(each.meaning, each.list)}`);
  });
}

function titleFor(meaning: Meaning, about: Item): string {
  if (meaning.kind !== 'lamp') return variableTitle(meaning);
  const title = withSmallInitial(meaning.lamp.title);
  return meaning.item === about ? title : `the ${title} of the ${withSmallInitial(meaning.item.title)}`;
}
