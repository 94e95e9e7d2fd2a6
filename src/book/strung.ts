/** Phrases that hold together, strung to one: "on the ground at night with the slats in and the taxi switch at ON". */
import { list } from '../diagnostics/index.ts';
import type { Inline } from './book.ts';
import { plain, text } from './cells.ts';

const WITH = 'with ';

export interface Phrase {
  readonly words: readonly Inline[];
  /** It has commas, or alternatives of several words each, so that what follows could be taken for a part of it. */
  readonly isList: boolean;
}

/**
 * What needs no "with" comes first, and "with" is said once. Phrases that are lists themselves come last and keep theirs,
 * so that nothing could be taken for a part of them. What is denied comes after all that holds.
 */
export function strung(phrases: readonly Phrase[]): Inline[] {
  const accompany = ({ words }: Phrase): boolean => /^with(?:out)? /.test(plain(words));
  const isDenied = ({ words }: Phrase): boolean => plain(words).startsWith('not with ');
  const said = phrases.filter((each) => !isDenied(each));
  const denied = phrases.filter(isDenied).map(({ words }) => words);
  const [short, lists] = [false, true].map((isList) => said.filter((each) => each.isList === isList)) as [
    Phrase[],
    Phrase[],
  ];
  const held = spaced([
    sideBySide(short.filter((each) => !accompany(each)).map(({ words }) => words)),
    inSeries([
      // "without icing and the APU stopped" would deny too much.
      ...withFirst(short.filter(accompany)).map(({ words }, at) => (at === 0 ? words : withoutWith(words))),
      ...lists.filter(accompany).map(({ words }) => words),
    ]),
    inSeries(lists.filter((each) => !accompany(each)).map(({ words }) => words)),
  ]);
  const but = held.length > 0 && denied.length > 0 ? [text(', but ')] : [];
  return [...held, ...but, ...inSeries(denied)];
}

/** What begins with "without" comes after what begins with "with". */
function withFirst(phrases: readonly Phrase[]): Phrase[] {
  const isWith = ({ words }: Phrase): boolean => plain(words).startsWith(WITH);
  return [...phrases.filter(isWith), ...phrases.filter((each) => !isWith(each))];
}

/** "in the air at night", "on the ground, at night and in icing", "before the flight and before noon". */
function sideBySide(phrases: readonly (readonly Inline[])[]): Inline[] {
  const starts = phrases.map((words) => plain(words).split(' ')[0]);
  return phrases.length === 2 && starts[0] !== starts[1] ? spaced(phrases) : inSeries(phrases);
}

function inSeries(phrases: readonly (readonly Inline[])[]): Inline[] {
  return phrases.flatMap((words, at) => {
    if (at === 0) return words;
    return [text(at === phrases.length - 1 ? ' and ' : ', '), ...words];
  });
}

function spaced(parts: readonly (readonly Inline[])[]): Inline[] {
  return parts.filter(({ length }) => length > 0).flatMap((words, at) => (at === 0 ? words : [text(' '), ...words]));
}

function withoutWith([first, ...rest]: readonly Inline[]): readonly Inline[] {
  if (!first?.text.startsWith(WITH)) return first ? [first, ...rest] : [];
  const left = { ...first, text: first.text.slice(WITH.length) };
  return left.text === '' ? rest : [left, ...rest];
}

/**
 * "with the gear travelling", "with the gear up" become "with the gear travelling or up", and "with the left engine running",
 * "with the right engine running" become "with the left or right engine running": the words in common once.
 */
export function sharingWords(phrases: readonly string[]): string {
  const { start, rest } = sharedStart(phrases);
  const { rest: middle, end } = sharedEnd(rest);
  return [...start, list(middle), ...end].join(' ');
}

/** The words that phrases end with in common, and what is left of each: never nothing, nor an article alone. */
function sharedEnd(phrases: readonly string[]): { readonly rest: readonly string[]; readonly end: readonly string[] } {
  if (phrases.length < 2) return { rest: phrases, end: [] };
  const split = phrases.map((phrase) => phrase.split(' '));
  const shortest = Math.min(...split.map(({ length }) => length));
  const isShared = (count: number): boolean => {
    const ends = split.map((words) => words.slice(words.length - count).join(' '));
    const left = split.map((words) => words.slice(0, words.length - count).at(-1) ?? 'the');
    return ends.every((end) => end === ends[0]) && left.every((word) => !/^(?:the|an?|at|in|on|with)$/.test(word));
  };
  const counts = Array.from({ length: shortest }, (_, at) => shortest - 1 - at);
  const count = counts.find(isShared) ?? 0;
  return {
    rest: split.map((words) => words.slice(0, words.length - count).join(' ')),
    end: count === 0 ? [] : (split[0] as string[]).slice(-count),
  };
}

/** The words that phrases begin with in common, and what is left of each. */
export function sharedStart(phrases: readonly string[]): {
  readonly start: readonly string[];
  readonly rest: readonly string[];
} {
  const split = phrases.map((phrase) => phrase.split(' '));
  const [first = []] = split;
  const same = first.findIndex((word, at) => split.some((words) => words[at] !== word || at === words.length - 1));
  const shared = same === -1 ? 0 : same;
  return { start: first.slice(0, shared), rest: split.map((words) => words.slice(shared).join(' ')) };
}

/** Alternatives of one fact, of which one may be longer than a word. */
export function phraseOf(says: readonly string[], words: readonly Inline[]): Phrase {
  const alternatives = says.length > 1 ? sharedEnd(sharedStart(says).rest).rest : [];
  return { words, isList: plain(words).includes(', ') || alternatives.some((each) => each.includes(' ')) };
}
