/** The aircraft as they are on the date of the book, out of how they entered service and what changed since. */
import type { ContentFiles } from './content-files.ts';
import type { Context } from './context.ts';
import type { Aircraft, Constraint, Option } from './fleet.ts';
import { readAircraft } from './read-aircraft.ts';
import { readModifications } from './read-modifications.ts';
import { historyOf, inService, isPermitted, reportSharedRegistrations } from './service.ts';

export interface Service {
  /** In service on the date of the book, in the order of aircraft.csv. */
  readonly aircraft: readonly Aircraft[];
  /** False when some were left out, since something of them cannot be used. */
  readonly whole: boolean;
}

/** Undefined after a report where nothing is known of any aircraft. */
export function readService(
  files: ContentFiles,
  options: readonly Option[],
  constraints: readonly Constraint[],
  date: string | undefined,
  context: Context,
): Service | undefined {
  const before = context.diagnostics.all.length;
  const read = files.aircraft && readAircraft(files.aircraft, options, context);
  if (!read) return undefined;
  const modifications = files.modifications
    ? readModifications(files.modifications, read, options, context)
    : { changes: new Map(), broken: new Set() };
  if (!modifications) return undefined;
  const histories = read.lines
    .filter(({ serial }) => !modifications.broken.has(serial.text))
    .map((line) => historyOf(line, modifications.changes.get(line.serial.text) ?? []));
  reportSharedRegistrations(histories, context.diagnostics);
  const permitted = histories.filter((each) => isPermitted(each, options, constraints, context.diagnostics));
  // Lines with too few cells are not among the serials, but reported.
  const whole = permitted.length === read.serials.length && context.diagnostics.all.length === before;
  return { aircraft: inService(permitted, date), whole };
}
