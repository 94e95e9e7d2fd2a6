/** The demo's flows that are drawn in several parts lead, joined, to what an interpreter of the authors' rules shows. */
import { expect, inject, it } from 'vitest';
import type { Chooser } from '../compile/random-numbers.ts';
import { byClass, byId } from '../helpers/dom.ts';
import { covers, holdingsOf } from '../helpers/effectivity-words.ts';
import { flight } from '../helpers/flights.ts';
import { seenCase, sharedValue } from '../helpers/seen-cases.ts';
import { trials } from '../helpers/trials.ts';
import { loadOracle } from '../oracle/index.ts';
import { partsOf, walk } from './judges/flows.ts';
import { attributesOf, holdsFor, itemAddress } from './judges/groups.ts';
import { outcomeWords } from './judges/outcomes.ts';
import { pagesIn } from './judges/pages.ts';
import { tablesIn } from './judges/tables.ts';

const MOMENTS = trials({ short: 400, long: 3000 });

const oracle = loadOracle('content');
const pages = pagesIn(inject('demoSite'));
const { conditions, controls, sequences } = oracle.content;
const variables = [...conditions.keys(), ...controls.keys(), ...sequences.keys()];

const split = attributesOf(oracle).flatMap((id) => {
  const section = byId(pages.page(itemAddress(oracle, id.item)), `${id.item}-${id.attribute}`);
  const groups = section ? byClass(section, 'group') : [];
  return groups.filter((group) => byClass(group, 'part').length > 1).map((group) => ({ id, group }));
});

it('has some that are', () => {
  expect(split.length).toBeGreaterThanOrEqual(5);
});

/** Of each flow, whether more than one state was come by. */
const varied: boolean[] = [];

it.each(split.map((one, at) => [`${one.id.item}, ${at + 1}`, one, at] as const))(
  '%s',
  async (_, { id, group }, seed) => {
    const [figure] = byClass(group, 'flow').filter(({ tagName }) => tagName === 'figure');
    if (!figure) throw new Error('no flow');
    const parts = await partsOf(figure);
    const held = holdsFor(oracle, group);
    const fits = oracle.fits.filter((fit) => holdingsOf(oracle, [fit]).every((time) => covers(held, time)));
    const [fit] = fits.flatMap((each) => oracle.candidates(each));
    if (!fit) throw new Error('no aircraft');
    const tables = tablesIn(group, oracle, fits);
    const telling = tables.find(({ part }) => part === 'abnormal')?.columns ?? [];
    const rows = tables.filter(({ part }) => part === 'normal').flatMap((table) => table.rows);
    /** What would bring the aircraft into a row of the table, as far as inputs alone can. */
    const wish = (choose: Chooser): Map<string, string> =>
      new Map(
        choose.pick(rows).readings.flatMap(([name, reading]) => {
          const values = sequences.has(name) ? [] : oracle.valuesOn(fit, name);
          const fitting = values.filter((value) => reading(sharedValue(oracle, name, value)));
          return fitting.length > 0 ? [[name, choose.pick(fitting)] as const] : [];
        }),
      );

    const met = new Set<string>();
    for (const given of flight(oracle, fit, seed, MOMENTS, wish)) {
      const seen = seenCase(oracle, variables, given);
      if (!oracle.isNormal(Object.fromEntries(telling.map((name) => [name, seen[name] ?? ''])))) continue;
      const state = oracle.state(fit, id.item, id.attribute, given);
      const wanted = outcomeWords(oracle, id, { ways: [[state]], options: [] });
      expect(walk(parts, oracle, seen, fits).toLowerCase(), JSON.stringify(seen)).toBe(wanted.toLowerCase());
      met.add(wanted);
    }
    varied.push(met.size > 1);
  },
);

it('comes by more than one state of at least half of them', () => {
  expect(varied.filter((more) => more).length).toBeGreaterThanOrEqual(split.length / 2);
});
