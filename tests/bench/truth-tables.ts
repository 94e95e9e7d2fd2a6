/** The normal forms by truth tables, case by case, as one writes them without thinking of words and bits. */
import { componentsOn, impossibleSettings } from './components.ts';
import { fixed, type Problem, predicateOf, readBy } from './problem.ts';

/** The outcome of cases that cannot happen. */
const IMPOSSIBLE = 255;

/**
 * By item, then by fit: the outcome of each case of the variables that the item reads, the last one moving fastest. Fits that an
 * item can't tell apart are done once.
 */
export function truthTables(problem: Problem): Uint8Array[][] {
  const components = problem.fits.map((_, fit) => componentsOn(problem, fit));
  const impossible = new Map<string, number[][]>();
  return problem.items.map(({ rules, otherwise }) => {
    const read = readBy(rules.map(({ when }) => when));
    const columns = read.filter((variable) => variable >= problem.options);
    const known = new Map<string, Uint8Array>();
    return problem.fits.map((options, fit) => {
      const settings = (components[fit] ?? []).flatMap((component) => {
        const kept = component.variables.filter((variable) => columns.includes(variable));
        if (kept.length === 0) return [];
        const key = `${kept.join(' ')} ${component.key}`;
        const found = impossible.get(key) ?? impossibleSettings(problem, component, kept);
        impossible.set(key, found);
        return found.map((values) => ({ kept, values }));
      });
      const here = rules.flatMap(({ when, then }) => {
        const rule = fixed(when, (variable) => options[variable]);
        return rule === false ? [] : [{ when: rule === true ? ({ op: 'all', of: [] } as const) : rule, then }];
      });
      const key = JSON.stringify([here, settings]);
      const table = known.get(key) ?? tableOf(problem, columns, here, otherwise, settings);
      known.set(key, table);
      return table;
    });
  });
}

/** By item, the outcome of each case of all that it reads, options too, whatever can happen. */
export function truthTablesOfItems(problem: Problem): Uint8Array[] {
  return problem.items.map(({ rules, otherwise }) =>
    tableOf(problem, readBy(rules.map(({ when }) => when)), rules, otherwise, []),
  );
}

function tableOf(
  problem: Problem,
  columns: readonly number[],
  rules: Problem['items'][number]['rules'],
  otherwise: number,
  impossible: readonly { readonly kept: readonly number[]; readonly values: readonly number[] }[],
): Uint8Array {
  const sizes = columns.map((variable) => problem.variables[variable]?.size as number);
  const predicates = rules.map(({ when, then }) => ({ holds: predicateOf(when), then }));
  const table = new Uint8Array(sizes.reduce((product, size) => product * size, 1));
  const values = problem.variables.map(() => 0);
  for (let at = 0; at < table.length; at += 1) {
    table[at] = impossible.some((setting) =>
      setting.kept.every((variable, k) => values[variable] === setting.values[k]),
    )
      ? IMPOSSIBLE
      : (predicates.find(({ holds }) => holds(values))?.then ?? otherwise);
    for (let column = columns.length - 1; column >= 0; column -= 1) {
      const variable = columns[column] as number;
      values[variable] = ((values[variable] as number) + 1) % (sizes[column] as number);
      if (values[variable] !== 0) break;
    }
  }
  return table;
}
