/**
 * A theorem prover judges every state table as it stands on the page: over all steps of the numbers, and by its own
 * translation of the content, the table is equivalent to the rules, covers every case and has no overlap.
 */
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { smallFleet } from '../helpers/content.ts';
import { byClass, byId, type Element } from '../helpers/dom.ts';
import { loadOracle, type Oracle } from '../oracle/index.ts';
import { type Judge, type JudgedTable, startJudge } from '../oracle/z3.ts';
import { attributesOf, groupsByOracle, itemAddress } from './judges/groups.ts';
import { neutralCell } from './judges/neutral.ts';
import { type Pages, pagesIn } from './judges/pages.ts';
import { tablesIn } from './judges/tables.ts';

let oracle: Oracle;
let pages: Pages;
let judge: Judge;
beforeAll(async () => {
  oracle = loadOracle(smallFleet);
  pages = pagesIn(inject('smallSite'));
  judge = await startJudge(oracle);
});
afterAll(() => judge.end());

it('proves every state table of every item on every fit', async () => {
  const faults: string[] = [];
  let proved = 0;
  for (const id of attributesOf(oracle)) {
    const section = byId(pages.page(itemAddress(oracle, id.item)), `${id.item}-${id.attribute}`) as Element;
    const groups = byClass(section, 'group');
    for (const [at, fits] of groupsByOracle(oracle, id).entries()) {
      for (const table of tablesIn(groups[at] as Element, oracle)) {
        for (const fit of fits) {
          const judged: JudgedTable = {
            ...id,
            fit: fit.id,
            part: table.part,
            columns: table.columns,
            rows: table.rows.map(({ words, state }) => ({
              cells: table.columns.map((column, each) => neutralCell(oracle, column, words[each] ?? '')),
              state: stateId(id.item, id.attribute, state),
            })),
          };
          const found = await judge.table(judged);
          proved += 1;
          faults.push(
            ...found.map((fault) => `${id.item}.${id.attribute} ${table.part} on ${fit.id}: ${JSON.stringify(fault)}`),
          );
        }
      }
    }
  }
  expect(faults).toEqual([]);
  expect(proved).toBeGreaterThan(oracle.fits.length * 10);
});

it('finds a counterexample to none of the claims on any fit', async () => {
  for (const { sentence, holds } of oracle.content.claims) {
    for (const fit of oracle.fits) expect(await judge.counterexample(fit, holds), sentence).toBeUndefined();
  }
});

function stateId(item: string, attribute: string, title: string): string {
  const states = oracle.content.items.get(item)?.attributes.get(attribute)?.states ?? new Map();
  const found = [...states].find(([, state]) => state.title === title);
  if (!found) throw new Error(`${item} has no state "${title}"`);
  return found[0];
}
