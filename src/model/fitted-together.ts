/** Controls that must never be fitted together: those in one place, and those that count as one. */
import type { Diagnostics } from '../diagnostics/index.ts';
import type { Expression } from '../language/index.ts';
import type { Aircraft, Constraint, Control, Option, PanelPlace } from './fleet.ts';
import { constraintExpression, type FitValues, holdsOnFit, possibleFit } from './possible-fits.ts';

interface DatedFit {
  /** Absent on the fit of the book's date. */
  readonly date?: string;
  readonly registration: string;
  readonly fit: FitValues;
}

/** What an aircraft is from the book's date on. */
function fitsOf({ registration, fit, changes }: Aircraft): DatedFit[] {
  const fits: DatedFit[] = [{ registration, fit }];
  for (const date of new Set(changes.map((change) => change.date))) {
    const last = fits.at(-1) as DatedFit;
    const values = new Map([...last.fit, ['registration', last.registration]]);
    for (const change of changes) if (change.date === date) values.set(change.option, change.value);
    const name = values.get('registration') ?? '';
    values.delete('registration');
    fits.push({ date, registration: name, fit: values });
  }
  return fits;
}

/** Reports each pair of such controls that some aircraft has, or may have where options are unknown, at the later one. */
export function reportFittedTogether(
  aircraft: readonly Aircraft[],
  options: readonly Option[],
  constraints: readonly Constraint[],
  controls: readonly Control[],
  places: readonly PanelPlace[],
  diagnostics: Diagnostics,
): void {
  const fits = aircraft.flatMap(fitsOf);
  const permitted = constraints.map(constraintExpression);
  /** The first fit with both, and whether that hangs on what is unknown. */
  const both = (pair: readonly Control[]): (DatedFit & { readonly unknown: boolean }) | undefined => {
    const fitted = pair.flatMap((control): Expression[] => (control.fitted ? [control.fitted] : []));
    for (const each of fits) {
      const found = possibleFit(each.fit, options, [...permitted, ...fitted]);
      if (found) return { ...each, unknown: fitted.some((one) => holdsOnFit(one, each.fit) === undefined) };
    }
    return undefined;
  };
  controls.forEach((control, at) => {
    for (const other of controls.slice(0, at)) {
      const shared = control.at !== undefined && control.at === other.at;
      if (!shared && classOf(control) !== classOf(other)) continue;
      const found = both([other, control]);
      if (!found) continue;
      const { date, registration, unknown } = found;
      const facts = { controls: [other.id, control.id], aircraft: registration, date, unknown };
      const related = [{ place: other.place, label: 'the other one' }];
      const place = places.find(({ id }) => id === control.at)?.title ?? '';
      if (shared) diagnostics.report('SL355', { ...facts, place }, control.place, related);
      else diagnostics.report('SL356', facts, control.place, related);
    }
  });
}

/** The control that it counts as. */
function classOf({ id, counterpart }: Control): string {
  return counterpart ?? id;
}
