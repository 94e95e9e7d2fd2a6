/** What holds of single variables, as sentences say it. */
import { absentValue, controlsOn, type Meaning, type On, valuesTitle, type Worded } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Cube } from '../logic/index.ts';
import { type Attribute, type Item, withSmallInitial } from '../model/index.ts';
import type { Inline } from './book.ts';
import { cellText, text } from './cells.ts';
import { type Phrase, phraseOf, sharingWords, strung } from './strung.ts';
import { meaningAt } from './tables.ts';

/** "on the ground at night with the slats in and the taxi switch at ON". */
export function cubeWords(compiled: Worded, columns: readonly number[], cube: Cube, on: On): Inline[] {
  const said = cube.flatMap((values, column) => {
    const meaning = meaningAt(compiled, columns[column] as number);
    return values === undefined ? [] : [{ meaning, values }];
  });
  const alike = Map.groupBy(said, ({ meaning, values }) =>
    meaning.kind === 'lamp' ? `${meaning.item.id} ${values.join()}` : meaning,
  );
  const phrases = [...alike.values()].map((some) => {
    const [{ meaning, values }] = some as [(typeof said)[number]];
    if (meaning.kind !== 'lamp') return phrase(meaning, values, on);
    const lamps = some.flatMap((each) => (each.meaning.kind === 'lamp' ? [each.meaning.lamp] : []));
    return phraseOf([], [text(`with ${lampsSaid(meaning.item, lamps)} ${valuesTitle(meaning, values)}`)]);
  });
  return phrases.length === 0 ? [text('in every case')] : strung(phrases);
}

/** "the left lamp and the right lamp of the position lights", "both lamps of ...", "all lamps of ...". */
function lampsSaid(item: Item, lamps: readonly Attribute[]): string {
  const all = item.attributes.filter(({ lamp }) => lamp);
  const every = lamps.length > 1 && lamps.length === all.length;
  const titles = list(
    lamps.map(({ title }) => `the ${withSmallInitial(title)}`),
    'and',
  );
  const said = every ? `${all.length === 2 ? 'both' : 'all'} lamps` : titles;
  return `${said} of the ${withSmallInitial(item.title)}`;
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
      return [text(sharingWords(says))];
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
    case 'sequence': {
      if (values.length === 1 && values[0] === absentValue(meaning)) return [text(`without ${meaning.sequence.noun}`)];
      return [text(sharingWords(values.map((value) => meaning.sequence.modes[value]?.says ?? '')))];
    }
    case 'option':
      return [text(`with ${withSmallInitial(meaning.option.title)} ${valuesTitle(meaning, values)}`)];
    default:
      throw new Error(`a ${meaning.kind} variable has no words of its own in sentences`);
  }
}
