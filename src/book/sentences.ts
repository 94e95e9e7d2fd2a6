/**
 * One sentence for what an item does with its control in one position, in normal cases:
 * "The logo lights are lit on the ground with the parking brake set, or in the air; otherwise they are dark."
 */
import {
  absentValue,
  type Behaviour,
  type Compiled,
  type Group,
  IMPOSSIBLE,
  levelOf,
  type Meaning,
  partForm,
  valuesTitle,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import { type Cube, irredundantPrimes, type Node, stateTable } from '../logic/index.ts';
import { type Item, withSmallInitial } from '../model/index.ts';
import type { Inline } from './book.ts';
import { cellText, text, upperFirst } from './cells.ts';
import { meaningAt, outcomeView } from './tables.ts';

/**
 * The sentence for `value` of the item's own control on one group of aircraft; undefined when the position does not occur
 * there or the item is not fitted.
 */
export function positionSentence(
  compiled: Compiled,
  behaviour: Behaviour,
  group: Group,
  value: number,
): Inline[] | undefined {
  const { diagrams, space } = compiled;
  const { control } = behaviour.attribute;
  if (control === undefined) return undefined;
  const normal = partForm(diagrams, space, group.form, 'normal');
  if (normal === undefined) return undefined;
  const here = diagrams.restrict(normal, levelOf(space, control), value);
  return here === diagrams.terminal(IMPOSSIBLE) ? undefined : sentence(compiled, behaviour, here);
}

/** The sentence of a form that no longer depends on the item's control; undefined when the item is not fitted. */
function sentence(compiled: Compiled, behaviour: Behaviour, form: Node): Inline[] | undefined {
  const { item, attribute } = behaviour;
  const covers = coversOf(compiled, form);
  if (covers.some(({ outcome }) => compiled.outcomes.state(outcome) === undefined)) return undefined;
  const say = (outcome: number): string => outcomeView(compiled, attribute, outcome).text;
  // What takes most words to say is what "otherwise" leaves unsaid.
  const rest = covers.reduce((longest, each) => (each.length > longest.length ? each : longest));
  const others = covers.filter((each) => each !== rest);
  if (others.length === 0) return [text(`${upperFirst(item.noun)} ${verb(item)} ${say(rest.outcome)}.`)];
  const clauses = others.flatMap(({ outcome, columns, cubes }, index) => [
    text(`${index === 0 ? '' : `; ${pronoun(item)}`} ${verb(item)} ${say(outcome)}`),
    ...cubes.flatMap((cube, at) => [text(at === 0 ? ' ' : ', or '), ...cubeWords(compiled, columns, cube)]),
  ]);
  return [
    text(upperFirst(item.noun)),
    ...clauses,
    text(`; otherwise ${pronoun(item)} ${verb(item)} ${say(rest.outcome)}.`),
  ];
}

/** The cases of one outcome as cubes that may overlap. */
interface OutcomeCover {
  readonly outcome: number;
  readonly columns: readonly number[];
  readonly cubes: readonly Cube[];
  /** How long it is to say: alternatives first, then the values in them. */
  readonly length: number;
}

function coversOf(compiled: Compiled, form: Node): OutcomeCover[] {
  const { diagrams } = compiled;
  const { columns, rows } = stateTable(diagrams, form, { impossible: IMPOSSIBLE });
  return [...new Set(rows.map(({ outcome }) => outcome))].map((outcome) => {
    const on = diagrams.map(`is ${outcome}`, form, (each) => (each === outcome ? 1 : 0));
    const off = diagrams.map(`is possible but not ${outcome}`, form, (each) =>
      each === outcome || each === IMPOSSIBLE ? 0 : 1,
    );
    const own = rows.filter((row) => row.outcome === outcome).map(({ cells }) => cells);
    const cubes = irredundantPrimes(diagrams, columns, own, on, off);
    const values = cubes.flatMap((cube) =>
      cube.map((each, column) => wordsNeeded(meaningAt(compiled, columns[column] as number), each)),
    );
    return { outcome, columns, cubes, length: 100 * cubes.length + values.reduce((sum, each) => sum + each, 0) };
  });
}

/** How many values must be named; an interval of numbers is said in one go. */
function wordsNeeded(meaning: Meaning, values: readonly number[] | undefined): number {
  if (values === undefined) return 0;
  return meaning.kind === 'number' ? 1 : values.length;
}

/** "on the ground at night", "on the ground, with the slats in and with the taxi switch at ON". */
export function cubeWords(compiled: Compiled, columns: readonly number[], cube: Cube): Inline[] {
  const phrases = cube.flatMap((values, column): Inline[][] =>
    values === undefined ? [] : [phrase(meaningAt(compiled, columns[column] as number), values)],
  );
  if (phrases.length === 0) return [text('in every case')];
  const [first, second] = phrases;
  const starts = (words: readonly Inline[] | undefined): string | undefined => words?.[0]?.text.split(' ')[0];
  const last = phrases.length === 2 && starts(first) !== starts(second) ? ' ' : ' and ';
  return phrases.flatMap((words, index) => {
    if (index === 0) return words;
    return [text(index === phrases.length - 1 ? last : ', '), ...words];
  });
}

/** One variable with some of its values, as a sentence says it. */
function phrase(meaning: Meaning, values: readonly number[]): Inline[] {
  switch (meaning.kind) {
    case 'condition': {
      const says = values.map((value) => meaning.condition.values?.[value]?.says ?? '');
      return [text(sharingStart(says))];
    }
    case 'number': {
      const interval = valuesTitle(meaning, values).replace(/^(?=[-\d])/, 'at ');
      return [text(`with ${meaning.condition.noun ?? withSmallInitial(meaning.condition.title)} ${interval}`)];
    }
    case 'control': {
      if (values.length === 1 && values[0] === absentValue(meaning)) {
        return [text(`without the ${withSmallInitial(meaning.control.title)}`)];
      }
      return [text(`with the ${withSmallInitial(meaning.control.title)} at `), ...cellText(meaning, values)];
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
  const split = phrases.map((phrase) => phrase.split(' '));
  const [first = []] = split;
  const same = first.findIndex((word, at) => split.some((words) => words[at] !== word || at === words.length - 1));
  const shared = same === -1 ? 0 : same;
  return [...first.slice(0, shared), list(split.map((words) => words.slice(shared).join(' ')))].join(' ');
}

function verb(item: Item): string {
  return item.plural ? 'are' : 'is';
}

function pronoun(item: Item): string {
  return item.plural ? 'they' : 'it';
}
