/**
 * Variables and values in the author's words: one wording for witness cases, table cells, diagram labels and sentences.
 */
import { list } from '../diagnostics/index.ts';
import type { Cut, NumberCell } from './cells.ts';
import { absentValue, type Meaning, type Space } from './space.ts';

/** The title of the variable: "Logo switch". */
export function variableTitle(meaning: Meaning): string {
  if (meaning.kind === 'option') return meaning.option.title;
  return meaning.kind === 'control' ? meaning.control.title : meaning.condition.title;
}

/** One value in words; for numbers the interval from the first to the last of `values`, which are contiguous. */
export function valueTitle(meaning: Meaning, value: number): string {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.values[value]?.title ?? '';
    case 'control':
      return value === absentValue(meaning.control) ? 'not fitted' : (meaning.control.positions[value]?.legend ?? '');
    case 'condition':
      return meaning.condition.values?.[value]?.title ?? '';
    case 'number':
      return intervalTitle(meaning, value, value);
  }
}

/** A set of values of one variable in words: "OFF or AUTO", "above 200 kt, up to 240 kt". */
export function valuesTitle(meaning: Meaning, values: readonly number[]): string {
  const first = values[0];
  const last = values.at(-1);
  if (first === undefined || last === undefined) return 'no value';
  if (meaning.kind === 'number') {
    if (last - first !== values.length - 1) throw new Error('cells that do not touch are no interval');
    return intervalTitle(meaning, first, last);
  }
  return list(values.map((value) => valueTitle(meaning, value)));
}

/** Thousands are set apart with a comma from 1,000 on: "10,800". Decimals stay as written. */
export function formatNumber(decimal: string): string {
  const [whole = '', ...fraction] = decimal.split('.');
  return [whole.replace(/\B(?=(\d{3})+(?!\d))/g, ','), ...fraction].join('.');
}

/** A case in the author's words: "Logo switch AUTO, Main gear struts extended". Levels in declared order. */
export function caseTitle(space: Space, assignment: ReadonlyMap<number, number>): string {
  const parts = [...assignment]
    .sort(([a], [b]) => a - b)
    .map(([level, value]) => {
      const meaning = space.meanings[level];
      return meaning ? `${variableTitle(meaning)}: ${valueTitle(meaning, value)}` : '';
    });
  return parts.length > 0 ? parts.join(' · ') : 'any case';
}

function intervalTitle(meaning: Extract<Meaning, { kind: 'number' }>, first: number, last: number): string {
  const unit = meaning.condition.number?.unit ?? '';
  const low = (meaning.cells[first] as NumberCell).below;
  const high = (meaning.cells[last] as NumberCell).above;
  const say = (cut: Cut): string => `${formatNumber(cut.value)} ${unit}`;
  if (!low && !high) return 'any value';
  if (!low && high) return high.belongsTo === 'lower' ? `${say(high)} or below` : `below ${say(high)}`;
  if (low && !high) return low.belongsTo === 'lower' ? `above ${say(low)}` : `${say(low)} or above`;
  if (!low || !high) throw new Error('unreachable');
  const from = low.belongsTo === 'lower' ? `above ${say(low)}` : `from ${say(low)}`;
  const to = high.belongsTo === 'lower' ? `up to ${say(high)}` : `below ${say(high)}`;
  return low.value === high.value && low.belongsTo !== high.belongsTo ? `at ${say(low)}` : `${from}, ${to}`;
}
