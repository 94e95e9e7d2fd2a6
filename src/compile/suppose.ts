/** A fit that no aircraft has: compiled and judged as those of the fleet are, so that it can be compared with them. */
import { Diagnostics, severityOf } from '../diagnostics/index.ts';
import { LimitError, type Node } from '../logic/index.ts';
import { type Item, UNKNOWN } from '../model/index.ts';
import { judgeRules, type Surroundings } from './behaviour.ts';
import { inputConstraints } from './care.ts';
import { type Compiled, modeReaders, reportEmpty, reportUnguardedReads } from './compile.ts';
import { candidates, type Fit, SETTLED_LIMIT, type SettledFit } from './fits.ts';
import { onFit } from './forms.ts';
import { type Behaviour, formOfFit, normalForm, ownLevels } from './groups.ts';
import { TooManyModesError } from './mode-search.ts';
import { Possible } from './possible.ts';
import { absentModes, familiesOn } from './reach.ts';
import { judgeSequences } from './sequences.ts';
import { PIECE, STAGE } from './within-limit.ts';

export interface Supposition {
  /** The fleet's fits and the one that was supposed, which is the last and which no aircraft has. */
  readonly compiled: Compiled;
  readonly fit: Fit;
  /** Items whose rules were not written for such an aircraft: they leave a case out, or contradict each other in one. */
  readonly unruled: readonly Item[];
}

/**
 * Supposes an aircraft with these values of all options. Undefined where the constraints permit no such aircraft, where
 * none of its cases can happen, where rules read what it lacks, or where the work meets a limit.
 */
export function suppose(compiled: Compiled, options: ReadonlyMap<string, string>): Supposition | undefined {
  try {
    return compiled.diagrams.within(STAGE, () => supposed(compiled, options));
  } catch (error) {
    if (error instanceof TooManyModesError || (error instanceof LimitError && !error.whole)) return undefined;
    throw error;
  }
}

function supposed(compiled: Compiled, options: ReadonlyMap<string, string>): Supposition | undefined {
  const { fleet, diagrams, space, expressions } = compiled;
  const ways = candidates(fleet, options);
  if (ways.length === 0 || ways.length > SETTLED_LIMIT) return undefined;
  const settled = ways.map(
    (each, index): SettledFit => ({ index: compiled.settled.length + index, options: each, aircraft: [] }),
  );
  const fit: Fit = {
    index: compiled.fits.length,
    options,
    aircraft: [],
    holders: [],
    settled,
    unknown: fleet.options.filter(({ id }) => options.get(id) === UNKNOWN).map(({ id }) => id),
  };
  const constraints = settled.map((each) => inputConstraints(fleet, space, diagrams, expressions, each));
  const inputs = [...compiled.inputs, ...constraints.map((each) => new Possible(diagrams, each))];
  const diagnostics = new Diagnostics();
  const before: Surroundings = { ...compiled, fits: settled, inputs, diagnostics };
  if (reportEmpty(before, inputs)) return undefined;
  reportUnguardedReads(before, [fit]);
  if (diagnostics.all.length > 0) return undefined;
  const nodes = new Map(
    compiled.behaviours.map(({ item, attribute, node }) => [`${item.id} ${attribute.id}`, node] as const),
  );
  const readers = modeReaders(
    fleet,
    diagrams,
    expressions,
    (item, attribute) => nodes.get(`${item} ${attribute}`) as Node,
  );
  const families = settled.map((each) =>
    familiesOn(fleet, space, diagrams, expressions, each, inputs[each.index] as Possible, readers, new Map()),
  );
  const possible = settled.map((_, at) => {
    const here = families[at] ?? [];
    const standing = here.map((family) => family.standing);
    return new Possible(diagrams, [
      ...(constraints[at] ?? []),
      ...absentModes(fleet, space, diagrams, here),
      ...standing,
    ]);
  });
  const whole = {
    ...compiled,
    fits: [...compiled.fits, fit],
    settled: [...compiled.settled, ...settled],
    inputs,
    possible: [...compiled.possible, ...possible],
    families: [...compiled.families, ...families],
  };
  const around: Surroundings = { ...whole, fits: settled, diagnostics };
  if (judgeSequences(around, whole.families)) return undefined;
  const unruled = compiled.behaviours.filter(({ item, attribute }) => {
    const told = new Diagnostics();
    judgeRules(item, attribute, { ...around, diagnostics: told });
    return told.all.some((each) => severityOf(each) === 'error');
  });
  return {
    compiled: { ...whole, behaviours: compiled.behaviours.map((each) => extended(whole, each)) },
    fit,
    unruled: [...new Set(unruled.map(({ item }) => item))],
  };
}

/** A behaviour with its form on the last fit too. All are made anew where that one depends on what the others do not. */
function extended(whole: Omit<Compiled, 'behaviours'>, behaviour: Behaviour): Behaviour {
  const { diagrams, outcomes, space, fits, settled, possible } = whole;
  const on = settled.map((fit) => onFit(whole, behaviour.node, fit));
  const own = ownLevels(diagrams, space, behaviour.node, on);
  const same = own.join(' ') === behaviour.own.join(' ');
  return diagrams.within(PIECE, () => {
    const settledForms = on.map((here, index) => {
      const known = same ? behaviour.settledForms[index] : undefined;
      return known ?? normalForm(diagrams, outcomes, space, here, own, possible[index] as Possible);
    });
    const forms = fits.map((fit, index) => {
      const known = same ? behaviour.forms[index] : undefined;
      return (
        known ??
        formOfFit(
          diagrams,
          outcomes,
          fit,
          fit.settled.map((each) => settledForms[each.index] as Node),
        )
      );
    });
    return { ...behaviour, own, settledForms, forms };
  });
}
