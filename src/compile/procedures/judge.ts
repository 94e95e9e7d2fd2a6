/** Procedures are judged: positions that aircraft have, stages that can happen, claims that hold in them. */
import type { Expression } from '../../language/index.ts';
import type { Node } from '../../logic/index.ts';
import type { Claim, Procedure, Stage } from '../../model/index.ts';
import type { Surroundings } from '../behaviour.ts';
import { effectivityText } from '../effectivity.ts';
import { reportUnguarded } from '../guards.ts';
import { plainest } from '../plainest.ts';
import { positionsOf } from '../positions.ts';
import { optionLevels } from '../space.ts';
import { caseTitle } from '../words.ts';
import { conflict } from './conflict.ts';
import { courseOn, type StageCases, wantedOn } from './course.ts';
import type { Ground } from './ground.ts';

/** A procedure over the whole fleet. */
export interface ProcedureCourse {
  readonly procedure: Procedure;
  readonly stages: readonly {
    readonly stage: Stage;
    /** Parallel to the settled fits. */
    readonly onFits: readonly StageCases[];
  }[];
}

/** Follows every procedure on every fit and reports what goes wrong in it. */
export function judgeProcedures(ground: Ground, around: Surroundings): ProcedureCourse[] {
  return ground.fleet.procedures.map((procedure) => {
    const lacking = judgePositions(procedure, around);
    const courses = ground.settled.map((fit) => courseOn(ground, procedure, fit));
    const stages = procedure.stages.map((stage, at) => ({
      stage,
      onFits: courses.map((course) => course[at] as StageCases),
    }));
    stages.forEach(({ stage, onFits }, at) => {
      const before = stages[at - 1];
      // What a stage claims may hang on the positions that it wants in vain.
      judgeStage(ground, lacking ? { ...stage, claims: [] } : stage, onFits, around);
      if (before && changesNothing(before.onFits, onFits)) {
        around.diagnostics.report('SL465', { stage: stage.title, before: before.stage.title }, stage.place);
      }
    });
    return { procedure, stages };
  });
}

/** Positions that some aircraft lack, and those that none comes to. Says whether one is lacking. */
function judgePositions({ stages }: Procedure, { fleet, fits, diagnostics }: Surroundings): boolean {
  let found = false;
  for (const { positions } of stages) {
    for (const { control: id, wanted } of positions) {
      const control = fleet.controls.find((each) => each.id === id);
      if (!control) throw new Error(`no control is called ${id}`);
      const indices = new Map(fits.map((fit) => [fit, positionsOf(control, fit)]));
      for (const each of wanted) {
        const there = fits.filter((fit) => wantedOn(wanted, fit) === each);
        const lacking = there.filter(
          (fit) => !indices.get(fit)?.some((index) => control.positions[index]?.id === each.position),
        );
        const facts = { control: control.title, position: each.position };
        if (there.length === 0) diagnostics.report('SL461', facts, each.place);
        // Those that have the control first: without it there is no position to speak of.
        for (const fitted of [true, false]) {
          const some = lacking.filter((fit) => (indices.get(fit)?.length ?? 0) > 0 === fitted);
          if (some.length === 0) continue;
          found = true;
          const aircraft = effectivityText(
            fleet,
            some.flatMap((fit) => fit.aircraft),
          );
          diagnostics.report('SL460', { ...facts, fitted, aircraft }, each.place);
        }
      }
    }
  }
  return found;
}

function judgeStage(ground: Ground, stage: Stage, onFits: readonly StageCases[], around: Surroundings): void {
  const { diagrams, fleet, fits, diagnostics } = around;
  const lost = fits.filter((fit) => onFits[fit.index]?.cases === diagrams.no);
  const [first] = lost;
  if (first) {
    const aircraft = effectivityText(
      fleet,
      lost.flatMap((fit) => fit.aircraft),
    );
    const { facts, never } = conflict(ground, first, onFits[first.index] as StageCases);
    const related = never.map(({ place }) => ({ place, label: 'this never happens' }));
    diagnostics.report('SL462', { stage: stage.title, aircraft, facts }, stage.place, related);
    return;
  }
  for (const claim of stage.claims) {
    if (!reportUnguarded(claim.expression, fits, around)) judgeClaim(stage, claim, onFits, around);
  }
}

function judgeClaim(stage: Stage, claim: Claim, onFits: readonly StageCases[], around: Surroundings): void {
  const { diagrams, space, fleet, fits, diagnostics } = around;
  const against = casesWhere(diagrams.not(around.expressions.compile(claim.expression)), onFits, around);
  const failing = fits.filter((fit) => against[fit.index] !== diagrams.no);
  const [first] = failing;
  if (first) {
    const { facts, cases } = onFits[first.index] as StageCases;
    const bad = against[first.index] as Node;
    const possible = diagrams.exists(
      cases,
      diagrams.support(cases).filter((level) => !diagrams.support(bad).includes(level)),
    );
    const open = plainest(diagrams, space, bad, possible);
    const read = new Set(diagrams.support(around.expressions.compile(claim.expression)));
    const certain = [...facts].filter(([level]) => read.has(level));
    const words = caseTitle(space, new Map([...certain, ...open]), [first]);
    const aircraft = effectivityText(
      fleet,
      failing.flatMap((fit) => fit.aircraft),
    );
    diagnostics.report('SL463', { sentence: claim.sentence, stage: stage.title, case: words, aircraft }, claim.place);
    return;
  }
  const premise = premiseOf(claim.expression);
  const met = premise && casesWhere(around.expressions.compile(premise), onFits, around);
  if (premise && met?.every((node) => node === diagrams.no)) {
    diagnostics.report('SL464', { sentence: claim.sentence, stage: stage.title }, premise.place);
  }
}

function premiseOf(expression: Expression): Expression | undefined {
  return expression.op === 'implies' ? expression.premise : undefined;
}

/** The cases of a stage in which a Boolean diagram holds, for each settled fit. */
function casesWhere(node: Node, onFits: readonly StageCases[], { diagrams, space, fits }: Surroundings): Node[] {
  return fits.map((fit) => {
    const { facts, cases } = onFits[fit.index] as StageCases;
    return diagrams.and(diagrams.restrictAll(node, new Map([...optionLevels(space, fit), ...facts])), cases);
  });
}

/** Whether a stage asks for nothing that the stage before did not have, on no fit. */
function changesNothing(before: readonly StageCases[], after: readonly StageCases[]): boolean {
  return after.every(({ values, positions, modes }, at) => {
    if (modes.size > 0 || positions.some(({ back }) => back !== undefined)) return false;
    return [...values].every(([level, some]) => String(some) === String(before[at]?.values.get(level)));
  });
}
