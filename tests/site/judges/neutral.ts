/** Cells of a page in the form that the theorem prover takes: values by id, numbers as inclusive bounds on whole steps. */
import { readValues } from '../../helpers/vocabulary.ts';
import type { Oracle } from '../../oracle/index.ts';
import type { TableCell } from '../../oracle/z3.ts';

export function neutralCell(oracle: Oracle, variable: string, words: string): TableCell {
  if (words === 'any') return null;
  const reading = readValues(oracle, variable, words);
  const condition = oracle.content.conditions.get(variable);
  if (!condition?.number) {
    const ids = condition ? condition.values.keys() : (oracle.content.controls.get(variable)?.positions.keys() ?? []);
    return { values: [...ids].filter(reading) };
  }
  const steps = everyStep(condition.number).filter(reading);
  const [from] = steps;
  const to = steps.at(-1);
  if (from === undefined || to === undefined) throw new Error(`"${words}" holds no step of ${variable}`);
  return { from, to };
}

/** The steps of a range as decimals. Whole numbers only, which the demo's are. */
function everyStep({ from, to, step }: { from: string; to: string; step: string }): string[] {
  const [first, last, by] = [from, to, step].map(Number) as [number, number, number];
  if (![first, last, by].every(Number.isInteger)) throw new Error('only whole numbers are listed step by step');
  return Array.from({ length: (last - first) / by + 1 }, (_, at) => String(first + at * by));
}
