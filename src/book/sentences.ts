/**
 * One sentence for what an item does with its control in one position, in normal cases:
 * "The logo lights are lit on the ground with the parking brake set, or in the air; otherwise they are dark."
 */
import { absentValue, type Behaviour, type Compiled, type Group, IMPOSSIBLE, levelOf, type Meaning, partForm, valuesTitle } from '../compile/index.ts';
import { type Node, stateTable, type TableRow } from '../logic/index.ts';
import type { Item } from '../model/index.ts';
import type { Inline } from './book.ts';
import { cellText, lowerFirst, text, upperFirst } from './cells.ts';
import { meaningAt, outcomeView } from './tables.ts';

/**
 * The sentence for `value` of the item's own control on one group of aircraft; undefined when the position does not occur
 * there or the item is not fitted.
 */
export function positionSentence(compiled: Compiled, behaviour: Behaviour, group: Group, value: number): Inline[] | undefined {
  const { diagrams, space } = compiled;
  const { item } = behaviour;
  if (item.control === undefined) return undefined;
  const normal = partForm(diagrams, space, group.form, 'normal');
  if (normal === undefined) return undefined;
  const here = diagrams.restrict(normal, levelOf(space, item.control), value);
  return here === diagrams.terminal(IMPOSSIBLE) ? undefined : sentence(compiled, behaviour, here);
}

/** The sentence of a form that no longer depends on the item's control; undefined when the item is not fitted. */
function sentence(compiled: Compiled, behaviour: Behaviour, form: Node): Inline[] | undefined {
  const { diagrams, outcomes } = compiled;
  const { item, attribute } = behaviour;
  const table = stateTable(diagrams, form, { impossible: IMPOSSIBLE });
  if (table.rows.some(({ outcome }) => outcomes.state(outcome) === undefined)) return undefined;
  const say = (outcome: number): string => outcomeView(compiled, attribute, outcome).text;
  const rest = commonest(compiled, form);
  const others = [...new Set(table.rows.map(({ outcome }) => outcome))].filter((outcome) => outcome !== rest);
  if (others.length === 0) return [...subject(item), text(` ${verb(item)} ${say(rest)}.`)];
  const clauses = others.flatMap((outcome, index) => {
    const rows = table.rows.filter((row) => row.outcome === outcome);
    const cases = rows.flatMap((row, place) => [
      text(place === 0 ? ' ' : ', or '),
      ...rowWords(compiled, table.columns, row),
    ]);
    const lead = index === 0 ? ` ${verb(item)} ` : `; ${pronoun(item)} ${verb(item)} `;
    return [text(`${lead}${say(outcome)}`), ...cases];
  });
  return [...subject(item), ...clauses, text(`; otherwise ${pronoun(item)} ${verb(item)} ${say(rest)}.`)];
}

/** The outcome of most cases: it is the one that "otherwise" says. Ties go to the later terminal. */
function commonest({ diagrams }: Compiled, form: Node): number {
  const support = diagrams.support(form);
  let best = { outcome: IMPOSSIBLE, count: 0n };
  for (const outcome of diagrams.terminals(form)) {
    if (outcome === IMPOSSIBLE) continue;
    const where = diagrams.map(`is ${outcome}`, form, (each) => (each === outcome ? 1 : 0));
    const count = diagrams.satCount(where, support);
    if (count >= best.count) best = { outcome, count };
  }
  return best.outcome;
}

/** "on the ground, with the slats in and with the taxi switch at ON". */
export function rowWords(compiled: Compiled, columns: readonly number[], row: TableRow): Inline[] {
  const phrases = row.cells.flatMap((values, column): Inline[][] =>
    values === undefined ? [] : [phrase(meaningAt(compiled, columns[column] as number), values)],
  );
  if (phrases.length === 0) return [text('in every case')];
  return phrases.flatMap((words, index) => {
    if (index === 0) return words;
    return [text(index === phrases.length - 1 ? ' and ' : ', '), ...words];
  });
}

/** One variable with some of its values, as a sentence says it. */
function phrase(meaning: Meaning, values: readonly number[]): Inline[] {
  switch (meaning.kind) {
    case 'condition': {
      const says = values.map((value) => meaning.condition.values?.[value]?.says ?? '');
      return [text(says.join(' or '))];
    }
    case 'number':
      return [text(`with ${meaning.condition.noun ?? lowerFirst(meaning.condition.title)} ${valuesTitle(meaning, values)}`)];
    case 'control': {
      if (values.length === 1 && values[0] === absentValue(meaning.control)) {
        return [text(`without the ${lowerFirst(meaning.control.title)}`)];
      }
      return [text(`with the ${lowerFirst(meaning.control.title)} at `), ...cellText(meaning, values)];
    }
    case 'option':
      return [text(`with ${lowerFirst(meaning.option.title)} ${valuesTitle(meaning, values)}`)];
  }
}

/** "The logo lights"; a message is named by its text, framed. */
function subject(item: Item): Inline[] {
  if (item.kind !== 'message') return [text(upperFirst(item.noun))];
  return [text('The message '), { kind: 'legend', text: item.legend ?? item.title }];
}

function verb(item: Item): string {
  return item.plural ? 'are' : 'is';
}

function pronoun(item: Item): string {
  return item.plural ? 'they' : 'it';
}
