/** A problem on decision diagrams: the normal forms as `compileFleet` makes them, without its reading and judging. */
import { Possible } from '../../src/compile/possible.ts';
import { Diagrams, type Node } from '../../src/logic/index.ts';
import { type Formula, fixed, type Problem, readBy } from './problem.ts';

export const IMPOSSIBLE = 9;

export interface CompiledProblem {
  readonly diagrams: Diagrams;
  /** By item: the outcome over all variables. */
  readonly nodes: readonly Node[];
  /** By item, then by fit: the normal forms. */
  readonly forms: readonly (readonly Node[])[];
}

/** The diagrams of all items, whatever can happen. */
export function compileItems(problem: Problem): Pick<CompiledProblem, 'diagrams' | 'nodes'> {
  const diagrams = new Diagrams(problem.variables.map(({ id, size, isNumber }) => ({ id, size, ordered: isNumber })));
  const nodes = problem.items.map(({ rules, otherwise }) =>
    rules.reduceRight<Node>(
      (rest, { when, then }) => diagrams.ite(nodeOf(diagrams, when), diagrams.terminal(then), rest),
      diagrams.terminal(otherwise),
    ),
  );
  return { diagrams, nodes };
}

export function compileProblem(problem: Problem): CompiledProblem {
  const { diagrams, nodes } = compileItems(problem);
  const fits = problem.fits.map((options) => {
    const constraints = problem.constraints
      .map((each) => fixed(each, (variable) => options[variable]))
      .filter((each) => typeof each !== 'boolean')
      .map((each) => ({ node: nodeOf(diagrams, each), read: readBy([each]) }));
    return {
      options: new Map(options.entries()),
      possible: new Possible(
        diagrams,
        constraints.map(({ node }) => node),
      ),
      settings: settingsOf(
        diagrams,
        constraints.flatMap(({ node, read: [level, ...others] }) =>
          level === undefined || others.length > 0 ? [] : [{ node, level }],
        ),
      ),
    };
  });
  const nothing = diagrams.terminal(IMPOSSIBLE);
  const forms = nodes.map((node) => {
    const here = fits.map(({ options, settings }) => {
      const restricted = diagrams.restrictAll(node, options);
      return diagrams.support(restricted).reduce((rest, level) => {
        const values = settings.get(level);
        if (!values) return rest;
        return diagrams.ite(diagrams.literal(level, values), rest, diagrams.restrict(rest, level, values[0] as number));
      }, restricted);
    });
    const own = [...new Set([...new Set(here)].flatMap((each) => diagrams.support(each)))];
    return fits.map(({ possible }, fit) => {
      const form = diagrams.ite(possible.only(own), here[fit] as Node, nothing);
      if (problem.missing === undefined) return form;
      const isMissing = diagrams.terminals(form).every((value) => value === problem.missing || value === IMPOSSIBLE);
      return isMissing ? diagrams.terminal(problem.missing) : form;
    });
  });
  return { diagrams, nodes, forms };
}

/** By level, the values that constraints on it alone leave. */
function settingsOf(
  diagrams: Diagrams,
  alone: readonly { readonly node: Node; readonly level: number }[],
): ReadonlyMap<number, readonly number[]> {
  const nodes = new Map<number, Node>();
  for (const { node, level } of alone) nodes.set(level, diagrams.and(nodes.get(level) ?? diagrams.yes, node));
  return new Map(
    [...nodes].map(([level, node]) => {
      const size = diagrams.variables[level]?.size as number;
      const values = Array.from({ length: size }, (_, value) => value);
      return [level, values.filter((value) => diagrams.restrict(node, level, value) !== diagrams.no)];
    }),
  );
}

export function nodeOf(diagrams: Diagrams, formula: Formula): Node {
  switch (formula.op) {
    case 'in':
      return diagrams.literal(formula.variable, formula.values);
    case 'not':
      return diagrams.not(nodeOf(diagrams, formula.of));
    case 'all':
      return diagrams.and(...formula.of.map((each) => nodeOf(diagrams, each)));
    case 'some':
      return diagrams.or(...formula.of.map((each) => nodeOf(diagrams, each)));
  }
}
