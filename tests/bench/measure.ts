/** Times of pieces of work, interleaved, so that what else the machine does falls on all of them. */

export interface Contender {
  readonly name: string;
  /** What is not timed, done before every run. */
  readonly prepare?: () => void;
  readonly run: () => unknown;
  /** How often the work is done in one run; 1 unless given. */
  readonly times?: number;
}

/** Milliseconds for the work done once. */
export interface Timing {
  /** The first run: nothing of it has been asked before, and the code may not have been compiled yet. */
  readonly cold: number;
  /** The median of the later runs; the first where there is no other. */
  readonly warm: number;
  readonly runs: number;
}

export interface Pace {
  readonly rounds: number;
  /** Milliseconds; who has used them up is left out of later rounds. */
  readonly budget: number;
  /** Milliseconds that a later round of one contender lasts at least: short work is done over and over. */
  readonly atLeast: number;
}

/**
 * Runs the contenders in turn. The first round is one run each; a later one is as many runs as last long enough, so that neither
 * the clock's grain nor one collection of garbage decides, and counts by their mean. What they return is kept until the end, so
 * that no work is optimised away.
 */
export async function race(
  contenders: readonly Contender[],
  { rounds, budget, atLeast }: Pace,
): Promise<Map<string, Timing>> {
  const taken = contenders.map((): number[] => []);
  const used = contenders.map(() => 0);
  let last: unknown;
  for (let round = 0; round < rounds; round += 1) {
    for (const [at, { prepare, run, times = 1 }] of contenders.entries()) {
      if (round > 0 && (used[at] as number) > budget) continue;
      let [spent, runs] = [0, 0];
      do {
        prepare?.();
        const start = performance.now();
        last = run();
        if (last instanceof Promise) last = await last;
        spent += performance.now() - start;
        runs += 1;
      } while (round > 0 && spent < atLeast);
      used[at] = (used[at] as number) + spent;
      (taken[at] as number[]).push(spent / runs / times);
    }
  }
  void last;
  return new Map(
    contenders.map(({ name }, at) => {
      const [cold = 0, ...later] = taken[at] as number[];
      return [name, { cold, warm: later.length > 0 ? median(later) : cold, runs: later.length + 1 }];
    }),
  );
}

export function median(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [low, high] = [sorted[sorted.length % 2 === 0 ? middle - 1 : middle], sorted[middle]];
  if (low === undefined || high === undefined) throw new RangeError('the median of nothing');
  return (low + high) / 2;
}

export function mean(numbers: readonly number[]): number {
  return numbers.reduce((sum, each) => sum + each, 0) / numbers.length;
}

/** The slope of the line of least squares through points: of their logarithms, the exponent of growth. */
export function slope(points: readonly (readonly [x: number, y: number])[]): number {
  const [x, y] = [mean(points.map(([each]) => each)), mean(points.map(([, each]) => each))];
  const above = points.reduce((sum, [px, py]) => sum + (px - x) * (py - y), 0);
  return above / points.reduce((sum, [px]) => sum + (px - x) ** 2, 0);
}

/** The exponent e of y ~ x^e. */
export function exponentOf(points: readonly (readonly [x: number, y: number])[]): number {
  return slope(points.map(([x, y]) => [Math.log(x), Math.log(y)]));
}
