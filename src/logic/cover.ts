/**
 * Covers: cubes that together hold exactly the cases of a set, and may overlap. Expanding to primes and dropping what is
 * redundant follow the steps EXPAND and IRREDUNDANT of R. Brayton, G. Hachtel, C. McMullen and A. Sangiovanni-Vincentelli,
 * "Logic Minimization Algorithms for VLSI Synthesis" (1984), for multi-valued variables.
 */
import type { Diagrams } from './diagrams.ts';
import type { Node } from './unique-table.ts';

/** For each column the values that the cube lets through; undefined lets all through. */
export type Cube = readonly (readonly number[] | undefined)[];

/** The cases of a cube as a Boolean diagram. */
export function cubeNode(diagrams: Diagrams, columns: readonly number[], cube: Cube): Node {
  const literals = cube.flatMap((values, at) => {
    const level = columns[at];
    return values === undefined || level === undefined ? [] : [diagrams.literal(level, values)];
  });
  return diagrams.and(...literals);
}

/** Without, last first, the cubes that the others make superfluous for holding `on`. */
export function irredundant(
  diagrams: Diagrams,
  columns: readonly number[],
  cubes: readonly Cube[],
  on: Node,
): readonly Cube[] {
  return cubes.reduceRight<Cube[]>((kept, cube, at) => {
    const others = [...cubes.slice(0, at), ...kept].map((each) => cubeNode(diagrams, columns, each));
    const left = diagrams.and(on, cubeNode(diagrams, columns, cube), diagrams.not(diagrams.or(...others)));
    return left === diagrams.no ? kept : [cube, ...kept];
  }, []);
}

/**
 * Grows a cube until it is prime, that is until no further value keeps out of `off`: variables are freed from the last
 * column to the first, those that must stay grow by single values, an ordered one at its ends.
 */
export function expand(diagrams: Diagrams, columns: readonly number[], cube: Cube, off: Node): Cube {
  let grown = cube;
  const grow = (at: number, values: readonly number[] | undefined): boolean => {
    const wider = grown.with(at, values);
    const may = diagrams.and(cubeNode(diagrams, columns, wider), off) === diagrams.no;
    if (may) grown = wider;
    return may;
  };
  for (let at = columns.length - 1; at >= 0; at -= 1) {
    const variable = diagrams.variables[columns[at] ?? -1];
    const own = grown[at];
    if (own === undefined || !variable || grow(at, undefined)) continue;
    const further = Array.from({ length: variable.size }, (_, value) => value);
    const first = own[0] ?? 0;
    // Outwards from the first value, so that an interval stays one.
    for (const side of [further.slice(first + 1), further.slice(0, first).toReversed()]) {
      for (const value of side) {
        const values = grown[at] ?? [];
        if (values.includes(value)) continue;
        if (
          !grow(
            at,
            [...values, value].toSorted((a, b) => a - b),
          ) &&
          variable.ordered
        )
          break;
      }
    }
  }
  return grown;
}

/**
 * Takes values out of the sets of unordered variables, last first, as long as the cubes still hold `on`: what cubes say of
 * cases that cannot happen, or that another holds, need not be said (the step MAKE_SPARSE of the book above).
 */
export function sparse(
  diagrams: Diagrams,
  columns: readonly number[],
  cubes: readonly Cube[],
  on: Node,
): readonly Cube[] {
  let kept = cubes;
  const holds = (some: readonly Cube[]): boolean =>
    diagrams.implies(on, diagrams.or(...some.map((cube) => cubeNode(diagrams, columns, cube)))) === diagrams.yes;
  for (let index = cubes.length - 1; index >= 0; index -= 1) {
    for (let at = columns.length - 1; at >= 0; at -= 1) {
      if (diagrams.variables[columns[at] ?? -1]?.ordered) continue;
      for (const value of (cubes[index]?.[at] ?? []).toReversed()) {
        const cube = kept[index] as Cube;
        const fewer = cube[at]?.filter((each) => each !== value) ?? [];
        const next = kept.with(index, cube.with(at, fewer));
        if (fewer.length > 0 && holds(next)) kept = next;
      }
    }
  }
  return kept;
}
