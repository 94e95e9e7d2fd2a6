/** Holds the stages of procedures, as the program works them out, to the oracle's own reading of the guide. */
import {
  absentValue,
  type Compiled,
  IMPOSSIBLE,
  type Meaning,
  NOT_FITTED,
  stageForms,
  valueIds,
} from '../../src/compile/index.ts';
import { type Case, type Oracle, Stages } from '../oracle/index.ts';
import { positionValue } from '../random/both.ts';

export interface Compared {
  /** What is not the same, in words; none where all is well. */
  readonly faults: readonly string[];
  /** Cases that were compared, and those that the stage leaves open between several. */
  readonly cases: number;
  readonly open: number;
  /** Stages that cannot happen on some fit. */
  readonly impossible: number;
}

/** `wants` picks what is compared: all of it where it always says yes. */
export function compareStages(
  compiled: Compiled,
  oracle: Oracle,
  wants: (what: { readonly fit: number; readonly stage: string; readonly item: string }) => boolean = () => true,
): Compared {
  const { diagrams, outcomes, settled, fits } = compiled;
  const stages = new Stages(oracle.meaning);
  const faults: string[] = [];
  let [cases, open, impossible] = [0, 0, 0];
  for (const { procedure, stages: course } of compiled.procedures) {
    const text = oracle.content.procedures.get(procedure.id);
    if (!text) throw new Error(`the oracle does not know ${procedure.id}`);
    for (const fit of settled) {
      const single = fits.find((each) => each.settled.length === 1 && each.settled[0] === fit);
      const theirs = oracle.fits
        .flatMap((each) => oracle.candidates(each))
        .find((each) => optionsOf(each) === [...fit.options.values()].join('/'));
      if (!theirs || !single) continue;
      const worlds = stages.on(theirs, text);
      for (const [at, { stage, onFits }] of course.entries()) {
        const here = worlds[at] as (typeof worlds)[number];
        const mine = onFits[fit.index] as (typeof onFits)[number];
        const where = `${stage.id} on ${theirs.id}`;
        if (mine.cases === diagrams.no) impossible += 1;
        // The oracle does not ask whether a mode that is wanted can be reached.
        if (mine.cases === diagrams.no && mine.modes.size > 0) break;
        if ((mine.cases === diagrams.no) !== (here.worlds.length === 0)) {
          faults.push(`${where} ${mine.cases === diagrams.no ? 'cannot' : 'can'} happen`);
          break;
        }
        // What follows a stage that cannot be is nobody's business.
        if (mine.cases === diagrams.no) break;
        for (const behaviour of compiled.behaviours) {
          const { item, attribute } = behaviour;
          if (!wants({ fit: fit.index, stage: stage.id, item: item.id })) continue;
          const form = stageForms(compiled, behaviour, onFits)[single.index] as number;
          const seen = stages.outcomes(theirs, here, item.id, attribute.id);
          for (const { given, outcomes: expected } of seen.values()) {
            cases += 1;
            if (seen.size > 1) open += 1;
            const support = diagrams.support(form);
            const outcome = diagrams.valueOf(diagrams.restrictAll(form, levelsOf(compiled, support, given)));
            const said = outcome === undefined ? 'left open' : wordsOf(outcome);
            const wanted = [...expected].map((each) => (each.startsWith('{') ? 'not stated' : each)).sort();
            const unstated = wanted.includes('not stated') ? 'not stated' : wanted.join(' or ');
            if (said !== unstated)
              faults.push(`${item.id}.${attribute.id} in ${where}, ${JSON.stringify(given)}: ${said}, not ${unstated}`);
          }
        }
      }
    }
  }
  return { faults, cases, open, impossible };

  function wordsOf(outcome: number): string {
    if (outcome === NOT_FITTED) return 'not-fitted';
    if (outcome === IMPOSSIBLE) return 'impossible';
    if (outcomes.meaning(outcome).kind === 'not stated') return 'not stated';
    return [...outcomes.statesIn(outcome)].sort().join(' or ');
  }
}

/** The diagram's values of a case; what a case does not name is not fitted. */
function levelsOf({ space }: Compiled, levels: readonly number[], given: Case): Map<number, number> {
  return new Map(
    levels.map((level) => [level, valueIn(space.meanings[level] as Meaning, given, space.variables[level]?.id ?? '')]),
  );
}

function valueIn(meaning: Meaning, given: Case, id: string): number {
  if (meaning.kind === 'control') {
    const fitted = meaning.controls.find((each) => given[each.id] !== undefined);
    return fitted ? positionValue(meaning, fitted.id, given[fitted.id] as string) : absentValue(meaning);
  }
  const written = given[id];
  if (meaning.kind === 'sequence' && written === undefined) return absentValue(meaning);
  if (meaning.kind !== 'number') return valueIds(meaning).indexOf(written ?? '');
  const { from, step } = meaning.condition.number ?? { from: '0', step: '1' };
  const at = BigInt(Math.round((Number(written) - Number(from)) / Number(step)));
  return meaning.cells.findIndex(({ first, last }) => first <= at && at <= last);
}

function optionsOf({ options }: { readonly options: Readonly<Record<string, string>> }): string {
  return Object.values(options).join('/');
}
