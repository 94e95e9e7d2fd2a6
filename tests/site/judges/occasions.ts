/**
 * Holds the pages of legends and of messages to the rules: what they say of when a legend is lit or dark, or a message
 * raised, is read back, and each case that can happen must fall under the state that the rules give it, and under no other.
 */
import { byClass, byId, byTag, type Element, findAll, textOf } from '../../helpers/dom.ts';
import { covers, holdingsOf, holdingsText, readEffectivity } from '../../helpers/effectivity-words.ts';
import { ABSENT, sharedName, sharedValue } from '../../helpers/seen-cases.ts';
import { lies, type Reading } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle, Outcome } from '../../oracle/index.ts';
import { holdsFor, itemAddress } from './groups.ts';
import { outcomeWords } from './outcomes.ts';
import type { Pages } from './pages.ts';
import { readPhrases } from './sentences.ts';
import { attempt } from './tables.ts';

/** What of an item a page speaks of: its state without quiet overrides, or whether it is raised. */
interface Spoken {
  readonly item: string;
  readonly attribute: string;
  readonly variables: readonly string[];
  readonly outcome: (fit: Fit, given: Case) => Outcome | 'not-fitted';
}

interface Row {
  readonly state: string;
  readonly of: 'all' | 'normal' | 'rules';
  readonly more: boolean;
  readonly alternatives: readonly string[];
}

export function judgeLegends(pages: Pages, oracle: Oracle): string[] {
  const page = pages.page('legends.html');
  const spoken = new Set<string>();
  const heads = byClass(page, 'looked-up').map((entry) => textOf(byTag(entry, 'h3')[0] as Element));
  const listed = byTag(byClass(page, 'texts')[0] as Element, 'a').map(textOf);
  const astray = listed.join() === heads.join() ? [] : [`legends ${heads.join()} listed as ${listed.join()}`];
  const faults = byClass(page, 'looked-up').flatMap((entry) => {
    const legend = textOf(byTag(entry, 'h3')[0] as Element);
    return byClass(entry, 'thing').flatMap((thing) => {
      const item = itemOf(oracle, thing);
      return attempt(`legend ${legend} of ${item}`, () => {
        const having = oracle.fits.filter((fit) =>
          oracle.candidates(fit).some((one) => oracle.isFitted(one, item) && legendOn(oracle, one, item) === legend),
        );
        for (const fit of having) spoken.add(`${item} ${fit.id}`);
        return judgeBlocks(byClass(thing, 'occasions'), oracle, having, lampOf(oracle, item));
      });
    });
  });
  const missing = [...oracle.content.items.values()]
    .filter(({ kind, legend }) => kind !== 'message' && legend !== undefined)
    .flatMap(({ id }) => oracle.fits.filter((fit) => oracle.isFitted(fit, id)).map((fit) => `${id} ${fit.id}`))
    .filter((each) => !spoken.has(each));
  return [...astray, ...faults, ...missing.map((each) => `no legend for ${each}`)];
}

export function judgeMessages(pages: Pages, oracle: Oracle): string[] {
  const page = pages.page('messages.html');
  const messages = [...oracle.content.items.values()].filter(({ kind }) => kind === 'message');
  const order = ['warning', 'caution', 'advisory', 'reminder'];
  const entries = byClass(page, 'looked-up').filter((entry) => byClass(entry, 'legend').length > 0);
  const wanted = messages
    .toSorted((a, b) => order.indexOf(a.messageClass ?? '') - order.indexOf(b.messageClass ?? ''))
    .map(({ messageClass }) => messageClass);
  const found = entries.map(
    (entry) => /warning|caution|advisory|reminder/.exec(textOf(byClass(entry, 'detail')[0]!))?.[0],
  );
  const faults = wanted.join() === found.join() ? [] : [`classes ${found.join()} instead of ${wanted.join()}`];
  const texts = byTag(byClass(page, 'texts')[0] as Element, 'a').map(textOf);
  const sorted = messages.map(({ legend }) => legend ?? '').sort((a, b) => a.localeCompare(b, 'en'));
  if (texts.join() !== sorted.join()) faults.push(`texts ${texts.join()} instead of ${sorted.join()}`);
  return [
    ...faults,
    ...messages.flatMap((message) =>
      attempt(`message ${message.id}`, () => {
        const entry = entries.find((each) => itemOf(oracle, each) === message.id);
        if (!entry || textOf(byTag(entry, 'h3')[0]!) !== message.legend) return ['is not there, or under another text'];
        const having = oracle.fits.filter((fit) => oracle.isFitted(fit, message.id));
        return [
          ...judgeBlocks(byClass(entry, 'occasions'), oracle, having, raisedOf(oracle, message.id)),
          ...judgeHeld(textOf(entry), oracle, message.id),
        ];
      }),
    ),
  ];
}

/** Every signal, on the aircraft on which it is the same, with exactly the cases in which it is true. */
export function judgeSignals(pages: Pages, oracle: Oracle): string[] {
  const page = pages.page('conditions.html');
  return [...oracle.content.signals].flatMap(([id, text]) =>
    attempt(`signal ${id}`, () => {
      const entry = byId(page, `signal-${id}`);
      if (!entry) return ['is not there'];
      const spoken: Spoken = {
        item: id,
        attribute: 'signal',
        variables: oracle.variablesOf(text),
        outcome: (fit, given) => String(oracle.meaning.truths(text, oracle.meaning.at(fit, given)).has(true)),
      };
      return judgeBlocks(byClass(entry, 'occasions'), oracle, oracle.fits, spoken);
    }),
  );
}

/** Whether it says of each kind of holding back that there is none exactly where there is none. */
function judgeHeld(words: string, oracle: Oracle, id: string): string[] {
  const message = oracle.content.items.get(id);
  const says = [/never held back/i, /suppressed by no other message/i, /not latched/i].map((each) => each.test(words));
  const is = [message?.inhibit.length === 0, message?.suppressedBy.length === 0, message?.latch === undefined];
  return says.join() === is.join() ? [] : [`says ${says.join()} of what holds it back instead of ${is.join()}`];
}

function itemOf(oracle: Oracle, entry: Element): string {
  const href = byTag(byClass(entry, 'what')[0] as Element, 'a')[0]?.attrs.find(({ name }) => name === 'href')?.value;
  const found = [...oracle.content.items.keys()].find((id) => itemAddress(oracle, id) === href);
  if (found === undefined) throw new Error(`${href} is the page of no item`);
  return found;
}

function legendOn(oracle: Oracle, fit: Fit, id: string): string | undefined {
  const item = oracle.content.items.get(id);
  const at = oracle.meaning.at(fit, {});
  return item?.legends.find(({ when }) => oracle.meaning.truths(when, at).has(true))?.legend ?? item?.legend;
}

function lampOf(oracle: Oracle, item: string): Spoken {
  const attributes = [...(oracle.content.items.get(item)?.attributes.values() ?? [])].filter(({ lamp }) => !lamp);
  const [attribute] = attributes.filter(
    ({ states }) => ![...states].every(([id, { glyph }]) => (glyph ?? (SHAPED.has(id) ? id : 'none')) === 'none'),
  );
  if (!attribute) throw new Error(`nothing is seen of ${item}`);
  return {
    item,
    attribute: attribute.id,
    variables: oracle.extendedVariables(item, attribute.id),
    outcome: (fit, given) =>
      oracle.meaning.isFitted(fit, item)
        ? oracle.meaning.outcome(item, attribute.id, oracle.meaning.at(fit, given, true))
        : 'not-fitted',
  };
}
const SHAPED = new Set(['dark', 'lit', 'flashing']);

/** A message before it is held back: its own rules alone, or what sets its latch. */
function raisedOf(oracle: Oracle, item: string): Spoken {
  const message = oracle.content.items.get(item);
  const display = message?.attributes.get('display');
  if (!message || !display) throw new Error(`no message ${item}`);
  const set = oracle.content.sequences.get(message.latch ?? '')?.transitions.find(({ to }) => to === 'set')?.when;
  const rules =
    set === undefined
      ? display.rules
      : [
          { when: set, state: 'shown' },
          { when: undefined, state: 'not-shown' },
        ];
  return {
    item,
    attribute: 'display',
    variables: [...new Set(rules.flatMap(({ when }) => (when === undefined ? [] : oracle.variablesOf(when))))],
    outcome: (fit, given) => {
      const at = oracle.meaning.at(fit, given, true);
      const first = rules.find(({ when }) => when === undefined || oracle.meaning.truths(when, at).has(true));
      return first?.state ?? 'not-shown';
    },
  };
}

function judgeBlocks(blocks: readonly Element[], oracle: Oracle, having: readonly Fit[], spoken: Spoken): string[] {
  const read = blocks.map((block) => {
    const holds =
      byClass(block, 'holds').length > 0 ? holdsFor(oracle, block) : readEffectivity(oracle, 'the whole fleet');
    const isMeant = (fit: Fit): boolean => holdingsOf(oracle, [fit]).every((time) => covers(holds, time));
    return { rows: rowsOf(block), fits: having.filter(isMeant) };
  });
  return having.flatMap((fit) => {
    // Of a fit that may be several, each by itself may have another list.
    if (oracle.candidates(fit).length > 1) return [];
    const own = read.filter(({ fits }) => fits.includes(fit));
    if (own.length !== 1) return [`${own.length} lists for ${holdingsText(holdingsOf(oracle, [fit]))}`];
    return own.flatMap(({ rows, fits }) => judgeRows(rows, oracle, fit, fits, spoken));
  });
}

function rowsOf(block: Element): Row[] {
  const lists = byClass(block, 'positions');
  return lists.flatMap((list) =>
    findAll(list, ({ tagName }) => tagName === 'div').map((div): Row => {
      const said = textOf(byTag(div, 'dd')[0] as Element);
      const of = said.startsWith('In normal cases') ? 'normal' : said.startsWith('By its rules') ? 'rules' : 'all';
      const items = byTag(div, 'li').map(textOf);
      const [only] = byTag(div, 'p').map(textOf);
      return {
        state: textOf(byTag(div, 'dt')[0] as Element),
        of,
        more: said.includes('Other cases lead there too'),
        alternatives: items.length > 0 ? items : [(only ?? '').replace(/^In normal cases /, '')],
      };
    }),
  );
}

/** `fits` are all that the rows are about: they name what one of these has. */
function judgeRows(rows: readonly Row[], oracle: Oracle, fit: Fit, fits: readonly Fit[], spoken: Spoken): string[] {
  const read = rows.map((row) => ({
    ...row,
    readings: row.of === 'rules' ? [] : row.alternatives.map((words) => readPhrases(oracle, words, fits)),
  }));
  const faults: string[] = [];
  for (const { given, outcomes } of seenOutcomes(oracle, fit, spoken)) {
    const ways = [[...outcomes].toSorted((a, b) => (a === b ? 0 : a === 'false' ? 1 : -1))];
    const id = { item: spoken.item, attribute: spoken.attribute };
    const wanted = outcomeWords(oracle, id, { ways, options: [] });
    const isNormal = oracle.isNormal(given);
    for (const row of read) {
      if (row.of === 'rules' || (row.of === 'normal' && !isNormal)) continue;
      const falls = row.readings.some((readings) => lies(given, readings as readonly (readonly [string, Reading])[]));
      const should = row.state === wanted;
      if (falls === should || (should && row.more && row.of === 'all')) continue;
      faults.push(`says ${falls ? '' : 'not '}${row.state} instead of ${wanted} for ${JSON.stringify(given)}`);
    }
    if (!['not shown', 'false'].includes(wanted) && !rows.some(({ state }) => state === wanted))
      faults.push(`never says ${wanted}`);
  }
  return faults.slice(0, 3);
}

/** Each case as readers see it, and what it may be by the answers of its detectors. */
function seenOutcomes(
  oracle: Oracle,
  fit: Fit,
  { variables, outcome }: Spoken,
): { given: Case; outcomes: Set<Outcome | 'not-fitted'> }[] {
  const { detectors } = oracle.content;
  const numbers = variables.flatMap((name) => detectors.get(name)?.number ?? []);
  const names = [...new Set([...variables, ...numbers])];
  const found = new Map<string, { given: Case; outcomes: Set<Outcome | 'not-fitted'> }>();
  for (const extended of oracle.cases(fit, names)) {
    const given: Record<string, string> = {};
    for (const name of names) {
      if (detectors.has(name)) continue;
      const value = extended[name];
      const shared = sharedName(oracle, name);
      given[shared] = value === undefined ? (given[shared] ?? ABSENT) : sharedValue(oracle, name, value);
    }
    const key = JSON.stringify(given);
    const known = found.get(key) ?? { given, outcomes: new Set() };
    known.outcomes.add(outcome(fit, extended));
    found.set(key, known);
  }
  return [...found.values()];
}
