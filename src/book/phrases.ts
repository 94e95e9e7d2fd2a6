/** What holds of single variables, as sentences say it, and how several of them are strung together. */
import { absentValue, type Compiled, controlsOn, type Meaning, type On, valuesTitle } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Cube } from '../logic/index.ts';
import { withSmallInitial } from '../model/index.ts';
import type { Inline } from './book.ts';
import { cellText, plain, text } from './cells.ts';
import { meaningAt } from './tables.ts';

const WITH = 'with ';

/**
 * "on the ground at night with the slats in and the taxi switch at ON": what needs no "with" comes first, and "with" is said
 * once. Phrases that are lists themselves come last and keep theirs, so that nothing could be taken for a part of them.
 */
export function cubeWords(compiled: Compiled, columns: readonly number[], cube: Cube, on: On): Inline[] {
  const phrases = cube.flatMap((values, column) =>
    values === undefined ? [] : [phrase(meaningAt(compiled, columns[column] as number), values, on)],
  );
  if (phrases.length === 0) return [text('in every case')];
  const accompany = ({ words }: Phrase): boolean => /^with(?:out)? /.test(plain(words));
  const [short, lists] = [false, true].map((isList) => phrases.filter((each) => each.isList === isList)) as [
    Phrase[],
    Phrase[],
  ];
  return spaced([
    sideBySide(short.filter((each) => !accompany(each)).map(({ words }) => words)),
    inSeries([
      ...short.filter(accompany).map(({ words }, at) => (at === 0 ? words : withoutWith(words))),
      ...lists.filter(accompany).map(({ words }) => words),
    ]),
    inSeries(lists.filter((each) => !accompany(each)).map(({ words }) => words)),
  ]);
}

/** "in the air at night", "on the ground, at night and in icing", "before the flight and before noon". */
function sideBySide(phrases: readonly Inline[][]): Inline[] {
  const starts = phrases.map((words) => plain(words).split(' ')[0]);
  return phrases.length === 2 && starts[0] !== starts[1] ? spaced(phrases) : inSeries(phrases);
}

function inSeries(phrases: readonly Inline[][]): Inline[] {
  return phrases.flatMap((words, at) => {
    if (at === 0) return words;
    return [text(at === phrases.length - 1 ? ' and ' : ', '), ...words];
  });
}

function spaced(parts: readonly Inline[][]): Inline[] {
  return parts.filter(({ length }) => length > 0).flatMap((words, at) => (at === 0 ? words : [text(' '), ...words]));
}

function withoutWith([first, ...rest]: readonly Inline[]): Inline[] {
  if (!first?.text.startsWith(WITH)) return first ? [first, ...rest] : [];
  return [{ ...first, text: first.text.slice(WITH.length) }, ...rest];
}

/** The words of a cell without commas, which would set phrases apart: "above 200 kt but not above 240 kt", "at 60 kt". */
function intervalSaid(words: string): string {
  return words
    .replace(/^(?=[-\d])/, 'at ')
    .replace(/^(from .*), up to /, '$1 to ')
    .replace(/^(above .*), up to /, '$1 but not above ')
    .replace(/, below /, ' but below ');
}

interface Phrase {
  readonly words: Inline[];
  /** It has commas, or alternatives of several words each, so that what follows could be taken for a part of it. */
  readonly isList: boolean;
}

/** One variable with some of its values, as a sentence says it. */
function phrase(meaning: Meaning, values: readonly number[], on: On): Phrase {
  const says =
    meaning.kind === 'condition'
      ? values.map((value) => meaning.condition.values?.[value]?.says ?? '')
      : meaning.kind === 'sequence'
        ? values.map((value) => meaning.sequence.modes[value]?.says ?? '')
        : [];
  const words = phraseWords(meaning, values, on);
  const alternatives = values.length > 1 ? sharedStart(says).rest : [];
  return { words, isList: plain(words).includes(', ') || alternatives.some((each) => each.includes(' ')) };
}

function phraseWords(meaning: Meaning, values: readonly number[], on: On): Inline[] {
  switch (meaning.kind) {
    case 'condition': {
      const says = values.map((value) => meaning.condition.values?.[value]?.says ?? '');
      return [text(sharingStart(says))];
    }
    case 'number': {
      const noun = meaning.condition.noun ?? withSmallInitial(meaning.condition.title);
      return [text(`with ${noun} ${intervalSaid(valuesTitle(meaning, values))}`)];
    }
    case 'control': {
      const titles = controlsOn(meaning, on).map(({ title }) => withSmallInitial(title));
      if (values.length === 1 && values[0] === absentValue(meaning)) return [text(`without the ${titles.join(' / ')}`)];
      return [text(`with the ${titles.join(' / ')} at `), ...cellText(meaning, values, on)];
    }
    case 'lamp': {
      const lamp = `${withSmallInitial(meaning.item.title)} ${withSmallInitial(meaning.lamp.title)}`;
      return [text(`with the ${lamp} ${valuesTitle(meaning, values)}`)];
    }
    case 'sequence': {
      if (values.length === 1 && values[0] === absentValue(meaning)) return [text(`without ${meaning.sequence.noun}`)];
      return [text(sharingStart(values.map((value) => meaning.sequence.modes[value]?.says ?? '')))];
    }
    case 'option':
      return [text(`with ${withSmallInitial(meaning.option.title)} ${valuesTitle(meaning, values)}`)];
    default:
      throw new Error('a hidden variable has no words in sentences');
  }
}

/** "with the gear travelling", "with the gear up" become "with the gear travelling or up": the words in common once. */
function sharingStart(phrases: readonly string[]): string {
  const { start, rest } = sharedStart(phrases);
  return [...start, list(rest)].join(' ');
}

/** The words that phrases begin with in common, and what is left of each. */
function sharedStart(phrases: readonly string[]): {
  readonly start: readonly string[];
  readonly rest: readonly string[];
} {
  const split = phrases.map((phrase) => phrase.split(' '));
  const [first = []] = split;
  const same = first.findIndex((word, at) => split.some((words) => words[at] !== word || at === words.length - 1));
  const shared = same === -1 ? 0 : same;
  return { start: first.slice(0, shared), rest: split.map((words) => words.slice(shared).join(' ')) };
}
