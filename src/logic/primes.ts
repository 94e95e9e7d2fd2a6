/**
 * All primes of a Boolean diagram over multi-valued variables: the cubes that cannot grow. The recursion is that of
 * O. Coudert and J. C. Madre, "Implicit and incremental computation of primes and essential primes of Boolean functions"
 * (1992), with a set of values where they have one of two literals: a cube that limits the first variable to a set is
 * prime when its rest is a prime of what the cofactors of the set have in common and implies the cofactor of no further
 * value.
 */
import type { Cube } from './cover.ts';
import type { Diagrams } from './diagrams.ts';
import { StepBudget } from './step-budget.ts';
import type { Node } from './unique-table.ts';

/** The variables that a cube limits, ascending. */
type Literals = readonly { readonly level: number; readonly values: readonly number[] }[];

/**
 * The primes of the complement of `off`, each as the values of `columns`, which hold the support of `off`; in declared
 * order, limited columns before free ones and low values first. Of an ordered variable the values are an interval.
 * Throws a `StepLimitError` when the budget is spent.
 */
export function primes(
  diagrams: Diagrams,
  columns: readonly number[],
  off: Node,
  budget: StepBudget = new StepBudget(),
): Cube[] {
  const known = new Map<Node, readonly Literals[]>([
    [diagrams.no, []],
    [diagrams.yes, [[]]],
  ]);
  const primesOf = (f: Node): readonly Literals[] => {
    const found = known.get(f) ?? growing(f);
    known.set(f, found);
    return found;
  };

  function growing(f: Node): Literals[] {
    const level = diagrams.level(f);
    const size = diagrams.variables[level]?.size ?? 0;
    const cofactors = Array.from({ length: size }, (_, value) => diagrams.child(f, value));
    const sets = diagrams.variables[level]?.ordered ? intervals(cofactors) : closedSets(cofactors);
    return sets.flatMap(({ common, values, further }) => {
      const rests = primesOf(common).filter((rest) => {
        budget.spend(1);
        return !further.some((value) => implies(rest, cofactors[value] as Node));
      });
      return values.length === size ? rests : rests.map((rest) => [{ level, values }, ...rest]);
    });
  }

  /** The sets of values that hold every value whose cofactor holds all that theirs have in common. */
  function closedSets(cofactors: readonly Node[]): ValueSet[] {
    const distinct = [...new Set(cofactors)];
    const commons = new Set<Node>();
    for (const cofactor of distinct) {
      for (const each of [diagrams.yes, ...commons]) {
        budget.spend(1);
        commons.add(diagrams.and(each, cofactor));
      }
    }
    return [...commons].map((common) => {
      const within = (value: number): boolean => diagrams.and(common, cofactors[value] as Node) === common;
      const all = [...cofactors.keys()];
      return { common, values: all.filter(within), further: all.filter((value) => !within(value)) };
    });
  }

  /** The intervals that have something in common, with the values next to them. */
  function intervals(cofactors: readonly Node[]): ValueSet[] {
    return cofactors.flatMap((_, first) => {
      const found: ValueSet[] = [];
      let common = diagrams.yes;
      for (let last = first; last < cofactors.length; last += 1) {
        budget.spend(1);
        common = diagrams.and(common, cofactors[last] as Node);
        if (common === diagrams.no) break;
        const values = Array.from({ length: last - first + 1 }, (_, at) => first + at);
        const further = [first - 1, last + 1].filter((value) => value in cofactors);
        found.push({ common, values, further });
      }
      return found;
    });
  }

  /** Whether all cases of the cube are in `f`. */
  function implies(cube: Literals, f: Node): boolean {
    const limits = new Map(cube.map(({ level, values }) => [level, values]));
    const nodes = new Set<Node>([f]);
    for (const node of nodes) {
      budget.spend(1);
      if (node === diagrams.no) return false;
      if (node === diagrams.yes) continue;
      const level = diagrams.level(node);
      const limited = limits.get(level);
      const size = limited?.length ?? diagrams.variables[level]?.size ?? 0;
      for (let at = 0; at < size; at += 1) nodes.add(diagrams.child(node, limited?.[at] ?? at));
    }
    return true;
  }

  return primesOf(diagrams.not(off))
    .map((literals) => columns.map((column) => literals.find(({ level }) => level === column)?.values))
    .sort(inDeclaredOrder);
}

interface ValueSet {
  /** What their cofactors have in common. */
  readonly common: Node;
  readonly values: readonly number[];
  /** Those by which the set could grow. */
  readonly further: readonly number[];
}

/** Limited columns before free ones, low values first. */
function inDeclaredOrder(a: Cube, b: Cube): number {
  for (const [at, values] of a.entries()) {
    const others = b[at];
    if (values === undefined && others === undefined) continue;
    if (values === undefined) return 1;
    if (others === undefined) return -1;
    const different = values.findIndex((value, index) => value !== others[index]);
    if (different !== -1) return (values[different] as number) - (others[different] ?? -1);
    if (values.length !== others.length) return values.length - others.length;
  }
  return 0;
}
