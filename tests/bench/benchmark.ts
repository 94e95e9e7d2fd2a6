/** The families, how much is done with each, and what is aimed at. */
import { cpus } from 'node:os';
import type { ScaleParameters } from '../compile/scale-content.ts';
import { SCALE, scaleContent } from '../compile/scale-family.ts';
import { ruleLists } from './families.ts';
import { type Effort, familyReport } from './family-figures.ts';
import { fleetGrowth, orderReport, widthReport } from './growth.ts';
import { type Aim, aim, type FamilyReport, type Report } from './report.ts';
import { startProver } from './solver.ts';
import { fleetSubject, ruleListSubject, type Subject } from './subject.ts';

export interface Plan {
  readonly mode: string;
  readonly effort: Effort;
  /** Items of each family of rule lists. */
  readonly items: number;
  /** By name, the fleets. */
  readonly fleets: Readonly<Record<string, Partial<ScaleParameters>>>;
  readonly growth: {
    readonly base: ScaleParameters;
    readonly points: Parameters<typeof fleetGrowth>[1];
    readonly rounds: number;
  };
  readonly width: { readonly reads: readonly number[]; readonly items: number; readonly rounds: number };
  readonly pairs: readonly number[];
}

/** Without detectors, which brute force and the solver are not taught. */
const FLEET: ScaleParameters = { ...SCALE, detectors: 0 };

export const FULL: Plan = {
  mode: 'full',
  effort: { rounds: 15, budget: 1500, atLeast: 50, samples: 300, tabled: 200, caseByCase: true },
  items: 200,
  fleets: { fleet: { items: 200 }, 'large fleet': {} },
  growth: {
    base: { ...FLEET, items: 200 },
    points: {
      options: [15, 30, 60, 120],
      conditions: [50, 100, 200, 400],
      items: [100, 200, 400, 800],
      aircraft: [12, 24, 48, 96],
    },
    rounds: 4,
  },
  width: { reads: [2, 4, 6, 8, 10, 12], items: 40, rounds: 4 },
  pairs: [4, 6, 8, 10, 12, 14],
};

export const QUICK: Plan = {
  mode: 'quick',
  effort: { rounds: 9, budget: 300, atLeast: 20, samples: 60, tabled: 20, caseByCase: true },
  items: 200,
  fleets: { fleet: { items: 200 } },
  growth: {
    base: { ...FLEET, items: 100 },
    points: { options: [15, 30, 60], conditions: [50, 100, 200], items: [50, 100, 200], aircraft: [12, 24, 48] },
    rounds: 2,
  },
  width: { reads: [4, 6, 8, 10], items: 20, rounds: 2 },
  pairs: [4, 6, 8, 10],
};

const SMALL = { items: 8, options: 6, conditions: 24, controls: 10, aircraft: 6, nevers: 2, support: 6, seed: 1 };

/** Of everything a little: to see whether it works. */
export const SMALLEST: Plan = {
  mode: 'smallest',
  effort: { rounds: 2, budget: 0, atLeast: 0, samples: 3, tabled: 3, caseByCase: true },
  items: 6,
  fleets: { fleet: SMALL },
  growth: {
    base: { ...FLEET, ...SMALL },
    points: { options: [4, 6], conditions: [20, 24], items: [8, 12], aircraft: [4, 6] },
    rounds: 1,
  },
  width: { reads: [2, 4], items: 3, rounds: 1 },
  pairs: [2, 3],
};

export async function benchmark(plan: Plan, say: (line: string) => void): Promise<Report> {
  const start = performance.now();
  const families: FamilyReport[] = [];
  for (const { subject, effort } of subjectsOf(plan)) {
    say(`family "${subject.name}" ...`);
    const { prover, end } = await startProver(subject.problem);
    try {
      families.push(await familyReport(subject, prover, effort));
    } finally {
      await end();
    }
  }
  say('growth ...');
  const width = await widthReport(plan.width.reads, plan.width.items, plan.width.rounds);
  const growth = await fleetGrowth(plan.growth.base, plan.growth.points, plan.growth.rounds);
  const order = orderReport(plan.pairs);
  const { model = 'an unknown processor' } = cpus()[0] ?? {};
  return {
    mode: plan.mode,
    machine: `Node ${process.version}, ${cpus().length} x ${model.trim()}`,
    seconds: (performance.now() - start) / 1000,
    families,
    aims: aimsOf(families),
    width,
    growth,
    order,
  };
}

function* subjectsOf({ items, effort, fleets }: Plan): Generator<{ subject: Subject; effort: Effort }> {
  const mixed = ruleLists({ seed: 1, items, reads: [2, 8] });
  yield { subject: ruleListSubject('mixed', 'rule lists that read 2 to 8 variables', mixed), effort };
  const eight = ruleLists({ seed: 2, items, reads: [8, 8] });
  yield { subject: ruleListSubject('eight', 'rule lists that read 8 variables', eight), effort };
  for (const [name, parameters] of Object.entries(fleets)) {
    const content = scaleContent({ ...FLEET, ...parameters });
    const subject = fleetSubject(name, 'a content with options, controls and overrides, compiled and judged', content);
    yield { subject, effort: { ...effort, caseByCase: false } };
  }
}

function aimsOf(families: readonly FamilyReport[]): Aim[] {
  return families.flatMap(({ name, items, figures, packed }) => {
    const of = (work: string) => figures.filter((each) => each.work.startsWith(work));
    const warm = (work: string) => of(work)[0]?.warm ?? Number.NaN;
    const times = (what: string, least: number, work: string): Aim[] =>
      of(work)
        .filter(({ ratio }) => ratio !== 1)
        .map(({ by, ratio }) => aim(`${what}, against ${by}`, name, 'at least', least, ratio, 'x'));
    const isContent = name.includes('fleet');
    return [
      ...times('diagrams of all items', name === 'eight' ? 100 : 50, 'diagrams of all items'),
      ...times('comparison of forms', 1000, 'the same from the rules').slice(0, 1),
      ...times('comparison of forms', 2000, 'the same from the rules').slice(1),
      aim('tables of an item', name, 'at most', 1, warm('tables of an item'), 'ms'),
      ...(items === 200 ? [aim('evaluation of all items', name, 'at most', 15, 1000 * warm('evaluate'), 'us')] : []),
      ...(items === 200 && isContent
        ? [aim('all items packed, brotli', name, 'at most', 5000, packed.brotli, 'bytes')]
        : []),
    ];
  });
}
