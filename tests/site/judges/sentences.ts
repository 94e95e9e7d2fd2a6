/**
 * Holds every sentence of the controls' pages to the rules: read back clause by clause, each case that can happen in the
 * position, in normal cases, must be given the state that the rules give it.
 */
import { byClass, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { lies, type Reading, readInterval } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { type AttributeId, holdsFor, isNormalFor, stateTitle } from './groups.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

export function judgeSentences(pages: Pages, oracle: Oracle): string[] {
  return [...oracle.content.controls.keys()].flatMap((control) => {
    const address = `controls/${control}.html`;
    return attempt(address, () => judgeControl(pages.page(address), oracle, control));
  });
}

function judgeControl(page: Element, oracle: Oracle, control: string): string[] {
  const blocks = byClass(page, 'cue');
  return oracle.aircraft.flatMap(({ registration, fit }) => {
    const positions = oracle.valuesOn(fit, control);
    const lists = blocks.flatMap((block) => listsFor(oracle, block, registration));
    if (positions.length === 0) return lists.length === 0 ? [] : [`sentences for ${registration}, which lacks it`];
    const [list] = lists;
    if (lists.length !== 1 || !list) return [`${lists.length} lists of positions for ${registration}`];
    // Aircraft of one fit have the same cases, so that one of them is enough to judge what the list says.
    return registration === fit.registrations[0] ? judgeList(list, oracle, control, fit) : [];
  });
}

/** The lists of positions that hold for an aircraft: the nearest effectivity line above a list is the one that counts. */
function listsFor(oracle: Oracle, block: Element, registration: string): Element[] {
  let holds: string[] = [];
  const found: Element[] = [];
  for (const child of block.childNodes) {
    if (!('tagName' in child)) continue;
    const classes = child.attrs.find(({ name }) => name === 'class')?.value.split(' ') ?? [];
    if (classes.includes('holds')) holds = holdsFor(oracle, { ...block, childNodes: [child] });
    if (classes.includes('positions') && holds.includes(registration)) found.push(child);
  }
  return found;
}

function judgeList(list: Element, oracle: Oracle, control: string, fit: Fit): string[] {
  const positions = oracle.content.controls.get(control)?.positions;
  const legends = byTag(list, 'dt').map(textOf);
  const sentences = byTag(list, 'dd').map(textOf);
  const wanted = oracle.valuesOn(fit, control);
  const wantedLegends = wanted.map((position) => positions?.get(position)?.legend);
  if (legends.join(' ') !== wantedLegends.join(' '))
    return [`positions ${legends.join(' ')} instead of ${wantedLegends.join(' ')}`];
  const items = [...oracle.content.items.values()].filter(
    (item) => item.kind !== 'message' && oracle.isFitted(fit, item.id),
  );
  const ids = items.flatMap((item) =>
    [...item.attributes.values()]
      .filter((attribute) => attribute.control === control)
      .map((attribute) => ({ item: item.id, attribute: attribute.id })),
  );
  return wanted.flatMap((position, at) => {
    const spoken = (sentences[at] ?? '').split(/(?<=\.) /).filter((words) => words !== '');
    const possible = ids.filter((id) => casesIn(oracle, id, fit, control, position).length > 0);
    if (possible.length === 0)
      return spoken.join(' ') === 'Drives nothing that this book shows.' ? [] : [`says "${spoken.join(' ')}"`];
    if (spoken.length !== possible.length)
      return [`${spoken.length} sentences for ${position} instead of ${possible.length}`];
    return possible.flatMap((id, index) =>
      judgeSentence(spoken[index] ?? '', oracle, id, fit, casesIn(oracle, id, fit, control, position)),
    );
  });
}

/** The normal cases of an attribute with its control in one position. */
function casesIn(oracle: Oracle, id: AttributeId, fit: Fit, control: string, position: string): Case[] {
  const isNormal = isNormalFor(oracle, id, fit);
  const variables = oracle.variables(id.item, id.attribute);
  const cases = [...oracle.cases(fit, variables)].filter(isNormal);
  return variables.includes(control) ? cases.filter((given) => given[control] === position) : cases;
}

function judgeSentence(sentence: string, oracle: Oracle, id: AttributeId, fit: Fit, cases: readonly Case[]): string[] {
  const item = oracle.content.items.get(id.item);
  const attribute = item?.attributes.get(id.attribute);
  if (!item || !attribute) throw new Error(`no item ${id.item}`);
  const verb = item.plural ? 'are' : 'is';
  const subject = `${item.noun.charAt(0).toUpperCase()}${item.noun.slice(1)} ${verb} `;
  if (!sentence.startsWith(subject)) return [`"${sentence}" is not about ${item.noun}`];
  const clauses = sentence
    .slice(subject.length)
    .replace(/\.$/, '')
    .split(new RegExp(`; (?:otherwise )?(?:it|they) ${verb} `));
  const titles = [...attribute.states.values()].map(({ title }) => title).sort((a, b) => b.length - a.length);
  const read = clauses.map((clause, at) => {
    const state = titles.find((title) => clause === title || clause.startsWith(`${title} `));
    if (state === undefined) throw new Error(`"${clause}" names no state`);
    const rest = clause.slice(state.length).trim();
    const last = at === clauses.length - 1;
    if ((rest === '') !== last) throw new Error(`"${sentence}" cannot be read`);
    return { state, alternatives: last ? undefined : rest.split(', or ').map((words) => readPhrases(oracle, words)) };
  });
  return cases.flatMap((given) => {
    const wanted = stateTitle(oracle, id, fit, given);
    const found = read.filter(({ alternatives }) => alternatives?.some((readings) => lies(given, readings)));
    const says = found.length > 1 ? undefined : (found[0] ?? read.at(-1))?.state;
    return says === wanted ? [] : [`"${sentence}" says ${says} instead of ${wanted} for ${JSON.stringify(given)}`];
  });
}

/** "on the ground, with the slats in and with the taxi switch at ON": each phrase is one variable with some values. */
function readPhrases(oracle: Oracle, words: string): (readonly [string, Reading])[] {
  const phrases = phraseForms(oracle);
  const readings: (readonly [string, Reading])[] = [];
  let rest = words;
  while (rest !== '') {
    const match = phrases.map((form) => form(rest)).find((each) => each !== undefined);
    if (!match) throw new Error(`"${rest}" is no phrase of the content`);
    readings.push([match.variable, match.reading]);
    rest = rest.slice(match.length).replace(/^(?:, | and | )/, '');
  }
  return readings;
}

type Form = (words: string) => { variable: string; reading: Reading; length: number } | undefined;

function phraseForms({ content }: Oracle): Form[] {
  const conditions = [...content.conditions.values()].map((condition): Form => {
    if (condition.number) {
      const lead = `with ${condition.noun} `;
      const { unit } = condition.number;
      return (words) => {
        if (!words.startsWith(lead)) return undefined;
        const interval =
          /^.*?\d \S+?(?: or (?:above|below))?(?:, (?:up to|below) [\d.,]+ \S+?)?(?=$|, (?!up to|below)| (?!or above|or below))/.exec(
            words.slice(lead.length),
          );
        if (!interval) return undefined;
        return {
          variable: condition.id,
          reading: readInterval(interval[0], unit),
          length: lead.length + interval[0].length,
        };
      };
    }
    const spoken = someOf([...condition.values].map(([id, { says }]) => ({ id, says })))
      .map((some) => ({ ids: some.map(({ id }) => id), phrase: inCommonOnce(some.map(({ says }) => says)) }))
      .sort((a, b) => b.phrase.length - a.phrase.length);
    return (words) => {
      const found = spoken.find(
        ({ phrase }) => words.startsWith(phrase) && /^(?:$|, | )/.test(words.slice(phrase.length)),
      );
      return (
        found && { variable: condition.id, reading: (value) => found.ids.includes(value), length: found.phrase.length }
      );
    };
  });
  const controls = [...content.controls.values()].map((control): Form => {
    const lead = `with the ${lowerFirst(control.title)} at `;
    const spoken = someOf([...control.positions].map(([id, { legend }]) => ({ id, legend })))
      .map((some) => ({ ids: some.map(({ id }) => id), phrase: lead + listed(some.map(({ legend }) => legend)) }))
      .sort((a, b) => b.phrase.length - a.phrase.length);
    return (words) => {
      const found = spoken.find(
        ({ phrase }) => words.startsWith(phrase) && /^(?:$|, | )/.test(words.slice(phrase.length)),
      );
      return (
        found && { variable: control.id, reading: (value) => found.ids.includes(value), length: found.phrase.length }
      );
    };
  });
  return [...conditions, ...controls];
}

/** Every choice of one or more, in order. */
function someOf<T>(list: readonly T[]): T[][] {
  return list.reduce<T[][]>((all, each) => [...all, ...all.map((some) => [...some, each]), [each]], []);
}

function listed(words: readonly string[]): string {
  return words.join(', ').replace(/, (?=[^,]*$)/, ' or ');
}

/** The words that phrases begin with in common are said once: "with the gear travelling or up". */
function inCommonOnce(phrases: readonly string[]): string {
  let shared = '';
  const words = (phrases[0] ?? '').split(' ');
  for (let count = words.length - 1; count > 0 && shared === ''; count -= 1) {
    const start = `${words.slice(0, count).join(' ')} `;
    if (phrases.every((phrase) => phrase.startsWith(start) && phrase.length > start.length)) shared = start;
  }
  const rests = phrases.map((phrase) => phrase.slice(shared.length));
  return shared + listed(rests);
}

function lowerFirst(words: string): string {
  return /^\p{Lu}(?!\p{Lu})/u.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
}
