/** Holds what may be seen in a stage of a procedure to what is expected: all that the stage leaves open, and nothing else. */
import { type Compiled, IMPOSSIBLE, NOT_FITTED, stageForms } from '../../src/compile/index.ts';
import { type Oracle, Stages } from '../oracle/index.ts';
import type { StageEntry } from './behaviour.ts';
import { isSame, readTable } from './csv.ts';
import { behaviourCalled } from './judge-table.ts';
import { attributeCalled } from './oracle-words.ts';

export function judgeStage(compiled: Compiled, entry: StageEntry): string[] {
  const { diagrams, outcomes, fits } = compiled;
  const [procedure, stage] = entry.stage.split(' ');
  const course = compiled.procedures.find((each) => each.procedure.id === procedure);
  const here = course?.stages.find((each) => each.stage.id === stage);
  if (!here) return [`there is no stage ${entry.stage}`];
  const registrations = entry.on ?? compiled.fleet.aircraft.map(({ registration }) => registration);
  return complaintsOf(entry, (thing) => {
    const forms = stageForms(compiled, behaviourCalled(compiled, thing), here.onFits);
    return registrations.map((registration) => {
      const at = fits.findIndex(({ holders }) => holders.some((each) => each.aircraft.registration === registration));
      const found = diagrams.terminals(forms[at] as number).filter((outcome) => outcome !== IMPOSSIBLE);
      const states = found.flatMap((outcome) =>
        outcome === NOT_FITTED ? ['not fitted'] : [...outcomes.statesIn(outcome)],
      );
      return [registration, [...new Set(states)].join('/')];
    });
  });
}

export function judgeStageByOracle(oracle: Oracle, entry: StageEntry): string[] {
  const [procedure = '', stage] = entry.stage.split(' ');
  const text = oracle.content.procedures.get(procedure);
  if (!text) return [`there is no procedure ${procedure}`];
  const stages = new Stages(oracle.meaning);
  const registrations = entry.on ?? oracle.aircraft.map(({ registration }) => registration);
  return complaintsOf(entry, (thing) => {
    const [item, attribute] = attributeCalled(oracle, thing);
    return registrations.map((registration) => {
      const fit = oracle.fitOf(registration);
      const here = stages.on(fit, text).find((each) => each.stage.id === stage);
      const seen = here ? [...stages.outcomes(fit, here, item, attribute).values()] : [];
      const states = seen.flatMap(({ outcomes }) => [...outcomes].map((each) => each.replace('-fitted', ' fitted')));
      return [registration, [...new Set(states)].join('/')];
    });
  });
}

function complaintsOf({ stage, table }: StageEntry, found: (thing: string) => (readonly string[])[]): string[] {
  return readTable(table, 'state').rows.flatMap(({ cells: [thing = ''], result }) =>
    found(thing).flatMap(([registration, states = '']) =>
      isSame(result, states) ? [] : [`${thing} in ${stage} on ${registration}: ${states}, not ${result}`],
    ),
  );
}
