/** What a run found, as a person or a program reads it. */
import { type Diagnostic, Diagnostics, formatAll, inOrder, severityOf, toJson } from '../diagnostics/index.ts';
import type { Format } from './arguments.ts';
import { type ExitStatus, exitStatus } from './exit-status.ts';
import type { Io } from './io.ts';

export function hasErrors(diagnostics: readonly Diagnostic[]): boolean {
  return diagnostics.some((diagnostic) => severityOf(diagnostic) === 'error');
}

/** The status that a run ends with. */
export function statusOf(diagnostics: readonly Diagnostic[]): ExitStatus {
  if (diagnostics.some(({ code }) => code === 'SL602')) return exitStatus.fault;
  return hasErrors(diagnostics) ? exitStatus.contentErrors : exitStatus.fine;
}

/**
 * Prints a run's diagnostics and gives its exit status. `outcome` is the line that says what came of it; JSON has the same
 * facts as one object: `{ status, outcome, diagnostics }`.
 */
export function report(io: Io, format: Format, diagnostics: readonly Diagnostic[], outcome: string): ExitStatus {
  const status = statusOf(diagnostics);
  if (format === 'json') {
    io.stdout.write(`${JSON.stringify({ status, outcome, diagnostics: toJson(diagnostics) }, null, 2)}\n`);
  } else {
    if (diagnostics.length > 0) io.stdout.write(`${formatAll(inOrder(diagnostics), { colour: io.isTTY })}\n\n`);
    io.stdout.write(`${outcome}\n`);
  }
  return status;
}

/** The diagnostics of a fault, from whatever was thrown. Its stack is for --debug only. */
export function faultOf(error: unknown): readonly Diagnostic[] {
  const diagnostics = new Diagnostics();
  const message = error instanceof Error ? error.message : String(error);
  // Messages of several lines are made for developers; the first line says it.
  diagnostics.report('SL602', { detail: (message.split('\n')[0] ?? '').replace(/\.$/, '') });
  return diagnostics.all;
}
