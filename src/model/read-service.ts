/** The aircraft as they are on the date of the book, out of how they entered service and what changed since. */
import type { ContentFiles } from './content-files.ts';
import type { Context } from './context.ts';
import type { Aircraft, Constraint, Option } from './fleet.ts';
import { readAircraft } from './read-aircraft.ts';
import { readModifications } from './read-modifications.ts';
import { historyOf, inService, isPermitted, reportSharedRegistrations } from './service.ts';

/**
 * The aircraft in service on `date`, in the order of aircraft.csv. Those of which something cannot be used are left out
 * after a report; undefined where that may be any of them.
 */
export function readService(
  files: ContentFiles,
  options: readonly Option[],
  constraints: readonly Constraint[],
  date: string | undefined,
  context: Context,
): readonly Aircraft[] | undefined {
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
  return inService(permitted, date);
}
