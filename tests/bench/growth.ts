/** How work grows: with the numbers of a fleet, with what an item reads, and with a bad order of variables. */
import { Diagrams, pack, unpack } from '../../src/logic/index.ts';
import type { ScaleParameters } from '../compile/scale-content.ts';
import { scaleContent } from '../compile/scale-family.ts';
import { BruteForce } from './brute-force.ts';
import { ruleLists } from './families.ts';
import { exponentOf, median, race, slope, type Timing } from './measure.ts';
import { compileProblem } from './ours.ts';
import type { Growth, OrderReport, WidthReport } from './report.ts';
import { compiledFleet, readContent } from './subject.ts';

type Over = 'options' | 'conditions' | 'items' | 'aircraft';

/** Compiling a fleet, and evaluating all of it for one case, while one number of it doubles and doubles again. */
export async function fleetGrowth(
  base: ScaleParameters,
  points: Readonly<Record<Over, readonly number[]>>,
  rounds: number,
): Promise<Growth[]> {
  const found: Growth[] = [];
  for (const over of Object.keys(points) as Over[]) {
    const fleets = points[over].map((at) => readContent(scaleContent({ ...base, [over]: at })));
    const compile = await race(
      fleets.map((fleet, at) => ({ name: String(at), run: () => compiledFleet(fleet) })),
      { rounds, budget: Number.POSITIVE_INFINITY, atLeast: 0 },
    );
    const evaluate = await race(
      fleets.map((fleet, at) => {
        const { behaviours, diagrams, space } = compiledFleet(fleet);
        const evaluator = unpack(
          pack(
            diagrams,
            behaviours.map(({ node }) => node),
          ),
        );
        const values = space.variables.map(() => 0);
        return {
          name: String(at),
          times: 2000,
          run: () => {
            for (let pass = 0; pass < 2000; pass += 1) evaluator.evaluate(values);
          },
        };
      }),
      { rounds: 2 * rounds + 1, budget: Number.POSITIVE_INFINITY, atLeast: 0 },
    );
    for (const [work, timings] of [
      ['compile', compile],
      ['evaluate', evaluate],
    ] as const) {
      const measured = points[over].map((at, index) => ({
        at,
        milliseconds: (timings.get(String(index)) as Timing).warm,
      }));
      const exponent = exponentOf(measured.map(({ at, milliseconds }) => [at, milliseconds]));
      found.push({ over, work, points: measured, exponent });
    }
  }
  return found;
}

/** Rule lists whose items all read as many variables. */
export async function widthReport(reads: readonly number[], items: number, rounds: number): Promise<WidthReport> {
  const problems = reads.map((count) => ruleLists({ seed: 7, items, reads: [count, count] }));
  const [ours, bitSets] = (await Promise.all(
    [
      (at: number) => compileProblem(problems[at] as (typeof problems)[number]),
      (at: number) => new BruteForce(problems[at] as (typeof problems)[number]).all(),
    ].map(async (work) => {
      const timings = await race(
        reads.map((count, at) => ({ name: String(count), times: items, run: () => work(at) })),
        { rounds, budget: 2000, atLeast: 0 },
      );
      return reads.map((count) => (timings.get(String(count)) as Timing).warm);
    }),
  )) as [number[], number[]];
  const factor = (times: readonly number[]): number =>
    Math.exp(slope(reads.map((count, at) => [count, Math.log(times[at] as number)])));
  return { reads, ours, bitSets, factorOurs: factor(ours), factorBitSets: factor(bitSets) };
}

/**
 * x1 y1 + x2 y2 + ...: linear in the number of pairs where each x stands beside its y, exponential where all x come
 * first (R. Bryant, "Graph-based algorithms for Boolean function manipulation", 1986, section 3.1: 2n + 2 and 2^(n + 1)
 * nodes for n pairs, terminals included).
 */
export function orderReport(pairs: readonly number[]): OrderReport {
  const measured = (order: (pair: number, count: number) => readonly [number, number]) =>
    pairs.map((count) => {
      const times: number[] = [];
      let nodes = 0;
      for (let round = 0; round < 3; round += 1) {
        const start = performance.now();
        const diagrams = new Diagrams(
          Array.from({ length: 2 * count }, (_, at) => ({ id: `${at}`, size: 2, ordered: false })),
        );
        const products = Array.from({ length: count }, (_, pair) => {
          const [x, y] = order(pair, count);
          return diagrams.and(diagrams.literal(x, [1]), diagrams.literal(y, [1]));
        });
        nodes = diagrams.size(diagrams.or(...products));
        times.push(performance.now() - start);
      }
      return { nodes, milliseconds: median(times) };
    });
  const together = measured((pair) => [2 * pair, 2 * pair + 1]);
  const apart = measured((pair, count) => [pair, count + pair]);
  const points = (list: readonly { nodes: number }[]) =>
    pairs.map((count, at) => [count, list[at]?.nodes ?? 0] as const);
  return {
    pairs,
    together,
    apart,
    exponentTogether: exponentOf(points(together)),
    factorApart: Math.exp(slope(points(apart).map(([count, nodes]) => [count, Math.log(nodes)]))),
  };
}
