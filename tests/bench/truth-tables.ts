/** Truth tables case by case, as one writes them without thinking of speed: an outcome for each case of what an item reads. */
import { type Problem, predicateOf, readBy } from './problem.ts';

/** By item, the outcomes over the variables that it reads, options too; the last variable moves fastest. */
export function truthTables(problem: Problem): Uint8Array[] {
  const values = problem.variables.map(() => 0);
  return problem.items.map(({ rules, otherwise }) => {
    const read = readBy(rules.map(({ when }) => when));
    const sizes = read.map((variable) => problem.variables[variable]?.size as number);
    const predicates = rules.map(({ when, then }) => ({ holds: predicateOf(when), then }));
    const table = new Uint8Array(sizes.reduce((product, size) => product * size, 1));
    for (const variable of read) values[variable] = 0;
    for (let at = 0; at < table.length; at += 1) {
      table[at] = predicates.find(({ holds }) => holds(values))?.then ?? otherwise;
      for (let column = read.length - 1; column >= 0; column -= 1) {
        const variable = read[column] as number;
        values[variable] = ((values[variable] as number) + 1) % (sizes[column] as number);
        if (values[variable] !== 0) break;
      }
    }
    return table;
  });
}
