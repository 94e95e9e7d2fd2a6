/** What holds of single variables, as sentences say it. */
import { absentValue, type Compiled, controlsOn, type Meaning, type On, valuesTitle } from '../compile/index.ts';
import type { Cube } from '../logic/index.ts';
import { withSmallInitial } from '../model/index.ts';
import type { Inline } from './book.ts';
import { cellText, text } from './cells.ts';
import { type Phrase, phraseOf, sharingStart, strung } from './strung.ts';
import { meaningAt } from './tables.ts';

/** "on the ground at night with the slats in and the taxi switch at ON". */
export function cubeWords(compiled: Compiled, columns: readonly number[], cube: Cube, on: On): Inline[] {
  const phrases = cube.flatMap((values, column) =>
    values === undefined ? [] : [phrase(meaningAt(compiled, columns[column] as number), values, on)],
  );
  return phrases.length === 0 ? [text('in every case')] : strung(phrases);
}

/** The words of a cell without commas, which would set phrases apart: "above 200 kt but not above 240 kt", "at 60 kt". */
function intervalSaid(words: string): string {
  return words
    .replace(/^(?=[-\d])/, 'at ')
    .replace(/^(from .*), up to /, '$1 to ')
    .replace(/^(above .*), up to /, '$1 but not above ')
    .replace(/, below /, ' but below ');
}

/** One variable with some of its values, as a sentence says it. */
function phrase(meaning: Meaning, values: readonly number[], on: On): Phrase {
  const says =
    meaning.kind === 'condition'
      ? values.map((value) => meaning.condition.values?.[value]?.says ?? '')
      : meaning.kind === 'sequence'
        ? values.map((value) => meaning.sequence.modes[value]?.says ?? '')
        : [];
  return phraseOf(says, phraseWords(meaning, values, on));
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
