/** `explain CODE`: the longer text behind a diagnostic. */
import { catalogue, explain as explanationOf, nearestName } from '../diagnostics/index.ts';
import { type ExitStatus, exitStatus } from './exit-status.ts';
import type { Io } from './io.ts';

export function explain(code: string, io: Io): ExitStatus {
  const text = explanationOf(code.toUpperCase());
  if (text !== undefined) {
    io.stdout.write(`${text}\n`);
    return exitStatus.fine;
  }
  const nearest = nearestName(code, Object.keys(catalogue));
  const advice = nearest === undefined ? 'Codes look like SL401.' : `Did you mean ${nearest}?`;
  io.stderr.write(`There is no code "${code}". ${advice}\n`);
  return exitStatus.wrongUsage;
}
