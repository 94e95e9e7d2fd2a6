/**
 * Holds the differences from the baseline to the rules: which items differ, and every case of every table with both states.
 */
import { attribute, byClass, byId, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { holdingsOf, timeText } from '../../helpers/effectivity-words.ts';
import { ABSENT, sharedName } from '../../helpers/seen-cases.ts';
import { lies, readValues, titledValues, variableTitled } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { type AttributeId, attributesOf, casesOf, titleOf } from './groups.ts';
import { outcomeOf, outcomeWords, type SeenOutcome } from './outcomes.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

/** Two fits that a part of a page compares, and what it calls them. */
interface Compared {
  readonly fits: readonly [here: Fit, there: Fit];
  readonly names: readonly [here: string, there: string];
}

/** Faults of the differences on every aircraft's page, now and after each known change, and of every fit on their own page. */
export function judgeDifferences(pages: Pages, oracle: Oracle): string[] {
  const baseline = oracle.aircraft.find(({ serial }) => serial === oracle.content.book.baseline);
  if (!baseline) throw new Error('no baseline');
  const { date } = oracle.content.book;
  const onAircraft = oracle.aircraft.flatMap(({ serial, registration, fit, course }) => {
    const address = `aircraft/${serial}.html`;
    return attempt(address, () => {
      const page = pages.page(address);
      const now = byId(page, 'differences');
      if (!now && serial !== baseline.serial) return ['no differences from the baseline'];
      const wanted = [...new Set(course.map((stage) => stage.fit))].flatMap((later) =>
        holdingsOf(oracle, [later])
          .filter((time) => time.registration === registration && time.from !== undefined)
          .map((time) => ({ ...time, later })),
      );
      const shown = byClass(page, 'later').map((section) => attribute(section, 'id'));
      const dates = wanted.map(({ from }) => `from-${from}`).sort();
      if (shown.join() !== dates.join()) return [`tells of ${shown.join()} instead of ${dates.join()}`];
      return [
        ...(now
          ? judgeAll(now, oracle, { fits: [fit, baseline.fit], names: [registration, baseline.registration] })
          : []),
        ...wanted.flatMap(({ from, until, later }) => {
          const names = [`${registration} ${timeText(from, until)}`, `${registration} on ${date}`] as const;
          return judgeAll(byId(page, `from-${from}`) as Element, oracle, { fits: [later, fit], names });
        }),
      ];
    });
  });
  const together = attempt('differences.html', () => {
    const shown = byClass(pages.page('differences.html'), 'fit');
    const wanted = oracle.fits.filter((fit) => fit !== baseline.fit);
    if (shown.length !== wanted.length) return [`${shown.length} fits instead of ${wanted.length}`];
    return wanted.flatMap((fit, at) => {
      const times = holdingsOf(oracle, [fit]);
      const first = times.find(({ from }) => from === undefined) ?? times[0];
      if (!first) throw new Error(`no aircraft has ${fit.id}`);
      const time = first.from === undefined ? '' : ` ${timeText(first.from, first.until)}`;
      const names = [`${first.registration}${time}`, baseline.registration] as const;
      return judgeAll(shown[at] as Element, oracle, { fits: [fit, baseline.fit], names });
    });
  });
  return [...onAircraft, ...together];
}

function judgeAll(section: Element, oracle: Oracle, compared: Compared): string[] {
  const [here, there] = compared.fits;
  const shown = byClass(section, 'difference');
  const wanted = attributesOf(oracle).filter((id) => !oracle.alike(id.item, id.attribute, here, there));
  const titles = shown.map((each) => textOf(byTag(byTag(each, 'h3')[0] as Element, 'a')[0] as Element));
  const wantedTitles = wanted.map((id) => titleOf(oracle, id));
  if (titles.join('\n') !== wantedTitles.join('\n'))
    return [`differs in ${titles.join(', ')} instead of ${wantedTitles.join(', ')}`];
  return wanted.flatMap((id, at) =>
    judgeOne(shown[at] as Element, oracle, id, compared).map((fault) => `${id.item}.${id.attribute}: ${fault}`),
  );
}

function judgeOne(section: Element, oracle: Oracle, id: AttributeId, { fits, names }: Compared): string[] {
  const verdict = textOf(byClass(section, 'verdict')[0] as Element);
  const tables = byTag(section, 'table');
  const missing = fits.findIndex((fit) => !oracle.isFitted(fit, id.item));
  if (missing >= 0) {
    const wanted = `Not fitted on ${names[missing]}`;
    return verdict === wanted && tables.length === 0 ? [] : [`says "${verdict}" instead of "${wanted}"`];
  }
  const [table] = tables;
  if (!table) return ['no table of what differs'];
  const headings = byTag(byTag(table, 'thead')[0] as Element, 'th').map(textOf);
  if (headings.slice(-2).join() !== names.join()) return [`compares ${headings.slice(-2).join(' with ')}`];
  const columns = headings.slice(0, -2).map((title) => variableTitled(oracle, title, fits));
  const rows = byTag(table, 'tbody')
    .flatMap((body) => byTag(body, 'tr'))
    .map((row) => byTag(row, 'td').map(textOf));
  const readings = rows.map((cells) =>
    columns.map((column, each) => [column, readValues(oracle, column, cells[each] ?? '', fits)] as const),
  );
  const used = new Set<number>();
  const common: [SeenOutcome, SeenOutcome][] = [];
  const lone = new Set<0 | 1>();
  const lacking = [lackingOn(oracle, id, fits, 0), lackingOn(oracle, id, fits, 1)] as const;
  const faults = bothCases(oracle, id, fits, lacking).flatMap((given) => {
    // What a fit lacks stands nowhere on it, wherever it stands on the other.
    const [here, there] = fits.map((fit, at) => {
      const own = Object.fromEntries((lacking[at] ?? []).map((name) => [name, ABSENT]));
      return outcomeOf(oracle, id, fit, { ...given, ...own });
    }) as [SeenOutcome, SeenOutcome];
    const wanted = [here, there].map((each) => outcomeWords(oracle, id, each));
    const found = readings.flatMap((row, at) => (lies(given, row) ? [at] : []));
    if (wanted[0] === wanted[1])
      return found.length === 0 ? [] : [`a row for ${JSON.stringify(given)}, where nothing differs`];
    if (!wanted.includes(IMPOSSIBLE)) common.push([here, there]);
    else lone.add(wanted[0] === IMPOSSIBLE ? 1 : 0);
    const [row] = found;
    if (found.length !== 1 || row === undefined) return [`${found.length} rows for ${JSON.stringify(given)}`];
    used.add(row);
    const says = rows[row]?.slice(-2).join(' against ');
    return says === wanted.join(' against ')
      ? []
      : [`says ${says} instead of ${wanted.join(' against ')} for ${JSON.stringify(given)}`];
  });
  const idle = rows.flatMap((_, at) => (used.has(at) ? [] : [`row ${at + 1} holds no case that differs`]));
  const rightly = verdictOf(common, lone, names);
  const wrong = verdict === rightly ? [] : [`the verdict is "${verdict}" instead of "${rightly}"`];
  return [...faults, ...idle, ...wrong];
}

const IMPOSSIBLE = 'cannot happen';

/** The strongest of what can be said: cases in which both can be count more than those in which only one can. */
function verdictOf(
  common: readonly [SeenOutcome, SeenOutcome][],
  lone: ReadonlySet<0 | 1>,
  names: Compared['names'],
): string {
  if (common.length > 0) {
    const said = new Set(common.map((pair) => caseVerdict(pair, names)));
    const order = ['Differs', 'May differ', `Stated for ${names[0]} only`, `Stated for ${names[1]} only`];
    return order.find((verdict) => said.has(verdict)) ?? '';
  }
  const [only, ...others] = lone;
  return only === undefined || others.length > 0 ? 'Has other cases' : `Has cases that only ${names[only]} can be in`;
}

function caseVerdict(pair: readonly [SeenOutcome, SeenOutcome], names: Compared['names']): string {
  const [here, there] = pair.map(({ ways, options }) => {
    const [only] = ways.flat();
    return options.length === 0 && ways.flat().length === 1 && typeof only === 'object' && 'notStated' in only;
  });
  if (here !== there) return `Stated for ${names[here ? 1 : 0]} only`;
  const [ours, theirs] = pair.map(({ ways }) => ways.flat().filter((each) => typeof each === 'string'));
  return ours?.some((state) => theirs?.includes(state)) ? 'May differ' : 'Differs';
}

/**
 * Cases that can happen on one of the two fits at least. A control that only one of them has stands in each of its positions,
 * also beside what the other one does.
 */
function bothCases(
  oracle: Oracle,
  id: AttributeId,
  fits: Compared['fits'],
  lacking: readonly [readonly string[], readonly string[]],
): Case[] {
  const all = new Map<string, Case>();
  for (const [at, fit] of fits.entries()) {
    const beside = (lacking[at] ?? []).reduce<Case[]>(
      (cases, name) =>
        cases.flatMap((one) =>
          titledValues(oracle, name, [fits[1 - at] as Fit])
            .filter(([value]) => value !== ABSENT)
            .map(([value]) => ({ ...one, [name]: value })),
        ),
      [{}],
    );
    for (const given of casesOf(oracle, id, fit)) {
      for (const more of beside) {
        const whole = { ...given, ...more };
        all.set(Object.values(whole).join(' '), whole);
      }
    }
  }
  return [...all.values()];
}

/** The controls, counterparts as one, that one of the fits lacks and the other has. */
function lackingOn(oracle: Oracle, { item, attribute }: AttributeId, fits: Compared['fits'], at: number): string[] {
  const variables = oracle.variables(item, attribute).filter((name) => oracle.content.controls.has(name));
  const names = new Set(variables.map((name) => sharedName(oracle, name)));
  const has = (fit: Fit | undefined, name: string): boolean =>
    fit !== undefined &&
    variables.some((each) => sharedName(oracle, each) === name && oracle.valuesOn(fit, each).length > 0);
  return [...names].filter((name) => !has(fits[at], name) && has(fits[1 - at], name));
}
