/** Holds the pages of the options and of the fleet to the lists of aircraft and modifications, as the oracle reads them. */
import { attribute, byClass, byId, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { holdingsOf, holdingsText, readEffectivity } from '../../helpers/effectivity-words.ts';
import type { Oracle, OracleAircraft } from '../../oracle/index.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

/** Every aircraft stands in one row of its kind, with its own values, those that are alike together. */
export function judgeFleet(pages: Pages, oracle: Oracle): string[] {
  const page = pages.page('fleet.html');
  const options = [...oracle.content.options.values()];
  const baseline = oracle.aircraft.find(({ serial }) => serial === oracle.content.book.baseline);
  const rows = ['aircraft', 'devices'].flatMap((id) => {
    const table = byId(page, id);
    return table ? byTag(table, 'tr').flatMap((row) => (byTag(row, 'td').length > 0 ? [{ kind: id, row }] : [])) : [];
  });
  const named = ({ row }: { row: Element }): string[] => byTag(byTag(row, 'th')[0] as Element, 'a').map(textOf);
  const faults = oracle.aircraft.flatMap((aircraft) =>
    attempt(aircraft.registration, () => {
      const own = rows.filter((each) => named(each).includes(aircraft.registration));
      const [found] = own;
      if (own.length !== 1 || !found) return [`stands in ${own.length} rows`];
      if ((found.kind === 'devices') !== (aircraft.kind === 'device')) return ['stands with another kind'];
      const alike = named(found).join();
      const wanted = oracle.aircraft
        .filter(({ kind, fit }) => kind === aircraft.kind && fit === aircraft.fit)
        .map(({ registration }) => registration)
        .join();
      if (alike !== wanted) return [`stands with ${alike} instead of ${wanted}`];
      const cells = byTag(found.row, 'td');
      return options.flatMap((option, at) => {
        const cell = cells[at];
        if (!cell) return [`no ${option.title}`];
        const value = aircraft.fit.options[option.id] ?? '';
        const words = textOf(byTag(cell, 'span')[0] as Element);
        const says = value === 'unknown' ? /^Unknown/.test(words) : words === option.values.get(value);
        const differs = (attribute(cell, 'class') ?? '').split(' ').includes('differs');
        const changes = changesText(oracle, aircraft, option.id);
        const later = byTag(cell, 'li').map(textOf).join('; ');
        return [
          ...(says ? [] : [`${option.title} is ${words}`]),
          ...(differs === (value !== baseline?.fit.options[option.id]) ? [] : [`${option.title} weighted wrongly`]),
          ...changes.filter((each) => !later.includes(each)).map((each) => `${option.title} lacks ${each}`),
        ];
      });
    }),
  );
  const changes = oracle.content.aircraft.flatMap((aircraft) => aircraft.changes.map(({ date }) => date)).sort();
  const table = byId(page, 'changes');
  const dates = table
    ? byTag(table, 'tbody')
        .flatMap((body) => byTag(body, 'th'))
        .map(textOf)
    : [];
  return changes.join() === dates.join()
    ? faults
    : [...faults, `changes on ${dates.join()} instead of ${changes.join()}`];
}

/** "Permanent from 2026-10-22". */
function changesText(oracle: Oracle, { serial }: OracleAircraft, option: string): string[] {
  const titles = oracle.content.options.get(option)?.values;
  const changes = oracle.content.aircraft.find((each) => each.serial === serial)?.changes ?? [];
  return changes
    .filter((change) => change.option === option)
    .map(({ value, date }) => `${value === 'unknown' ? value : titles?.get(value)} from ${date}`);
}

/** Every value of every option stands on the page with exactly the aircraft that have it, and when. */
export function judgeOptions(pages: Pages, oracle: Oracle): string[] {
  const page = pages.page('options.html');
  return [...oracle.content.options.values()].flatMap((option) =>
    attempt(option.id, () => {
      const section = byId(page, `option-${option.id}`);
      if (!section) return ['is not there'];
      const rows = byTag(byClass(section, 'panel-controls')[0] as Element, 'li').filter(
        (row) => byClass(row, 'name').length > 0,
      );
      return [...option.values].flatMap(([id, title]) => {
        const row = rows.find((each) => textOf(byClass(each, 'name')[0] as Element) === title);
        if (!row) return [`lacks ${title}`];
        const fits = oracle.fits.filter((fit) => fit.options[option.id] === id);
        const wanted = holdingsText(holdingsOf(oracle, fits));
        const holds = byClass(row, 'holds')[0] as Element;
        const line = holds.tagName === 'details' ? (byTag(holds, 'summary')[0] as Element) : holds;
        const words = textOf(line);
        const found = words === 'no aircraft' ? '' : holdingsText(readEffectivity(oracle, words));
        return found === wanted ? [] : [`${title} on ${found} instead of ${wanted}`];
      });
    }),
  );
}
