/** A problem on decision diagrams: what `compileFleet` does with a content, without its reading and judging. */
import { Possible } from '../../src/compile/possible.ts';
import { Diagrams, type Node } from '../../src/logic/index.ts';
import { type Formula, fixed, type Problem } from './problem.ts';

export const IMPOSSIBLE = 9;

export interface CompiledProblem {
  readonly diagrams: Diagrams;
  /** By item: the outcome over all variables. */
  readonly nodes: readonly Node[];
  /** By item, then by fit: the normal forms. */
  readonly forms: readonly (readonly Node[])[];
}

export function compileProblem(problem: Problem): CompiledProblem {
  const diagrams = new Diagrams(problem.variables.map(({ id, size, isNumber }) => ({ id, size, ordered: isNumber })));
  const possible = problem.fits.map((options) => {
    const here = problem.constraints.map((each) => fixed(each, (variable) => options[variable]));
    return new Possible(
      diagrams,
      here.filter((each) => typeof each !== 'boolean').map((each) => nodeOf(diagrams, each)),
    );
  });
  const optionsOf = problem.fits.map((options) => new Map(options.entries()));
  const nodes = problem.items.map(({ rules, otherwise }) =>
    rules.reduceRight<Node>(
      (rest, { when, then }) => diagrams.ite(nodeOf(diagrams, when), diagrams.terminal(then), rest),
      diagrams.terminal(otherwise),
    ),
  );
  const nothing = diagrams.terminal(IMPOSSIBLE);
  const forms = nodes.map((node) => {
    const here = optionsOf.map((options) => diagrams.restrictAll(node, options));
    const own = [...new Set([...new Set(here)].flatMap((each) => diagrams.support(each)))];
    return here.map((each, fit) => diagrams.ite((possible[fit] as Possible).only(own), each, nothing));
  });
  return { diagrams, nodes, forms };
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
