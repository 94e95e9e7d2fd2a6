/**
 * Cases as readers see them: controls that are counterparts are one, under the name of the control that they count as, and
 * what isn't fitted says so.
 */
import type { Case, Fit, Oracle } from '../oracle/index.ts';

/** The value of what isn't fitted: no id can be called so. */
export const ABSENT = '(not fitted)';

/** The name under which a variable stands: a counterpart's is the control that it counts as. */
export function sharedName({ content }: Oracle, variable: string): string {
  return content.controls.get(variable)?.counterpart ?? variable;
}

/** The controls that go by one name, in the authors' order; none where it is no control's. */
export function sharing(oracle: Oracle, name: string): string[] {
  return [...oracle.content.controls.keys()].filter((control) => sharedName(oracle, control) === name);
}

/** A position as the control that its own counts as calls it. */
export function sharedValue({ content }: Oracle, control: string, position: string): string {
  const found = content.controls.get(control);
  if (found?.counterpart === undefined) return position;
  return found.positions.get(position)?.as ?? `${control}:${position}`;
}

/** Every fit that one of the fits may be. */
export function candidatesOf(oracle: Oracle, fits: readonly Fit[]): Fit[] {
  return fits.flatMap((fit) => oracle.candidates(fit));
}

/** Every case over the variables that can happen on the fit, each once, with a value for each variable. */
export function seenCases(oracle: Oracle, fit: Fit, variables: readonly string[]): Case[] {
  const found = new Map<string, Case>();
  for (const given of oracle.cases(fit, variables)) {
    const seen = seenCase(oracle, variables, given);
    found.set(JSON.stringify(seen), seen);
  }
  return [...found.values()];
}

/** A case as readers see it, over the variables; what it does not name is not fitted. */
export function seenCase(oracle: Oracle, variables: readonly string[], given: Case): Case {
  const seen: Record<string, string> = {};
  for (const variable of variables) {
    const name = sharedName(oracle, variable);
    const value = given[variable];
    seen[name] = value === undefined ? (seen[name] ?? ABSENT) : sharedValue(oracle, variable, value);
  }
  return seen;
}

/** The case in terms of what a fit without unknown options has; undefined where it has none of it. */
export function caseOn(oracle: Oracle, fit: Fit, seen: Case): Case | undefined {
  const given: Record<string, string> = {};
  for (const [name, value] of Object.entries(seen)) {
    const controls = sharing(oracle, name);
    const [variable] = (controls.length > 0 ? controls : [name]).filter(
      (each) => oracle.valuesOn(fit, each).length > 0,
    );
    if (variable === undefined) {
      if (value !== ABSENT) return undefined;
      continue;
    }
    const own =
      controls.length === 0
        ? value
        : oracle.valuesOn(fit, variable).find((each) => sharedValue(oracle, variable, each) === value);
    if (own === undefined || own === ABSENT) return undefined;
    given[variable] = own;
  }
  return given;
}
