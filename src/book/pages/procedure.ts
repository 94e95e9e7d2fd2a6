/** A procedure stage by stage, and what of it stands on the pages of controls and items. */
import type { Compiled, ProcedureCourse } from '../../compile/index.ts';
import type { Control, Item, Procedure } from '../../model/index.ts';
import { controlAddress, itemAddress, PROCEDURES, procedureAddress } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { LitView, ProcedurePage, ProceduresPage, StageView, StandView, UseView } from '../book-procedures.ts';
import { citations, definedBase } from '../links.ts';
import { drawingsIn, lightNumbers } from '../procedures/drawings.ts';
import { factsOf } from '../procedures/facts.ts';
import { litIn, phasesOf, type Thing, thingsIn } from '../procedures/lit.ts';
import { standsOf } from '../procedures/stands.ts';
import { trailTo } from '../trail.ts';

export function proceduresPage({ fleet }: Compiled): ProceduresPage {
  return {
    kind: 'procedures',
    address: PROCEDURES,
    title: 'Procedures',
    trail: trailTo(),
    procedures: fleet.procedures.map(listedProcedure),
  };
}

export function listedProcedure(procedure: Procedure): Listed {
  const { length } = procedure.stages;
  return {
    to: procedureAddress(procedure),
    title: procedure.title,
    detail: `${length} ${length === 1 ? 'stage' : 'stages'}`,
  };
}

/** A procedure as its own page shows it, and each stage by itself: where controls are wanted and what is lit. */
export interface ProcedureView {
  readonly page: ProcedurePage;
  readonly wanted: readonly (readonly StandView[])[];
  readonly lit: readonly (readonly LitView[])[];
}

/** All procedures, made once: the pages of controls and items take from them. */
export function procedureViews(compiled: Compiled): ProcedureView[] {
  return compiled.procedures.map((course) => {
    const things = thingsIn(compiled, course.stages);
    return {
      page: procedurePage(compiled, course, things),
      wanted: course.stages.map((stage) => wantedOf(standsOf(compiled, stage, undefined))),
      lit: course.stages.map((_, at) => litIn(compiled, things, at, false)),
    };
  });
}

function procedurePage(
  compiled: Compiled,
  { procedure, stages }: ProcedureCourse,
  things: readonly Thing[],
): ProcedurePage {
  const { fleet } = compiled;
  const numbers = lightNumbers(things);
  return {
    kind: 'procedure',
    address: procedureAddress(procedure),
    title: procedure.title,
    trail: trailTo(),
    ...definedBase(fleet, procedure),
    citations: citations(fleet, [procedure]),
    stages: stages.map((course, at): StageView => {
      const { stage } = course;
      const stands = standsOf(compiled, course, stages[at - 1]);
      const [citation] = citations(fleet, [stage]);
      return {
        id: `stage-${stage.id}`,
        number: at + 1,
        title: stage.title,
        ...(stage.about === undefined ? {} : { about: stage.about }),
        ...factsOf(compiled, stages, at),
        wanted: wantedOf(stands),
        others: stands.filter(({ wanted }) => !wanted).map(({ wanted: _, ...stand }) => stand),
        lit: litIn(compiled, things, at, true, numbers),
        drawings: drawingsIn(compiled, things, numbers, at),
        claims: stage.claims.map(({ sentence }) => sentence),
        ...(citation ? { citation: citation.text } : {}),
      };
    }),
    phases: phasesOf(things, stages.length),
  };
}

function wantedOf(stands: ReturnType<typeof standsOf>): StandView[] {
  return stands.filter(({ wanted }) => wanted).map(({ wanted: _, ...stand }) => stand);
}

/** Where a control should stand, in the stages that say so. */
export function useOfControl(views: readonly ProcedureView[], control: Control): UseView[] {
  const to = controlAddress(control);
  return usesIn(views, (wanted) => ({ stands: wanted.filter((each) => each.control.to === to), lit: [] }));
}

/** The stages in which an item is lit; those in a row in which it is the same stand together. */
export function useOfItem(views: readonly ProcedureView[], item: Item): UseView[] {
  const to = itemAddress(item);
  const uses = usesIn(views, (_, lit) => ({
    stands: [],
    lit: lit.filter((each) => each.item.to === to),
  }));
  return uses.map((use) => ({ ...use, stages: joined(use.stages) }));
}

type UseStage = UseView['stages'][number] & { readonly number: number };

/** Stages that follow each other with the same things lit. */
function joined(stages: readonly UseStage[]): UseStage[] {
  const said = ({ lit }: UseStage): string => JSON.stringify(lit);
  return stages.reduce<UseStage[]>((list, stage) => {
    const last = list.at(-1);
    if (!last || last.number + 1 !== stage.number || said(last) !== said(stage)) return [...list, stage];
    return [...list.slice(0, -1), { ...last, until: stage.stage, number: stage.number }];
  }, []);
}

function usesIn(
  views: readonly ProcedureView[],
  of: (wanted: readonly StandView[], lit: readonly LitView[]) => Pick<UseStage, 'stands' | 'lit'>,
): { readonly procedure: Listed; readonly stages: readonly UseStage[] }[] {
  return views.flatMap(({ page, wanted, lit }) => {
    const stages = page.stages.flatMap((stage, at): UseStage[] => {
      const found = of(wanted[at] ?? [], lit[at] ?? []);
      if (found.stands.length + found.lit.length === 0) return [];
      const title = `${stage.number} ${stage.title}`;
      return [{ stage: { to: page.address, anchor: stage.id, title }, number: stage.number, ...found }];
    });
    return stages.length > 0 ? [{ procedure: { to: page.address, title: page.title }, stages }] : [];
  });
}
