/**
 * Holds every state table of the book to the authors' rules: which tables there must be is counted from the content, and
 * every case that can happen must lie in exactly one row, with that row's state, on every fit of the group.
 */
import { byClass, byId, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { holdingsOf, holdingsText } from '../../helpers/effectivity-words.ts';
import { sharedName, sharing } from '../../helpers/seen-cases.ts';
import { lies, type Reading, readValues, variableTitled } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import {
  type AttributeId,
  attributesOf,
  casesOf,
  drivenBy,
  groupsByOracle,
  holdsFor,
  isNormalFor,
  itemAddress,
  stateTitle,
} from './groups.ts';
import type { Pages } from './pages.ts';

export interface ReadTable {
  readonly part: 'normal' | 'abnormal';
  readonly columns: readonly string[];
  readonly rows: readonly {
    readonly words: readonly string[];
    readonly readings: readonly (readonly [string, Reading])[];
    readonly state: string;
  }[];
}

/** Faults of all tables on the items' own pages and, again, on the pages of their controls; found one after another as they are asked for. */
export function* faultsOfTables(pages: Pages, oracle: Oracle): Generator<string> {
  const judged = (address: string, id: AttributeId, groups: Fit[][]): string[] =>
    attempt(`${address} ${id.item}.${id.attribute}`, () => judgeAttribute(pages.page(address), oracle, id, groups));
  for (const id of attributesOf(oracle)) yield* judged(itemAddress(oracle, id.item), id, groupsByOracle(oracle, id));
  for (const control of oracle.content.controls.keys()) {
    for (const id of drivenBy(oracle, control)) {
      const groups = groupsByOracle(oracle, id);
      const has = (fits: Fit[]): boolean => !fits.every((fit) => hasAnotherInstead(oracle, control, fit));
      yield* judged(`controls/${control}.html`, id, groups.filter(has));
    }
  }
}

export function judgeTables(pages: Pages, oracle: Oracle): string[] {
  return [...faultsOfTables(pages, oracle)];
}

/** Whether a fit has not the control but one that counts as it: its tables stand on that one's page. */
function hasAnotherInstead(oracle: Oracle, control: string, fit: Fit): boolean {
  const has = (each: string): boolean => oracle.isFitted(fit, each);
  return !has(control) && sharing(oracle, sharedName(oracle, control)).some(has);
}

/** What is thrown while reading a page is a fault too: the page says something that nobody can read. */
export function attempt(where: string, judge: () => string[]): string[] {
  try {
    return judge().map((fault) => `${where}: ${fault}`);
  } catch (error) {
    return [`${where}: ${error instanceof Error ? error.message : String(error)}`];
  }
}

function judgeAttribute(page: Element, oracle: Oracle, id: AttributeId, wanted: Fit[][]): string[] {
  const section = byId(page, `${id.item}-${id.attribute}`);
  if (!section) return ['no section'];
  const shown = byClass(section, 'group');
  if (shown.length !== wanted.length) return [`${shown.length} groups instead of ${wanted.length}`];
  return wanted.flatMap((fits, at) => {
    const group = shown[at] as Element;
    const [says, holds] = [holdsFor(oracle, group), holdingsOf(oracle, fits)].map(holdingsText);
    if (says !== holds) return [`a group says ${says} instead of ${holds}`];
    return fits.flatMap((fit) => judgeGroup(group, oracle, id, fit, fits));
  });
}

function judgeGroup(group: Element, oracle: Oracle, id: AttributeId, fit: Fit, fits: readonly Fit[]): string[] {
  const cases = casesOf(oracle, id, fit);
  const states = new Set(cases.map((given) => stateTitle(oracle, id, fit, given)));
  const tables = tablesIn(group, oracle, fits);
  const [constant] = byClass(group, 'constant');
  if (states.size === 1) {
    const [only] = states;
    const says = constant && textOf(constant);
    if (tables.length > 0) return ['a table for what is the same in every case'];
    return says === only ? [] : [`says "${says}" in every case instead of "${only}"`];
  }
  if (constant) return ['one state where there are several'];
  const isNormal = isNormalFor(oracle, id, fit);
  return (['normal', 'abnormal'] as const).flatMap((part) => {
    const inPart = cases.filter((given) => isNormal(given) === (part === 'normal'));
    const found = tables.filter((table) => table.part === part);
    if (found.length !== (inPart.length > 0 ? 1 : 0)) return [`${found.length} tables of ${part} cases`];
    return found.flatMap((table) => judgeRows(table, oracle, id, fit, inPart));
  });
}

function judgeRows(table: ReadTable, oracle: Oracle, id: AttributeId, fit: Fit, cases: readonly Case[]): string[] {
  const used = new Set<number>();
  const faults = cases.flatMap((given) => {
    const rows = table.rows.flatMap((row, at) => (lies(given, row.readings) ? [at] : []));
    for (const row of rows) used.add(row);
    const [row] = rows;
    if (rows.length !== 1 || row === undefined)
      return [`${rows.length} rows of ${table.part} cases for ${JSON.stringify(given)}`];
    const wanted = stateTitle(oracle, id, fit, given);
    const says = table.rows[row]?.state;
    return says === wanted ? [] : [`says "${says}" instead of "${wanted}" for ${JSON.stringify(given)}`];
  });
  const idle = table.rows.flatMap((_, at) =>
    used.has(at) ? [] : [`row ${at + 1} of ${table.part} cases holds no case`],
  );
  return [...faults, ...idle];
}

/** The state tables in a block of a page, by their visible text, which is about the fits. */
export function tablesIn(block: Element, oracle: Oracle, fits: readonly Fit[] = oracle.fits): ReadTable[] {
  return byTag(block, 'table').map((table) => {
    const caption = textOf(byTag(table, 'caption')[0] as Element);
    const part = /^(Normal|Abnormal) cases/.exec(caption)?.[1];
    if (!part) throw new Error(`a table is called "${caption}"`);
    const titles = byTag(byTag(table, 'thead')[0] as Element, 'th')
      .map(textOf)
      .slice(0, -1);
    const columns = titles.map((title) => variableTitled(oracle, title, fits));
    const rows = byTag(table, 'tbody').flatMap((body) => byTag(body, 'tr'));
    return {
      part: part === 'Normal' ? 'normal' : 'abnormal',
      columns,
      rows: rows.map((row) => {
        // A row that says something else than the last revision begins by saying so.
        const words = byTag(row, 'td').map((cell) => textOf(cell).replace(/^Changed: /, ''));
        const state = words.at(-1) ?? '';
        const readings = columns.map(
          (column, at) => [column, readValues(oracle, column, words[at] ?? '', fits)] as const,
        );
        return { words: words.slice(0, -1), readings, state };
      }),
    };
  });
}
