/**
 * Variables and values in the author's words: one wording for witness cases, table cells, diagram labels and sentences.
 */
import { list } from '../diagnostics/index.ts';
import type { Control, FittedLegend, Position } from '../model/index.ts';
import { holdsOnFit } from '../model/index.ts';
import type { Cut, NumberCell } from './cells.ts';
import type { SettledFit } from './fits.ts';
import { isFittedOn } from './positions.ts';
import { absentValue, type ControlMeaning, type Meaning, type Space, valueIds } from './space.ts';

/** The fits that words are about, with every option settled: they name what is fitted there. Absent: the whole fleet. */
export type On = readonly Pick<SettledFit, 'options'>[];

/**
 * The title of the variable: "Logo switch". Counterparts have one title each, "Logo switch / Logo selector", where both are
 * fitted on some of the fits.
 */
export function variableTitle(meaning: Meaning, on?: On): string {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.title;
    case 'control':
      return controlsOn(meaning, on)
        .map(({ title }) => title)
        .join(' / ');
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

/** One value in words; for numbers the interval of the cell. */
export function valueTitle(meaning: Meaning, value: number, on?: On): string {
  switch (meaning.kind) {
    case 'option':
      return meaning.option.values[value]?.title ?? '';
    case 'control':
      return value === absentValue(meaning) ? 'not fitted' : legendsOf(meaning, value, on).join(' / ');
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

/** Of the controls that share a variable, those that one of the fits has; all of them where none has any. */
export function controlsOn(meaning: ControlMeaning, on?: On): readonly Control[] {
  const fitted = on && meaning.controls.filter((control) => on.some((fit) => isFittedOn(control, fit)));
  return fitted && fitted.length > 0 ? fitted : meaning.controls;
}

/** The legends of the positions that share a value, without repeats, in the order of the controls. */
export function legendsOf(meaning: ControlMeaning, value: number, on?: On): string[] {
  const shared = [...(meaning.values[value] ?? [])].map(
    ([control, index]) => [control, control.positions[index] as Position] as const,
  );
  const seen = (on ?? []).flatMap((fit) =>
    shared
      .filter(([control, position]) => isFittedOn(control, fit) && isFittedOn(position, fit))
      .map(([control, position]) => [control, legendOn(position, fit)] as const),
  );
  const found = seen.length > 0 ? seen : shared.map(([control, position]) => [control, position.legend] as const);
  return [...new Set(shared.flatMap(([control]) => found.filter(([of]) => of === control).map(([, words]) => words)))];
}

/** What stands on the panel on one fit, whose options are all settled: the first of `legends` that holds, or `legend`. */
export function legendOn<L extends string | undefined>(
  { legend, legends }: { readonly legend: L; readonly legends: readonly FittedLegend[] },
  fit: On[number],
): L | string {
  return legends.find(({ when }) => holdsOnFit(when, fit.options) === true)?.legend ?? legend;
}

/** A set of values of one variable in words: "OFF or AUTO", "above 200 kt, up to 240 kt". */
export function valuesTitle(meaning: Meaning, values: readonly number[], on?: On): string {
  const first = values[0];
  const last = values.at(-1);
  if (first === undefined || last === undefined) return 'no value';
  if (meaning.kind === 'number' || meaning.kind === 'store') {
    if (last - first !== values.length - 1) throw new Error('cells that do not touch are no interval');
    return intervalTitle(meaning, first, last);
  }
  return list(values.map((value) => valueTitle(meaning, value, on)));
}

/** Thousands are set apart with a comma from 1,000 on: "10,800". Decimals stay as written. */
export function formatNumber(decimal: string): string {
  const [whole = '', ...fraction] = decimal.split('.');
  return [whole.replace(/\B(?=(\d{3})+(?!\d))/g, ','), ...fraction].join('.');
}

/** A case in the author's words, by the names on some fits: "Logo switch: AUTO · Main gear struts: extended". */
export function caseTitle(space: Space, assignment: ReadonlyMap<number, number>, on?: On): string {
  const parts = [...assignment]
    .sort(([a], [b]) => a - b)
    .map(([level, value]) => {
      const meaning = space.meanings[level];
      return meaning ? `${variableTitle(meaning, on)}: ${valueTitle(meaning, value, on)}` : '';
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
