/** What can happen on one fit, in parts that share no variable. */
import { BitSpace } from './bit-sets.ts';
import { type Formula, fixed, type Problem, readBy } from './problem.ts';

export interface Component {
  /** The same for the same constraints, on whatever fit. */
  readonly key: string;
  readonly variables: readonly number[];
  readonly constraints: readonly Formula[];
}

export function componentsOn(problem: Problem, fit: number): Component[] {
  const options = problem.fits[fit] as readonly number[];
  let parts: { variables: number[]; constraints: Formula[] }[] = [];
  for (const constraint of problem.constraints) {
    const here = fixed(constraint, (variable) => options[variable]);
    if (here === true) continue;
    if (here === false) throw new Error('no case can happen');
    const variables = readBy([here]);
    const touched = parts.filter((part) => part.variables.some((variable) => variables.includes(variable)));
    const joined = {
      variables: [...new Set([...touched.flatMap((part) => part.variables), ...variables])].sort((a, b) => a - b),
      constraints: [...touched.flatMap((part) => part.constraints), here],
    };
    parts = [...parts.filter((part) => !touched.includes(part)), joined];
  }
  return parts.map((part) => ({ ...part, key: JSON.stringify(part.constraints) }));
}

/** The settings of some variables of a component that cannot happen, whatever the others. */
export function impossibleSettings(problem: Problem, component: Component, kept: readonly number[]): number[][] {
  const others = component.variables.filter((variable) => !kept.includes(variable));
  const sizeOf = (variable: number): number => problem.variables[variable]?.size as number;
  const space = new BitSpace([...kept, ...others].map((variable) => ({ variable, size: sizeOf(variable) })));
  const possible = space.where({ op: 'all', of: component.constraints });
  const behind = others.reduce((product, variable) => product * sizeOf(variable), 1);
  const settings = kept.reduce<number[][]>(
    (all, variable) => all.flatMap((each) => Array.from({ length: sizeOf(variable) }, (_, value) => [...each, value])),
    [[]],
  );
  return settings.filter((_, at) => {
    for (let bit = at * behind; bit < (at + 1) * behind; bit += 1) {
      if (((possible[bit >> 5] as number) >>> (bit & 31)) & 1) return false;
    }
    return true;
  });
}
