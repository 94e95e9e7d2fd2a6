/**
 * Holds every sentence of the controls' pages to the rules: read back clause by clause, each case that can happen in the
 * position, in normal cases, must be given the state that the rules give it.
 */
import { byClass, byTag, children, type Element, textOf } from '../../helpers/dom.ts';
import { covers, type Holding, holdingsOf, holdingsText } from '../../helpers/effectivity-words.ts';
import { ABSENT, candidatesOf, sharedName, sharedValue } from '../../helpers/seen-cases.ts';
import { lies, type Reading, readInterval, sharedTitle, titledValues } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { type AttributeId, casesOf, drivenBy, holdsFor, isNormalFor, stateTitle } from './groups.ts';
import { listed, outcomeOf, outcomeWords, predicateWords } from './outcomes.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

export function judgeSentences(pages: Pages, oracle: Oracle): string[] {
  return [...oracle.content.controls.keys()].flatMap((control) => {
    const address = `controls/${control}.html`;
    return attempt(address, () => judgeControl(pages.page(address), oracle, control));
  });
}

/** A control's sentences in a part of a page, on some fits. */
export function judgeControl(
  part: Element,
  oracle: Oracle,
  control: string,
  fits: readonly Fit[] = oracle.fits,
): string[] {
  const blocks = [...byClass(part, 'cue'), ...byClass(part, 'else')];
  const driven = drivenBy(oracle, control);
  return fits.flatMap((fit) => {
    const positions = oracle.valuesOn(fit, control);
    const times = holdingsOf(oracle, [fit]);
    const lists = times.map((time) => ({ time, found: blocks.flatMap((block) => listsFor(oracle, block, time)) }));
    const wrong = lists.filter(({ found }) => found.length !== (positions.length === 0 ? 0 : 1));
    if (wrong.length > 0)
      return wrong.map(({ time, found }) => `${found.length} lists of positions for ${holdingsText([time])}`);
    // Aircraft of one fit have the same cases, so that a list is judged once for each fit.
    const all = new Set(lists.flatMap(({ found }) => found));
    return [...all].flatMap((list) => judgeList(list, oracle, control, fit, driven));
  });
}

function hasClass(element: Element, name: string): boolean {
  return element.attrs.some((each) => each.name === 'class' && each.value.split(' ').includes(name));
}

/** The lists of positions that hold for an aircraft: the nearest effectivity line above a list is the one that counts. */
function listsFor(oracle: Oracle, block: Element, time: Holding): Element[] {
  let holds: Holding[] = [];
  const found: Element[] = [];
  for (const child of children(block).flatMap((each) => (hasClass(each, 'told') ? children(each) : [each]))) {
    const classes = child.attrs.find(({ name }) => name === 'class')?.value.split(' ') ?? [];
    if (classes.includes('holds')) holds = holdsFor(oracle, { ...block, childNodes: [child] });
    if (classes.includes('positions') && covers(holds, time)) found.push(child);
  }
  return found;
}

function judgeList(list: Element, oracle: Oracle, control: string, fit: Fit, driven: readonly AttributeId[]): string[] {
  const legends = byTag(list, 'dt').map(textOf);
  const sentences = byTag(list, 'dd').map(textOf);
  const wanted = oracle.valuesOn(fit, control);
  const wantedLegends = wanted.map((position) => oracle.legendsOn(fit, control, position).join(' / '));
  if (legends.join(' ') !== wantedLegends.join(' '))
    return [`positions ${legends.join(' ')} instead of ${wantedLegends.join(' ')}`];
  const ids = driven.filter(({ item }) => oracle.isFitted(fit, item));
  return wanted.flatMap((position, at) => {
    const spoken = (sentences[at] ?? '').split(/(?<=\.) /).filter((words) => words !== '');
    const possible = ids.filter((id) =>
      casesIn(oracle, id, fit, control, position).some(isNormalFor(oracle, id, fit, control)),
    );
    if (possible.length === 0) {
      const says = spoken.join(' ');
      return says === nothingDriven(oracle, control) ? [] : [`says "${says}"`];
    }
    return judgeSpoken(spoken, oracle, possible, fit, { control, position });
  });
}

/** A control in one of its positions. */
interface Setting {
  readonly control: string;
  readonly position: string;
}

/** When each thing that can be seen of an item is what, in a part of a page. */
export function judgeItem(part: Element, oracle: Oracle, item: string, fit: Fit): string[] {
  const whole = [...(oracle.content.items.get(item)?.attributes.values() ?? [])].filter(({ lamp }) => !lamp);
  const ids = whole.map(({ id }) => ({ item, attribute: id }));
  return judgeSpoken(byTag(part, 'li').map(textOf), oracle, ids, fit, undefined);
}

/** Sentences each about one thing or several, in order, all things once. */
function judgeSpoken(
  spoken: readonly string[],
  oracle: Oracle,
  ids: readonly AttributeId[],
  fit: Fit,
  at: Setting | undefined,
): string[] {
  const left = new Set(ids);
  const faults = spoken.flatMap((words) => {
    const sentence = words.startsWith(NOTHING) ? words.slice(NOTHING.length) : words;
    const about: AttributeId[] = [];
    let rest = sentence.charAt(0).toLowerCase() + sentence.slice(1);
    for (const id of [...left]) {
      const full = nounOf(oracle, id).replace(/^The/, 'the');
      const noun = [full, ...lampOfLast(oracle, id, about)].find((each) => rest.startsWith(each)) ?? full;
      // Of two nouns that begin alike the longer is meant: "the lights of the cabin" before "the lights".
      const longer = [...left].some((other) => {
        const name = nounOf(oracle, other);
        return name.length > noun.length && name.startsWith(noun) && rest.startsWith(name);
      });
      if (longer || !rest.startsWith(noun) || about.some((other) => nounOf(oracle, other) === noun)) continue;
      about.push(id);
      rest = rest.slice(noun.length).replace(/^(?:, | and )(?=(?:the|its|their) )/, '');
    }
    if (about.length === 0) return [`"${words}" is about nothing that is left to tell`];
    for (const id of about) left.delete(id);
    const several = about.length > 1;
    return about.flatMap((id) => judgeSentence(words.startsWith(NOTHING), rest, several, oracle, id, fit, at));
  });
  return [...faults, ...[...left].map(({ item, attribute }) => `nothing is said of ${item}.${attribute}`)];
}

/** "their left lamp" is one of the light that was named last as a whole. */
function lampOfLast(oracle: Oracle, { item: id, attribute }: AttributeId, about: readonly AttributeId[]): string[] {
  const item = oracle.content.items.get(id);
  const lamp = item?.attributes.get(attribute);
  const last = about.findLast((each) => !oracle.content.items.get(each.item)?.attributes.get(each.attribute)?.lamp);
  if (!item || !lamp?.lamp || last?.item !== id) return [];
  return [`${item.plural ? 'their' : 'its'} ${lowerFirst(lamp.title)}`];
}

function nounOf(oracle: Oracle, id: AttributeId): string {
  const item = oracle.content.items.get(id.item);
  const attribute = item?.attributes.get(id.attribute);
  if (!item || !attribute) throw new Error(`no item ${id.item}`);
  return attribute.lamp ? `the ${lowerFirst(attribute.title)} of ${item.noun}` : item.noun;
}

/** What a position says where it drives nothing; a control may decide over overrides, directly or through signals. */
function nothingDriven(oracle: Oracle, control: string): string {
  const deciding = oracle.content.overrides.filter(({ when }) => oracle.variablesOf(when).includes(control));
  if (deciding.length === 0) return 'Drives nothing that this book shows.';
  const titles = deciding.map(({ title }) => title);
  return `Drives nothing of its own; it decides over ${listed(titles, 'and')}.`;
}

/** The cases of an attribute with its control in one position. */
function casesIn(oracle: Oracle, id: AttributeId, fit: Fit, control: string, position: string): Case[] {
  const name = sharedName(oracle, control);
  const value = sharedValue(oracle, control, position);
  return casesOf(oracle, id, fit).filter((given) => given[name] === undefined || given[name] === value);
}

const NOTHING = 'Asks for nothing: ';

/** `words` is what follows the subject, in the plural where it is said of several. */
function judgeSentence(
  asksForNothing: boolean,
  words: string,
  several: boolean,
  oracle: Oracle,
  id: AttributeId,
  fit: Fit,
  at: Setting | undefined,
): string[] {
  const item = oracle.content.items.get(id.item);
  const attribute = item?.attributes.get(id.attribute);
  const sentence = words.trim();
  if (at && asksForNothing !== addsNothing(oracle, id, fit, at.control, at.position))
    return [`"${sentence}" ${asksForNothing ? 'says' : 'does not say'} that ${at.position} asks for nothing`];
  const verb = several || (item?.plural && !attribute?.lamp) ? 'are' : 'is';
  const all = at ? casesIn(oracle, id, fit, at.control, at.position) : [...casesOf(oracle, id, fit)];
  const cases = all.filter(isNormalFor(oracle, id, fit, at?.control));
  return readClauses(sentence, verb, oracle, id, fit, cases);
}

/** Faults of what follows a subject, in clauses, against all the cases that it is about. */
export function readClauses(
  sentence: string,
  verb: string,
  oracle: Oracle,
  id: AttributeId,
  fit: Fit,
  cases: readonly Case[],
): string[] {
  const predicates = new Map(
    cases
      .map((given) => outcomeOf(oracle, id, fit, given))
      .map((seen) => [predicateWords(oracle, id, seen, verb), outcomeWords(oracle, id, seen)] as const),
  );
  const longestFirst = [...predicates.keys()].sort((a, b) => b.length - a.length);
  const clauses = sentence.replace(/\.$/, '').split(/; (?:otherwise )?(?:it|they) /);
  const read = clauses.map((clause, at) => {
    const predicate = longestFirst.find(
      (words) => clause === words || (/^,? /.test(clause.slice(words.length)) && clause.startsWith(words)),
    );
    if (predicate === undefined) throw new Error(`"${clause}" names nothing that it can be`);
    const rest = clause.slice(predicate.length).replace(/^,? /, '');
    const last = at === clauses.length - 1;
    if ((rest === '') !== last) throw new Error(`"${sentence}" cannot be read`);
    return {
      state: predicates.get(predicate),
      alternatives: last ? undefined : rest.split(', or ').map((words) => readPhrases(oracle, words, [fit])),
    };
  });
  return cases.flatMap((given) => {
    const wanted = stateTitle(oracle, id, fit, given);
    const found = read.filter(({ alternatives }) => alternatives?.some((readings) => lies(given, readings)));
    const says = found.length > 1 ? undefined : (found[0] ?? read.at(-1))?.state;
    return says === wanted ? [] : [`"${sentence}" says ${says} instead of ${wanted} for ${JSON.stringify(given)}`];
  });
}

/**
 * Whether a station's position adds nothing: the item is active in some case with it, and then is so, or the case can't
 * happen, with each other position too.
 */
function addsNothing(oracle: Oracle, id: AttributeId, fit: Fit, control: string, position: string): boolean {
  const item = oracle.content.items.get(id.item);
  const attribute = item?.attributes.get(id.attribute);
  if (!item || !attribute || attribute.lamp || !item.stations.includes(control)) return false;
  const rest = attribute.states.get('dark') ?? [...attribute.states.values()][0];
  const name = sharedName(oracle, control);
  const isActive = (given: Case): boolean => stateTitle(oracle, id, fit, given) !== rest?.title;
  const active = casesIn(oracle, id, fit, control, position).filter(isActive);
  const others = oracle.valuesOn(fit, control).map((other) => sharedValue(oracle, control, other));
  return (
    active.length > 0 &&
    active.every((given) => given[name] === undefined || others.every((other) => isActive({ ...given, [name]: other })))
  );
}

/** "on the ground with the slats in and the taxi switch at ON": each phrase is one variable with some values. */
export function readPhrases(oracle: Oracle, words: string, fits: readonly Fit[]): (readonly [string, Reading])[] {
  if (words === 'in every case') return [];
  const phrases = phraseForms(oracle, fits);
  const readings: (readonly [string, Reading])[] = [];
  let rest = words;
  while (rest !== '') {
    // "with" is said once for several phrases in a row.
    const said = readings.length > 0 && !rest.startsWith('with ') ? [rest, `with ${rest}`] : [rest];
    const found = said.flatMap((each) => phrases.map((form) => ({ each, match: form(each) })));
    const { each = rest, match } = found.find((one) => one.match !== undefined) ?? {};
    if (!match) throw new Error(`"${rest}" is no phrase of the content`);
    for (const variable of match.variables) readings.push([variable, match.reading]);
    rest = each.slice(match.length).replace(/^(?:, | and | )/, '');
  }
  return readings;
}

/** "at 200 kt or above", "above 200 kt but not above 240 kt", "from 200 kt to 240 kt", "from 200 kt but below 240 kt". */
const INTERVAL = /^.*?\d \S+?(?: or above| or below| (?:but not above|but below|to) [\d.,]+ \S+?)?(?=$|,? )/;

/** The same in the words of tables. */
function asInCell(words: string): string {
  return words
    .replace(' but not above ', ', up to ')
    .replace(' but below ', ', below ')
    .replace(/ to (?=\S+ \S+$)/, (found, at: number) => (words.startsWith('from ') && at > 0 ? ', up to ' : found));
}

type Form = (words: string) => { variables: readonly string[]; reading: Reading; length: number } | undefined;

function phraseForms(oracle: Oracle, fits: readonly Fit[]): Form[] {
  const { conditions, controls, items, sequences } = oracle.content;
  const ofConditions = [...conditions.values()].map((condition): Form => {
    if (!condition.number) return formOf(condition.id, saidInCommon(condition.values));
    const lead = `with ${condition.noun} `;
    const { unit } = condition.number;
    return (words) => {
      if (!words.startsWith(lead)) return undefined;
      const interval = INTERVAL.exec(words.slice(lead.length));
      if (!interval) return undefined;
      return {
        variables: [condition.id],
        reading: readInterval(asInCell(interval[0]), unit),
        length: lead.length + interval[0].length,
      };
    };
  });
  const ofControls = [...controls.keys()]
    .filter((id) => sharedName(oracle, id) === id)
    .map((id): Form => {
      const title = sharedTitle(oracle, id, candidatesOf(oracle, fits), lowerFirst);
      const spoken = someOf(titledValues(oracle, id, fits)).map((some): Spoken => {
        const ids = some.map(([value]) => value);
        if (ids.join() === ABSENT) return { ids, phrase: `without the ${title}` };
        return {
          ids,
          phrase: `with the ${title} at ${listed(
            some.map(([, words]) => words),
            'or',
          )}`,
        };
      });
      return formOf(id, spoken);
    });
  const ofLamps = [...items.values()].map((item): Form => {
    const lamps = [...item.attributes.values()].filter(({ lamp }) => lamp);
    const said = someOf(lamps).map((some) => {
      const each = listed(
        some.map(({ title }) => `the ${lowerFirst(title)}`),
        'and',
      );
      const every = some.length === lamps.length && lamps.length > 1;
      const words = every ? `${lamps.length === 2 ? 'both' : 'all'} lamps` : each;
      return { lead: `with ${words} of the ${lowerFirst(item.title)} `, some };
    });
    return (words) => {
      const found = said.find(({ lead }) => words.startsWith(lead));
      const value = found && ['serviceable', 'failed'].find((each) => words.slice(found.lead.length).startsWith(each));
      if (!found || value === undefined) return undefined;
      const variables = found.some.map(({ id }) => `${item.id}.${id}`);
      return { variables, reading: (given) => given === value, length: found.lead.length + value.length };
    };
  });
  const ofSequences = [...sequences.values()].map(
    (sequence): Form =>
      formOf(sequence.id, [...saidInCommon(sequence.modes), { ids: [ABSENT], phrase: `without ${sequence.noun}` }]),
  );
  return [...ofConditions, ...ofControls, ...ofLamps, ...ofSequences];
}

/** Some values of one variable, and how they are said. */
interface Spoken {
  readonly ids: readonly string[];
  readonly phrase: string;
}

function formOf(variable: string, spoken: readonly Spoken[]): Form {
  const longestFirst = spoken.toSorted((a, b) => b.phrase.length - a.phrase.length);
  return (words) => {
    const found = longestFirst.find(
      ({ phrase }) => words.startsWith(phrase) && /^(?:$|, | )/.test(words.slice(phrase.length)),
    );
    return (
      found && { variables: [variable], reading: (value) => found.ids.includes(value), length: found.phrase.length }
    );
  };
}

function saidInCommon(values: ReadonlyMap<string, { readonly says: string }>): Spoken[] {
  return someOf([...values].map(([id, { says }]) => ({ id, says }))).map((some) => ({
    ids: some.map(({ id }) => id),
    phrase: inCommonOnce(some.map(({ says }) => says)),
  }));
}

/** Every choice of one or more, in order. */
function someOf<T>(list: readonly T[]): T[][] {
  return list.reduce<T[][]>((all, each) => [...all, ...all.map((some) => [...some, each]), [each]], []);
}

/** The words that phrases begin or end with in common are said once: "with the gear travelling or up", "by the left or right door". */
function inCommonOnce(phrases: readonly string[]): string {
  let shared = '';
  const words = (phrases[0] ?? '').split(' ');
  for (let count = words.length - 1; count > 0 && shared === ''; count -= 1) {
    const start = `${words.slice(0, count).join(' ')} `;
    if (phrases.every((phrase) => phrase.startsWith(start) && phrase.length > start.length)) shared = start;
  }
  const rests = phrases.map((phrase) => phrase.slice(shared.length));
  const ending = rests.length > 1 ? endInCommon(rests) : '';
  return (
    shared +
    listed(
      rests.map((rest) => rest.slice(0, rest.length - ending.length)),
      'or',
    ) +
    ending
  );
}

/** The longest " words" that all end with, before which something is left that is more than a small word. */
function endInCommon(phrases: readonly string[]): string {
  const [first = ''] = phrases;
  const starts = [...first].flatMap((letter, at) => (letter === ' ' ? [at] : []));
  const found = starts.find((at) =>
    phrases.every((phrase) => {
      const left = phrase.slice(0, phrase.length - (first.length - at));
      return phrase.endsWith(first.slice(at)) && left !== '' && !/(?:^| )(?:the|an?|at|in|on|with)$/.test(left);
    }),
  );
  return found === undefined ? '' : first.slice(found);
}

function lowerFirst(words: string): string {
  return /^\p{Lu}\p{Ll}/u.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
}
