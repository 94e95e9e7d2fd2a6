/**
 * The shortest way to list the cases of a set as cubes that may overlap: all primes, then an exact covering of the cases by
 * them, as W. V. Quine and E. J. McCluskey do it for two values (1952, 1956); where that is out of reach, primes of which
 * none can be left out.
 */
import { type Cube, cubeNode, expand, irredundant } from './cover.ts';
import { leastCover } from './covering.ts';
import type { Diagrams } from './diagrams.ts';
import { primes } from './primes.ts';
import { StepBudget, StepLimitError } from './step-budget.ts';
import type { Node } from './unique-table.ts';

export interface MinimalCover {
  readonly cubes: readonly Cube[];
  /** No cover has fewer cubes, none with as many has fewer literals; otherwise no cube can be left out. */
  readonly exact: boolean;
  /** The work of the exact method, up to the limit. */
  readonly steps: number;
}

export interface MinimalCoverOptions {
  /** The most steps that the exact method takes. */
  readonly stepLimit?: number;
}

const DEFAULT_STEP_LIMIT = 500_000;

/**
 * Primes that hold every case of `on` and none of `off`; cases in neither may be either. `columns` hold the support of both.
 * Exact: the fewest cubes, then the fewest literals (variables limited in a cube), then first in declared order.
 */
export function minimalCover(
  diagrams: Diagrams,
  columns: readonly number[],
  on: Node,
  off: Node,
  { stepLimit = DEFAULT_STEP_LIMIT }: MinimalCoverOptions = {},
): MinimalCover {
  const budget = new StepBudget(stepLimit);
  try {
    return { cubes: exactCover(diagrams, columns, on, off, budget), exact: true, steps: budget.spent };
  } catch (error) {
    if (!(error instanceof StepLimitError)) throw error;
    return { cubes: greedyCover(diagrams, columns, on, off), exact: false, steps: stepLimit };
  }
}

function exactCover(
  diagrams: Diagrams,
  columns: readonly number[],
  on: Node,
  off: Node,
  budget: StepBudget,
): readonly Cube[] {
  const candidates = primes(diagrams, columns, off, budget);
  const literals = candidates.map((cube) => cube.filter((values) => values !== undefined).length);
  const cube = literals.reduce((sum, each) => sum + each, 1);
  const rows = casesByPrime(diagrams, columns, on, candidates, budget);
  const chosen = leastCover(
    rows,
    literals.map((each) => cube + each),
    budget,
  );
  return chosen.map((at) => candidates[at] as Cube);
}

/** The sets of primes that hold one and the same case of `on`, as bits: those that a cover must meet. */
function casesByPrime(
  diagrams: Diagrams,
  columns: readonly number[],
  on: Node,
  candidates: readonly Cube[],
  budget: StepBudget,
): bigint[] {
  /** For each column and value the primes that let it through. */
  const through = columns.map((level, at) =>
    Array.from({ length: diagrams.variables[level]?.size ?? 0 }, (_, value) => {
      budget.spend(candidates.length);
      return setOf(candidates.map((cube) => cube[at]?.includes(value) ?? true));
    }),
  );
  let parts = new Map([[on, new Set([setOf(candidates.map(() => true))])]]);
  parts.delete(diagrams.no);
  columns.forEach((level, at) => {
    const next: typeof parts = new Map();
    for (const [node, sets] of parts) {
      for (const [value, open] of (through[at] as bigint[]).entries()) {
        const rest = diagrams.restrict(node, level, value);
        if (rest === diagrams.no) continue;
        budget.spend(sets.size);
        const known = next.get(rest) ?? new Set();
        for (const set of sets) known.add(set & open);
        next.set(rest, known);
      }
    }
    parts = next;
  });
  return [...(parts.get(diagrams.yes) ?? [])];
}

function setOf(flags: readonly boolean[]): bigint {
  return BigInt(
    `0b0${flags
      .map((flag) => (flag ? 1 : 0))
      .toReversed()
      .join('')}`,
  );
}

/** A case not yet held, in declared order, grown to a prime, until all are; then without what the others hold. */
function greedyCover(diagrams: Diagrams, columns: readonly number[], on: Node, off: Node): readonly Cube[] {
  const cubes: Cube[] = [];
  let left = on;
  for (;;) {
    const least = diagrams.pick(left);
    if (!least) return irredundant(diagrams, columns, cubes, on);
    const start = columns.map((level) => (least.has(level) ? [least.get(level) as number] : undefined));
    const cube = expand(diagrams, columns, start, off);
    cubes.push(cube);
    left = diagrams.and(left, diagrams.not(cubeNode(diagrams, columns, cube)));
  }
}
