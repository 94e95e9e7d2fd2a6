/**
 * Covers: cubes that together hold exactly the cases of a set, and may overlap. Expanding to primes and dropping what is
 * redundant follow the EXPAND and IRREDUNDANT steps of R. Brayton, G. Hachtel, C. McMullen and A. Sangiovanni-Vincentelli,
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

/**
 * Expands each cube, in order, until it cannot grow without touching `off`, then drops, last first, those that the others
 * cover. `on` are the cases to hold, `off` those to keep out; cases in neither may be either. The cubes given must cover
 * `on` and keep out `off`; so do those that come back.
 */
export function irredundantPrimes(
  diagrams: Diagrams,
  columns: readonly number[],
  cubes: readonly Cube[],
  on: Node,
  off: Node,
): Cube[] {
  const grown = cubes.map((cube) => expand(diagrams, columns, cube, off));
  return grown.reduceRight<Cube[]>((kept, cube, at) => {
    const others = [...grown.slice(0, at), ...kept].map((each) => cubeNode(diagrams, columns, each));
    const left = diagrams.and(on, cubeNode(diagrams, columns, cube), diagrams.not(diagrams.or(...others)));
    return left === diagrams.no ? kept : [cube, ...kept];
  }, []);
}

/** Frees variables from the last column to the first; of an ordered one that must stay, each side by itself. */
function expand(diagrams: Diagrams, columns: readonly number[], cube: Cube, off: Node): Cube {
  let grown = cube;
  const grow = (at: number, values: readonly number[] | undefined): void => {
    const wider = grown.with(at, values);
    if (diagrams.and(cubeNode(diagrams, columns, wider), off) === diagrams.no) grown = wider;
  };
  for (let at = columns.length - 1; at >= 0; at -= 1) {
    const values = grown[at];
    const variable = diagrams.variables[columns[at] ?? -1];
    if (values === undefined || !variable) continue;
    grow(at, undefined);
    if (!variable.ordered) continue;
    const all = Array.from({ length: variable.size }, (_, value) => value);
    const [first = 0] = values;
    const last = values.at(-1) ?? first;
    if (grown[at] !== undefined) grow(at, all.slice(0, last + 1));
    if (grown[at] !== undefined) grow(at, all.slice(first));
  }
  return grown;
}
