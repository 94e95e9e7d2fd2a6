/** Where controls stand in a stage. */
import type { Compiled, Fit, ProcedureCourse, StageCases, StagePosition } from '../../compile/index.ts';
import type { Control } from '../../model/index.ts';
import type { Inline } from '../book.ts';
import type { StandView } from '../book-procedures.ts';
import { separate } from '../cells.ts';
import { effectivityOf } from '../effectivity.ts';
import { listedControl } from '../links.ts';
import { positionLegend } from '../positions.ts';

export type CourseStage = ProcedureCourse['stages'][number];

/** The same stage on each settled way that a fit may be. */
export function onFit({ onFits }: CourseStage, fit: Fit): StageCases[] {
  return fit.settled.map(({ index }) => onFits[index] as StageCases);
}

interface Stand {
  readonly position: readonly Inline[];
  readonly back?: readonly Inline[];
  readonly says?: string;
  readonly again: boolean;
  readonly wanted: boolean;
}

/** Every control in a stage; aircraft on which the same is to be said of it stand together. */
export function standsOf(
  compiled: Compiled,
  stage: CourseStage,
  before: CourseStage | undefined,
): (StandView & { wanted: boolean })[] {
  return compiled.fleet.controls.flatMap((control) => {
    const stands = compiled.fits.flatMap((fit) => {
      const stand = standOn(control, fit, stage, before);
      return stand ? [{ fit, stand }] : [];
    });
    return [...Map.groupBy(stands, ({ stand }) => JSON.stringify(stand)).values()].map((alike) => ({
      control: listedControl(control),
      ...(alike[0] as (typeof alike)[number]).stand,
      effectivity: effectivityOf(
        compiled,
        alike.map(({ fit }) => fit),
      ),
      everywhere: alike.length === stands.length,
    }));
  });
}

/** Undefined where the control is not fitted, whatever the fit may be. */
function standOn(control: Control, fit: Fit, stage: CourseStage, before: CourseStage | undefined): Stand | undefined {
  const of = (cases: StageCases | undefined): StagePosition | undefined =>
    cases?.positions.find((each) => each.control === control);
  const here = onFit(stage, fit).map(of);
  const then = before ? onFit(before, fit).map(of) : [];
  const some = here.filter((each) => each !== undefined);
  const [first] = some;
  if (!first) return undefined;
  const legends = (indices: readonly number[]): Inline[] =>
    separate(
      [...new Set(indices)].flatMap((index) => {
        const position = control.positions[index];
        return position ? [positionLegend(position, fit.settled)] : [];
      }),
    );
  const backs = some.flatMap(({ back }) => back ?? []);
  const stood = then.map((each) => each?.back ?? each?.position);
  return {
    position: legends(some.map(({ position }) => position)),
    ...(backs.length > 0 ? { back: legends(backs) } : {}),
    ...(first.wanted?.says === undefined ? {} : { says: first.wanted.says }),
    again: before !== undefined && backs.length === 0 && here.every((each, at) => each?.position === stood[at]),
    wanted: some.some(({ wanted }) => wanted !== undefined),
  };
}
