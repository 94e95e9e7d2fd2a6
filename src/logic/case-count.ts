/** How many cases of a diagram lie in a box of cases, exactly. */
import type { FlatDiagram } from './flat-diagram.ts';

/** By column, the values that a case may have there: undefined for all of them. */
export type ValueBox = readonly (readonly number[] | undefined)[];

/** The arithmetic of counts: numbers for as long as they are exact, integers of any size beyond. */
interface Arithmetic<Count> {
  readonly of: (small: number) => Count;
  readonly sum: (a: Count, b: Count) => Count;
  readonly product: (a: Count, b: Count) => Count;
  readonly quotient: (a: Count, b: Count) => Count;
}

const NUMBERS: Arithmetic<number> = {
  of: (small) => small,
  sum: (a, b) => a + b,
  product: (a, b) => a * b,
  quotient: (a, b) => a / b,
};

const INTEGERS: Arithmetic<bigint> = {
  of: BigInt,
  sum: (a, b) => a + b,
  product: (a, b) => a * b,
  quotient: (a, b) => a / b,
};

/** How many cases of the box, which are assignments of the columns of a diagram, have an outcome that counts. */
export type CaseCount = (box: ValueBox, isCounted: (outcome: number) => boolean) => bigint;

/** The way to count the cases of a diagram. */
export function caseCount(flat: FlatDiagram): CaseCount {
  const cases = flat.sizes.reduce((product, size) => product * size, 1);
  return Number.isSafeInteger(cases) ? counting(flat, NUMBERS) : counting(flat, INTEGERS);
}

function counting<Count extends bigint | number>(flat: FlatDiagram, arithmetic: Arithmetic<Count>): CaseCount {
  const { of, sum, product, quotient } = arithmetic;
  const all = flat.sizes.map((size) => Array.from({ length: size }, (_, value) => value));
  const counts = new Array<Count>(flat.columns.length);
  return (box, isCounted) => {
    const values = all.map((every, column) => box[column] ?? every);
    const whole = values.reduce((size, { length }) => product(size, of(length)), of(1));
    // Each node is counted over all columns, whether it comes to test them or not, so that no column can be passed over.
    for (let node = 0; node < flat.columns.length; node += 1) {
      const column = flat.columns[node] as number;
      if (column < 0) {
        counts[node] = isCounted(flat.starts[node] as number) ? whole : of(0);
        continue;
      }
      const allowed = values[column] as readonly number[];
      const parts = of(allowed.length);
      counts[node] = allowed.reduce(
        (count, value) => sum(count, quotient(counts[flat.child(node, value)] as Count, parts)),
        of(0),
      );
    }
    return BigInt(counts[flat.root] as Count);
  };
}
