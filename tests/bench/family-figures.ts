/** Everything that is measured on one family; what the ways to do it answer is compared before any of it is believed. */
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { Diagrams, loadPacked, pack, type StateTable, unpack } from '../../src/logic/index.ts';
import { chooser, random } from '../compile/random-numbers.ts';
import { areAlike, type BitForm, BruteForce } from './brute-force.ts';
import { type Contender, mean, median, type Pace, race, type Timing } from './measure.ts';
import { compileItems, compileProblem } from './ours.ts';
import { type Item, interpreterOf, type Problem, possibleCase } from './problem.ts';
import type { FamilyReport, Figure } from './report.ts';
import type { Prover, Told } from './solver.ts';
import type { Made, Subject } from './subject.ts';
import { truthTables, truthTablesOfItems } from './truth-tables.ts';

export interface Effort extends Pace {
  /** Comparisons and difference tables that are made one by one. */
  readonly samples: number;
  /** Of so many items tables are made. */
  readonly tabled: number;
  /** Whether truth tables are made case by case too: only for items that read few variables. */
  readonly caseByCase: boolean;
}

const OURS = 'diagrams';
const CASES = 64;

interface Pair {
  readonly item: number;
  readonly a: number;
  readonly b: number;
}

export async function familyReport(subject: Subject, prover: Prover, effort: Effort): Promise<FamilyReport> {
  const { problem } = subject;
  const items = await race(
    [
      { name: OURS, run: () => compileItems(problem) },
      { name: 'bit sets', run: () => new BruteForce(problem).items() },
      ...(effort.caseByCase ? [{ name: 'truth tables', run: () => truthTablesOfItems(problem) }] : []),
    ],
    effort,
  );
  const { made, bits, forms } = await normalForms(subject, effort);
  const pairs = allPairs(problem);
  checkComparisons(made, bits, pairs);
  const compare = await race(
    [
      { name: OURS, times: pairs.length, run: () => countAlike(made, pairs) },
      {
        name: 'bit sets, kept',
        times: pairs.length,
        run: () => pairs.filter(({ item, a, b }) => areAlike(formAt(bits, item, a), formAt(bits, item, b))).length,
      },
    ],
    effort,
  );
  const ours = compare.get(OURS) as Timing;
  const alone = await comparisonsAlone(problem, prover, bits, pairs, effort);
  const withMaking = new Map([
    [OURS, shared(forms.get(OURS), pairs.length, ours)],
    ['bit sets', shared(forms.get('bit sets'), pairs.length, compare.get('bit sets, kept'))],
  ]);
  const tables = await tableFigures(subject, effort);
  const differences = differenceFigure(made, pairs, effort);
  const evaluation = await evaluationFigures(made, problem, effort);
  const supports = made.nodes.map((node) => made.diagrams.support(node).length);
  return {
    name: subject.name,
    about: subject.about,
    items: problem.items.length,
    fits: problem.fits.length,
    variables: problem.variables.length,
    meanSupport: mean(supports),
    largestSupport: Math.max(...supports),
    ...tables.shape,
    figures: [
      ...figures('diagrams of all items', items),
      ...figures('normal forms on all fits', forms),
      ...figures('compare an item on two fits', compare),
      ...figures('the same from the rules', alone, ours),
      ...figures('all comparisons, forms made for them, each', withMaking),
      ...figures('tables of an item', tables.timings),
      ...(differences ? figures('difference table of two unlike fits', new Map([[OURS, differences]])) : []),
      ...figures('evaluate all items for one case', evaluation),
    ],
    packed: packedFigures(made),
  };
}

/** The forms by everybody, and those that were made last. */
async function normalForms(
  { problem, isFleet, compile }: Subject,
  { caseByCase, ...pace }: Effort,
): Promise<{ made: Made; bits: BitForm[][]; forms: Map<string, Timing> }> {
  let made = undefined as Made | undefined;
  let bits: BitForm[][] = [];
  const compileAll = (): void => {
    made = compile();
  };
  const forms = await race(
    [
      { name: OURS, run: isFleet ? () => compileProblem(problem) : compileAll },
      ...(isFleet ? [{ name: 'compileFleet, which judges too', run: compileAll }] : []),
      {
        name: 'bit sets',
        run: () => {
          bits = new BruteForce(problem).all();
        },
      },
      ...(caseByCase ? [{ name: 'truth tables', run: () => truthTables(problem) }] : []),
    ],
    pace,
  );
  if (!made) throw new Error('nothing was compiled');
  return { made, bits, forms };
}

/** What one comparison costs when all of them share the making of the forms. */
function shared(making: Timing | undefined, comparisons: number, comparing: Timing | undefined): Timing {
  if (!making || !comparing) throw new Error('not measured');
  return {
    cold: making.cold / comparisons + comparing.cold,
    warm: making.warm / comparisons + comparing.warm,
    runs: making.runs,
  };
}

function figures(work: string, timings: ReadonlyMap<string, Timing>, unit = [...timings.values()][0]): Figure[] {
  return [...timings].map(([by, { cold, warm }]) => ({ work, by, cold, warm, ratio: warm / (unit?.warm ?? warm) }));
}

function allPairs(problem: Problem): Pair[] {
  return problem.items.flatMap((_, item) =>
    problem.fits.flatMap((_fit, a) => Array.from({ length: a }, (_other, b) => ({ item, a, b }))),
  );
}

function formAt(bits: readonly (readonly BitForm[])[], item: number, fit: number): BitForm {
  return bits[item]?.[fit] as BitForm;
}

function countAlike({ forms }: Made, pairs: readonly Pair[]): number {
  let alike = 0;
  for (const { item, a, b } of pairs) if (forms[item]?.[a] === forms[item]?.[b]) alike += 1;
  return alike;
}

function checkComparisons({ forms }: Made, bits: readonly (readonly BitForm[])[], pairs: readonly Pair[]): void {
  for (const { item, a, b } of pairs) {
    const alike = forms[item]?.[a] === forms[item]?.[b];
    if (alike !== areAlike(formAt(bits, item, a), formAt(bits, item, b))) {
      throw new Error(`item ${item} is compared wrongly on the fits ${a} and ${b}`);
    }
  }
}

/** Single comparisons that start from the rules: by bit sets, and by a solver whose formulas are there already. */
async function comparisonsAlone(
  problem: Problem,
  prover: Prover,
  bits: readonly (readonly BitForm[])[],
  pairs: readonly Pair[],
  { samples }: Effort,
): Promise<Map<string, Timing>> {
  const { pick } = chooser(random(1));
  const sample = Array.from({ length: samples }, () => pick(pairs));
  const brute = new BruteForce(problem);
  const [byBits, bySolver]: [number[], number[]] = [[], []];
  for (const { item, a, b } of sample) {
    const rules = problem.items[item] as Item;
    let start = performance.now();
    const [here, there] = brute.forms(rules, [a, b]) as [BitForm, BitForm];
    const alike = areAlike(here, there);
    byBits.push(performance.now() - start);
    const told = [a, b].map((fit) => prover.tell(rules, fit)) as [Told, Told];
    start = performance.now();
    const differ = await prover.differ(...told);
    bySolver.push(performance.now() - start);
    // Between two fits alone, what matters on neither is projected away, so that they may be alike where all fits' forms aren't.
    const kept = areAlike(formAt(bits, item, a), formAt(bits, item, b));
    if ((kept && !alike) || (alike && differ)) {
      throw new Error(`item ${item} is compared wrongly on the fits ${a} and ${b}`);
    }
  }
  const timing = (all: readonly number[]): Timing => ({
    cold: all[0] as number,
    warm: mean(all.slice(1)),
    runs: all.length,
  });
  return new Map([
    ['bit sets', timing(byBits)],
    ['z3-solver, push and pop', timing(bySolver)],
  ]);
}

/** What the tables of a family are like. Of the times of its items, in the last run, the middle one and the longest. */
type TableShape = Pick<FamilyReport, 'tablesPerItem' | 'meanRows' | 'medianTables' | 'longestTables'>;

async function tableFigures(
  subject: Subject,
  { tabled, ...pace }: Effort,
): Promise<{ timings: Map<string, Timing>; shape: TableShape }> {
  const items = subject.problem.items.slice(0, tabled);
  let made = subject.compile();
  let all: (readonly StateTable[])[] = [];
  let times: number[] = [];
  const run: Contender = {
    name: OURS,
    times: items.length,
    prepare: () => {
      made = subject.compile();
      times = [];
    },
    run: () => {
      all = items.map((_, item) => {
        const start = performance.now();
        const tables = made.tables(item);
        times.push(performance.now() - start);
        return tables;
      });
    },
  };
  const timings = await race([run], pace);
  const rows = all.flat().map((table) => table.rows.length);
  return {
    timings,
    shape: {
      tablesPerItem: all.flat().length / items.length,
      meanRows: mean(rows),
      medianTables: median(times),
      longestTables: Math.max(...times),
    },
  };
}

function differenceFigure(made: Made, pairs: readonly Pair[], { samples }: Effort): Timing | undefined {
  const table = made.difference;
  const unlike = pairs.filter(({ item, a, b }) => made.forms[item]?.[a] !== made.forms[item]?.[b]);
  if (!table || unlike.length === 0) return undefined;
  const { pick } = chooser(random(2));
  const times = Array.from({ length: samples }, () => {
    const { item, a, b } = pick(unlike);
    const start = performance.now();
    table(item, a, b);
    return performance.now() - start;
  });
  return { cold: times[0] as number, warm: mean(times.slice(1)), runs: samples };
}

async function evaluationFigures(made: Made, problem: Problem, pace: Effort): Promise<Map<string, Timing>> {
  const { below } = chooser(random(3));
  const cases = Array.from({ length: CASES }, () => possibleCase(problem, below(problem.fits.length), below));
  const values = cases.map((each) => Int32Array.from(made.values(each)));
  const evaluator = unpack(pack(made.diagrams, made.nodes));
  const interpret = interpreterOf(problem);
  for (const [at, each] of cases.entries()) {
    const found = [...evaluator.evaluate(values[at] as Int32Array)].map(made.outcome);
    if (found.join() !== interpret(each).join()) throw new Error(`case ${at} is evaluated wrongly`);
  }
  const over = (name: string, passes: number, evaluate: (at: number) => unknown): Contender => ({
    name,
    times: passes * CASES,
    run: () => {
      for (let pass = 0; pass < passes; pass += 1) for (let at = 0; at < CASES; at += 1) evaluate(at);
    },
  });
  return race(
    [
      over('packed diagrams', 100, (at) => evaluator.evaluate(values[at] as Int32Array)),
      over('diagrams one by one', 10, (at) =>
        made.nodes.map((node) => made.diagrams.evaluate(node, values[at] as Int32Array)),
      ),
      over('interpreting the rules', 10, (at) => interpret(cases[at] as number[])),
    ],
    { ...pace, rounds: Math.max(5, pace.rounds) },
  );
}

function packedFigures({ diagrams, nodes }: Made): FamilyReport['packed'] {
  const text = JSON.stringify(pack(diagrams, nodes));
  const timed = (work: () => unknown): number =>
    median(
      Array.from({ length: 5 }, () => {
        const start = performance.now();
        work();
        return performance.now() - start;
      }),
    );
  const target = (): Diagrams => new Diagrams(diagrams.variables, { order: diagrams.order });
  if (JSON.stringify(pack(diagrams, loadPacked(diagrams, JSON.parse(text)))) !== text) {
    throw new Error('packed diagrams are not the same again');
  }
  const inner = new Set<number>(nodes);
  for (const node of inner) {
    const size = diagrams.valueOf(node) === undefined ? (diagrams.variables[diagrams.level(node)]?.size as number) : 0;
    for (let value = 0; value < size; value += 1) inner.add(diagrams.child(node, value));
  }
  return {
    nodes: inner.size,
    bytes: text.length,
    gzip: gzipSync(text, { level: 9 }).length,
    brotli: brotliCompressSync(text).length,
    pack: timed(() => pack(diagrams, nodes)),
    unpack: timed(() => unpack(JSON.parse(text))),
    load: timed(() => loadPacked(target(), JSON.parse(text))),
  };
}
