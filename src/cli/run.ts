/** The command: words in, an exit status out. Everything that a command touches of the process comes in through `io`. */
import { help, parseArguments, type Request } from './arguments.ts';
import { type ExitStatus, exitStatus } from './exit-status.ts';
import type { Io } from './io.ts';

/**
 * Runs the command that `words` ask for; never rejects. Commands are loaded when they are asked for, so that help answers
 * at once, and `check` never waits for Astro.
 */
export async function run(words: readonly string[], io: Io): Promise<ExitStatus> {
  const parsed = parseArguments(words);
  if ('wrong' in parsed) {
    io.stderr.write(`${parsed.wrong} "switchleaf --help" lists the commands and their options.\n`);
    return exitStatus.wrongUsage;
  }
  const { request, debug } = parsed;
  try {
    return await perform(request, io);
  } catch (error) {
    const { faultOf, report } = await import('./report.ts');
    if (debug && error instanceof Error) io.stderr.write(`${error.stack ?? error.message}\n`);
    return report(io, 'format' in request ? request.format : 'text', faultOf(error), 'The work was given up.');
  }
}

async function perform(request: Request, io: Io): Promise<ExitStatus> {
  switch (request.command) {
    case 'check':
      return (await import('./check.ts')).check(request, io);
    case 'build':
      return (await import('./build.ts')).build(request, io);
    case 'print':
      return (await import('./print/print.ts')).print(request, io);
    case 'release':
      return (await import('./release.ts')).release(request, io);
    case 'preview':
      return (await import('./preview/preview.ts')).preview(request, io);
    case 'explain':
      return (await import('./explain.ts')).explain(request.code, io);
    case 'schemas':
      return (await import('./schemas.ts')).writeSchemas(request.out, io);
    case 'version':
      io.stdout.write(`${(await import('./package-folder.ts')).packageVersion()}\n`);
      return exitStatus.fine;
    case 'help':
      io.stdout.write(help);
      return exitStatus.fine;
  }
}
