/**
 * Variables and values in the author's words: one wording for witness cases, table cells, diagram labels and sentences.
 */
import { list } from '../diagnostics/index.ts';
import type { Cut, NumberCell } from './cells.ts';
import { absentValue, type Meaning, type Space, valueIds } from './space.ts';

/** The title of the variable: "Logo switch". Counterparts have one title each: "Logo switch / Logo selector". */
export function variableTitle(meaning: Meaning): string {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.title;
    case 'control':
      return meaning.controls.map(({ title }) => title).join(' / ');
    case 'condition':
    case 'number':
      return meaning.condition.title;
    case 'detector':
      return meaning.detector.title;
    case 'lamp':
      return `${meaning.item.title}, ${meaning.lamp.title}`;
    case 'sequence':
      return meaning.sequence.title;
    case 'store':
      return meaning.store.title;
    case 'unstated':
      return `${meaning.item.title}, not stated`;
  }
}

/** One value in words; for numbers the interval from the first to the last of `values`, which are contiguous. */
export function valueTitle(meaning: Meaning, value: number): string {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.values[value]?.title ?? '';
    case 'control':
      return value === absentValue(meaning) ? 'not fitted' : legends(meaning, value).join(' / ');
    case 'condition':
      return meaning.condition.values?.[value]?.title ?? '';
    case 'number':
    case 'store':
      return intervalTitle(meaning, value, value);
    case 'detector':
      return value === 1 ? 'tripped' : 'not tripped';
    case 'lamp':
      return value === 1 ? 'failed' : 'serviceable';
    case 'sequence':
      return value === absentValue(meaning) ? 'not fitted' : (meaning.sequence.modes[value]?.title ?? '');
    case 'unstated':
      return `if ${meaning.attribute.states[value]?.title ?? valueIds(meaning)[value] ?? ''}`;
  }
}

/** The legends of the positions that share a value, without repeats, in the order of the controls. */
function legends(meaning: Extract<Meaning, { kind: 'control' }>, value: number): string[] {
  const shared = [...(meaning.values[value] ?? [])];
  return [...new Set(shared.map(([control, position]) => control.positions[position]?.legend ?? ''))];
}

/** A set of values of one variable in words: "OFF or AUTO", "above 200 kt, up to 240 kt". */
export function valuesTitle(meaning: Meaning, values: readonly number[]): string {
  const first = values[0];
  const last = values.at(-1);
  if (first === undefined || last === undefined) return 'no value';
  if (meaning.kind === 'number' || meaning.kind === 'store') {
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

function intervalTitle(meaning: Extract<Meaning, { kind: 'number' | 'store' }>, first: number, last: number): string {
  const unit = (meaning.kind === 'store' ? meaning.range.unit : meaning.condition.number?.unit) ?? '';
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
