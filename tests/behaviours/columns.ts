/** Columns of expected tables: a variable of the compiled fleet, and what its cells say of its values. */
import { absentValue, type Compiled, levelOf, type Meaning, valueIds } from '../../src/compile/index.ts';
import { type Comparison, thresholdCut } from '../../src/language/index.ts';
import type { NumberRange } from '../../src/model/index.ts';

/**
 * One value of a variable as cases have it: the value of its diagram level, and for numbers one step of the cell, since a
 * table may cut finer than the content does.
 */
export interface Value {
  readonly value: number;
  readonly step?: bigint;
  /** As the author would write it. */
  readonly written: string;
}

export interface Column {
  readonly id: string;
  readonly level: number;
  readonly meaning: Meaning;
}

type NumberMeaning = Extract<Meaning, { kind: 'number' }>;

export function columnOf({ space }: Compiled, id: string): Column {
  const level = levelOf(space, id);
  return { id, level, meaning: space.meanings[level] as Meaning };
}

/** What a cell says. Throws where it names a value that the variable does not have: the table is wrong then, not the program. */
export function cellTest({ id, meaning }: Column, cell: string): (value: Value) => boolean {
  if (cell === '-') return () => true;
  if (meaning.kind === 'number') {
    const intervals = cell.split('&').map((part) => intervalOf(meaning, part.trim()));
    return ({ step = -1n }) => intervals.every(([first, last]) => first <= step && step <= last);
  }
  const wanted = cell.split('/').map((word) => valueCalled(id, meaning, word.trim()));
  return ({ value }) => wanted.includes(value);
}

/** Every value of the variable. The cells of a number are cut further by what `tables` say of it. */
export function valuesOf({ meaning }: Column, tables: readonly string[]): readonly Value[] {
  if (meaning.kind === 'number') return stepsOf(meaning, tables);
  const ids = [...valueIds(meaning)];
  if (meaning.kind === 'control' || meaning.kind === 'sequence') ids[absentValue(meaning)] = 'absent';
  return ids.map((written, value) => ({ value, written }));
}

function stepsOf(meaning: NumberMeaning, tables: readonly string[]): Value[] {
  const cuts = tables
    .filter((cell) => cell !== '-')
    .flatMap((cell) => cell.split('&').map((part) => intervalOf(meaning, part.trim())))
    .flatMap(([first, last]) => [first, last + 1n]);
  return meaning.cells.flatMap(({ first, last }, value) => {
    const steps = new Set([first, ...cuts.filter((cut) => first < cut && cut <= last)]);
    return [...steps].map((step) => ({ value, step, written: stepText(rangeOf(meaning), step) }));
  });
}

function rangeOf(meaning: NumberMeaning): NumberRange {
  if (!meaning.condition.number) throw new Error(`${meaning.condition.id} is not a number`);
  return meaning.condition.number;
}

function intervalOf(meaning: NumberMeaning, comparison: string): readonly [bigint, bigint] {
  const range = rangeOf(meaning);
  const [, by, value = '', unit] = /^(<=|>=|<|>|=)\s*(-?[\d.]+)\s*(\S+)$/.exec(comparison) ?? [];
  const holds = unit === range.unit ? thresholdCut(range, by as Comparison, value) : undefined;
  if (!holds) throw new Error(`"${comparison}" says nothing of ${meaning.condition.id}`);
  return holds;
}

/** The step as a decimal, by counting in the smallest digit. */
function stepText({ from, step: size }: NumberRange, step: bigint): string {
  const digits = Math.max(...[from, size].map((text) => text.split('.')[1]?.length ?? 0));
  const scaled = (text: string): bigint => {
    const [whole = '', fraction = ''] = text.split('.');
    return BigInt(whole + fraction.padEnd(digits, '0'));
  };
  const sum = scaled(from) + step * scaled(size);
  const text = (sum < 0n ? -sum : sum).toString().padStart(digits + 1, '0');
  const unsigned = digits === 0 ? text : `${text.slice(0, -digits)}.${text.slice(-digits)}`;
  return sum < 0n ? `-${unsigned}` : unsigned;
}

function valueCalled(id: string, meaning: Meaning, word: string): number {
  const found = ((): number => {
    if (meaning.kind !== 'control') {
      return meaning.kind === 'sequence' && word === 'absent' ? absentValue(meaning) : valueIds(meaning).indexOf(word);
    }
    if (word === 'absent') return absentValue(meaning);
    // Counterparts share the variable: a position of the column's own control comes first.
    const controls = meaning.controls.toSorted((a, b) => Number(b.id === id) - Number(a.id === id));
    const values = controls.map((control) =>
      meaning.values.findIndex((each) => control.positions[each.get(control) ?? -1]?.id === word),
    );
    return values.find((value) => value >= 0) ?? -1;
  })();
  if (found < 0) throw new Error(`${id} has no value "${word}"`);
  return found;
}
