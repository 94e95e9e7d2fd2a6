/**
 * Holds what pages say of differences to the rules: which items differ, what only one of two can be, and every case of every
 * table with both states; on the pages of aircraft for each, on the pages of differences for each fit out of what is said
 * once for several.
 */
import { attribute, byClass, byId, byTag, type Element, findAll, textOf } from '../../helpers/dom.ts';
import { covers, type Holding, holdingsOf, readEffectivity, timeText } from '../../helpers/effectivity-words.ts';
import { ABSENT, sharedName } from '../../helpers/seen-cases.ts';
import { lies, readValues, titledValues, variableTitled } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { type AttributeId, attributesOf, casesOf, titleOf } from './groups.ts';
import { isLone, judgeLone } from './lone.ts';
import { listed, outcomeOf, outcomeWords, type SeenOutcome } from './outcomes.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

/** Two fits that a part of a page compares. */
export type Compared = readonly [here: Fit, there: Fit];
/** A part of a page about one difference, and what it calls the two. */
export interface Block {
  readonly element: Element;
  readonly names: readonly [here: string, there: string];
}

/** Faults of the differences on every aircraft's page, now and after each known change, and on the pages of differences. */
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
      const judged = (section: Element, compared: Compared, names: Block['names']): string[] =>
        judgeAll(
          byClass(section, 'difference').map((element) => ({ element, names })),
          oracle,
          compared,
        );
      return [
        ...(now ? judged(now, [fit, baseline.fit], [registration, baseline.registration]) : []),
        ...wanted.flatMap(({ from, until, later }) =>
          judged(
            byId(page, `from-${from}`) as Element,
            [later, fit],
            [`${registration} ${timeText(from, until)}`, `${registration} on ${date}`],
          ),
        ),
      ];
    });
  });
  const devices = oracle.aircraft.filter(({ kind }) => kind === 'device');
  return [
    ...onAircraft,
    ...judgeShared(pages, oracle, 'differences.html', {
      fits: oracle.fits.filter((fit) => fit !== baseline.fit),
      sides: (fit) => [fit, baseline.fit],
      names: (aircraft) => [aircraft, baseline.registration],
    }),
    ...devices.flatMap(({ serial, registration, fit: here }) =>
      judgeShared(pages, oracle, `differences/${serial}.html`, {
        fits: oracle.fits.filter(
          (fit) =>
            fit !== here &&
            oracle.aircraft.some(({ kind, course }) => kind !== 'device' && course.some((each) => each.fit === fit)),
        ),
        sides: (fit) => [here, fit],
        names: (aircraft) => [registration, aircraft],
      }),
    ),
  ];
}

/** What a page of differences compares, and what it calls the two, where the aircraft of a part are called so. */
interface Comparing {
  readonly fits: readonly Fit[];
  readonly sides: (fit: Fit) => Compared;
  readonly names: (aircraft: string) => Block['names'];
}

/** Each fit by itself: the parts that hold for it say all that differs, and what is said in short leads to them. */
function judgeShared(pages: Pages, oracle: Oracle, address: string, { fits, sides, names }: Comparing): string[] {
  return attempt(address, () => {
    const page = pages.page(address);
    const all = byClass(page, 'difference').map((element) => {
      const [line] = byClass(element, 'holds');
      const [summary = line] = line ? byTag(line, 'summary') : [];
      if (!summary) throw new Error('a difference without aircraft');
      const times = readEffectivity(oracle, textOf(summary));
      const [only] = times;
      const single = times.length === 1 && only ? [only.registration, timeText(only.from, only.until)] : undefined;
      const called = single ? single.filter((each) => each !== '').join(' ') : 'these aircraft';
      return { element, times, names: names(called) };
    });
    const groups = byClass(page, 'fit');
    if (groups.length !== fits.length) return [`${groups.length} fits instead of ${fits.length}`];
    return fits.flatMap((fit, at) => {
      const own = holdingsOf(oracle, [fit]);
      const holding = (times: readonly Holding[]): boolean => own.every((time) => covers(times, time));
      const blocks = all.filter(({ times }) => holding(times));
      const faults = [...judgeAll(blocks, oracle, sides(fit)), ...judgeShort(groups[at] as Element, blocks, all)];
      return faults.map((fault) => `${fit.id}: ${fault}`);
    });
  });
}

/** What is said of a fit in short leads to parts that hold for it, and to each of them, but for those on lamps and what is missing. */
function judgeShort(group: Element, blocks: readonly Block[], all: readonly Block[]): string[] {
  const idOf = ({ element }: Block): string => attribute(element, 'id') ?? '';
  const linked = byTag(group, 'a')
    .map((each) => /#(.*)$/.exec(attribute(each, 'href') ?? '')?.[1])
    .filter((id) => id !== undefined);
  const ids = blocks.map(idOf).filter((id) => id !== '');
  const alien = linked.filter((id) => all.some((block) => idOf(block) === id) && !ids.includes(id));
  const isLight = ({ element }: Block): boolean => !/: .*lamp/.test(textOf(byTag(element, 'a')[0] ?? element));
  const missing = blocks.filter((block) => isLight(block) && idOf(block) !== '' && !linked.includes(idOf(block)));
  return [
    ...alien.map((id) => `leads to ${id}, which does not hold for it`),
    ...missing.map((block) => `does not lead to ${idOf(block)}`),
  ];
}

/** What differences are told of, where not of everything. */
export interface Scope {
  readonly hasItem: (id: string) => boolean;
  /** Whether single values of a variable belong to it; counterparts go by one name. */
  readonly hasValuesOf: (name: string) => boolean;
}
const EVERYTHING: Scope = { hasItem: () => true, hasValuesOf: () => true };

export function judgeAll(
  blocks: readonly Block[],
  oracle: Oracle,
  fits: Compared,
  scope: Scope = EVERYTHING,
): string[] {
  const has = ({ element }: Block, name: string): boolean =>
    (attribute(element, 'class') ?? '').split(' ').includes(name);
  const missing = blocks.filter((block) => has(block, 'missing'));
  const lone = blocks.filter((block) => has(block, 'lone'));
  const tables = blocks.filter((block) => !has(block, 'missing') && !has(block, 'lone'));
  const used = new Set<Block>();
  const ids = attributesOf(oracle).filter(({ item }) => scope.hasItem(item));
  const faults = ids.flatMap((id) => {
    const about = tables.filter((block) => lampsIn(block, oracle, id) !== undefined);
    for (const block of about) used.add(block);
    const lacking = fits.findIndex((fit) => !oracle.isFitted(fit, id.item));
    if (lacking >= 0) return about.length === 0 ? [] : [`${id.item}.${id.attribute}: a table of what is not fitted`];
    const found = about.flatMap((block) => judgeOne(block, oracle, id, fits));
    const [first] = about;
    const wrong = about.length > 1 ? ['several tables'] : first ? found : judgeAlike(oracle, id, fits);
    return wrong.map((fault) => `${id.item}.${id.attribute}: ${fault}`);
  });
  return [
    ...faults,
    ...judgeMissing(missing, oracle, fits, scope),
    ...judgeLone(lone, oracle, fits, scope.hasValuesOf),
    ...tables.filter((block) => !used.has(block)).map((block) => `tells of ${textOf(block.element).slice(0, 60)}`),
  ];
}

/** Items that only one of the two has, each told once. */
function judgeMissing(blocks: readonly Block[], oracle: Oracle, fits: Compared, { hasItem }: Scope): string[] {
  const says = blocks.flatMap(({ element, names }) =>
    byTag(byTag(element, 'p').at(-1) as Element, 'a').map((item) => {
      const verdict = textOf(byClass(element, 'verdict')[0] as Element);
      return `${textOf(item)} ${verdict.replace(names[0], 'HERE').replace(names[1], 'THERE')}`;
    }),
  );
  const wanted = [...oracle.content.items.values()].flatMap(({ id, title }) => {
    const [here, there] = fits.map((fit) => oracle.isFitted(fit, id));
    return here === there || !hasItem(id) ? [] : [`${title} Not fitted on ${here ? 'THERE' : 'HERE'}`];
  });
  const told = [...says].sort().join('\n');
  return told === [...wanted].sort().join('\n') ? [] : [`tells of ${told} instead of ${wanted.join(', ')}`];
}

/** The lamps that a part is about, in its order, and which of them is this one; undefined where it is about something else. */
export function lampsIn({ element }: Block, oracle: Oracle, id: AttributeId): number | undefined {
  const heading = findAll(element, ({ tagName }) => /^h[345]$/.test(tagName))[0] as Element;
  const title = textOf(byTag(heading, 'a')[0] as Element);
  if (title === titleOf(oracle, id)) return 0;
  const item = oracle.content.items.get(id.item);
  const lead = `${item?.title}: `;
  if (!item || !title.startsWith(lead)) return undefined;
  const lamps = [...item.attributes.values()].filter(({ lamp }) => lamp);
  const named = lamps.filter((lamp) =>
    title
      .slice(lead.length)
      .split(/, | and /)
      .includes(lamp.title),
  );
  const words = listed(
    named.map((lamp) => lamp.title),
    'and',
  );
  const at = named.findIndex((lamp) => lamp.id === id.attribute);
  return title === lead + words && at >= 0 ? at : undefined;
}

/** Nothing may be left unsaid where no part is about an attribute. */
function judgeAlike(oracle: Oracle, id: AttributeId, fits: Compared): string[] {
  if (oracle.alike(id.item, id.attribute, ...fits)) return [];
  const [given] = differing(oracle, id, fits);
  return given ? [`does not say that it differs for ${JSON.stringify(given.given)}`] : [];
}

/** The cases in which an attribute differs, without those that only one of the two can be in because of a single value. */
function differing(oracle: Oracle, id: AttributeId, fits: Compared) {
  const lacking = [lackingOn(oracle, id, fits, 0), lackingOn(oracle, id, fits, 1)] as const;
  return bothCases(oracle, id, fits, lacking)
    .filter((given) => !Object.entries(given).some(([name, value]) => isLone(oracle, fits, name, value)))
    .map((given) => {
      // What a fit lacks stands nowhere on it, wherever it stands on the other.
      const seen = fits.map((fit, at) => {
        const own = Object.fromEntries((lacking[at] ?? []).map((name) => [name, ABSENT]));
        return outcomeOf(oracle, id, fit, { ...given, ...own });
      }) as [SeenOutcome, SeenOutcome];
      return { given, seen, words: seen.map((each) => outcomeWords(oracle, id, each)) };
    })
    .filter(({ words }) => words[0] !== words[1]);
}

/** The rows of a table of what differs: the words of their cells, and which cases they hold; or what is wrong with it. */
export function rowsOf(block: Block, oracle: Oracle, id: AttributeId, fits: Compared) {
  const { element, names } = block;
  const [table] = byTag(element, 'table');
  if (!table) return 'no table of what differs';
  const lamp = lampsIn(block, oracle, id) ?? 0;
  const headings = byTag(byTag(table, 'thead')[0] as Element, 'th').map((heading) =>
    textOf(byClass(heading, 'each')[lamp] ?? heading),
  );
  const titles = names.map((name) => name.charAt(0).toUpperCase() + name.slice(1));
  if (headings.slice(-2).join() !== titles.join()) return `compares ${headings.slice(-2).join(' with ')}`;
  const columns = headings.slice(0, -2).map((title) => variableTitled(oracle, title, fits, id.item));
  const rows = byTag(table, 'tbody')
    .flatMap((body) => byTag(body, 'tr'))
    .map((row) => byTag(row, 'td').map(textOf));
  const readings = rows.map((cells) =>
    columns.map((column, each) => [column, readValues(oracle, column, cells[each] ?? '', fits)] as const),
  );
  return { rows, readings };
}

function judgeOne(block: Block, oracle: Oracle, id: AttributeId, fits: Compared): string[] {
  const { element, names } = block;
  const verdict = textOf(byClass(element, 'verdict')[0] as Element);
  const read = rowsOf(block, oracle, id, fits);
  if (typeof read === 'string') return [read];
  const { rows, readings } = read;
  const used = new Set<number>();
  const cases = differing(oracle, id, fits);
  const faults = cases.flatMap(({ given, words }) => {
    const found = readings.flatMap((row, at) => (lies(given, row) ? [at] : []));
    const [row] = found;
    if (found.length !== 1 || row === undefined) return [`${found.length} rows for ${JSON.stringify(given)}`];
    used.add(row);
    const says = rows[row]?.slice(-2).join(' against ');
    return says === words.join(' against ')
      ? []
      : [`says ${says} instead of ${words.join(' against ')} for ${JSON.stringify(given)}`];
  });
  const told = new Set(cases.map(({ given }) => keyOf(given)));
  const lacking = [lackingOn(oracle, id, fits, 0), lackingOn(oracle, id, fits, 1)] as const;
  const idleCases = bothCases(oracle, id, fits, lacking).filter(
    (given) =>
      !told.has(keyOf(given)) &&
      !Object.entries(given).some(([name, value]) => isLone(oracle, fits, name, value)) &&
      readings.some((row) => lies(given, row)),
  );
  const idle = rows.flatMap((_, at) => (used.has(at) ? [] : [`row ${at + 1} holds no case that differs`]));
  const common = cases.filter(({ words }) => !words.includes(IMPOSSIBLE)).map(({ seen }) => seen);
  const lone = new Set(
    cases
      .filter(({ words }) => words.includes(IMPOSSIBLE))
      .map(({ words }): 0 | 1 => (words[0] === IMPOSSIBLE ? 1 : 0)),
  );
  const rightly = verdictOf(common, lone, names);
  return [
    ...faults,
    ...idleCases.slice(0, 1).map((given) => `a row for ${JSON.stringify(given)}, where nothing differs`),
    ...idle,
    ...(verdict === rightly ? [] : [`the verdict is "${verdict}" instead of "${rightly}"`]),
  ];
}

function keyOf(given: Case): string {
  return JSON.stringify(Object.entries(given).sort(([a], [b]) => a.localeCompare(b)));
}

const IMPOSSIBLE = 'cannot happen';

/** The strongest of what can be said: cases in which both can be count more than those in which only one can. */
function verdictOf(
  common: readonly [SeenOutcome, SeenOutcome][],
  lone: ReadonlySet<0 | 1>,
  names: Block['names'],
): string {
  if (common.length > 0) {
    const said = new Set(common.map((pair) => caseVerdict(pair, names)));
    const order = ['Differs', 'May differ', `Stated on ${names[0]} only`, `Stated on ${names[1]} only`];
    return order.find((verdict) => said.has(verdict)) ?? '';
  }
  const [only, ...others] = lone;
  return only === undefined || others.length > 0
    ? 'Can be in other cases'
    : `Has cases only possible on ${names[only]}`;
}

function caseVerdict(pair: readonly [SeenOutcome, SeenOutcome], names: Block['names']): string {
  const [here, there] = pair.map(({ ways, options }) => {
    const [only] = ways.flat();
    return options.length === 0 && ways.flat().length === 1 && typeof only === 'object' && 'notStated' in only;
  });
  if (here !== there) return `Stated on ${names[here ? 1 : 0]} only`;
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
  fits: Compared,
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
export function lackingOn(oracle: Oracle, { item, attribute }: AttributeId, fits: Compared, at: number): string[] {
  const variables = oracle.variables(item, attribute).filter((name) => oracle.content.controls.has(name));
  const names = new Set(variables.map((name) => sharedName(oracle, name)));
  const has = (fit: Fit | undefined, name: string): boolean =>
    fit !== undefined &&
    variables.some((each) => sharedName(oracle, each) === name && oracle.valuesOn(fit, each).length > 0);
  return [...names].filter((name) => !has(fits[at], name) && has(fits[1 - at], name));
}
