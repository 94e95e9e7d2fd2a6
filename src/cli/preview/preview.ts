/** `preview`: serves the book and follows every change of the content, until it is stopped. */
import { resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { formatAll } from '../../diagnostics/index.ts';
import type { Request } from '../arguments.ts';
import { type ExitStatus, exitStatus } from '../exit-status.ts';
import type { Io } from '../io.ts';
import { Draft } from './draft.ts';
import { servePreview } from './server.ts';

/**
 * Milliseconds between two looks at the files. Asking for their dates costs next to nothing, and, unlike the file system's
 * own events, works on every disk, network folder and container.
 */
const interval = 150;

export async function preview({ content, port }: Request & { command: 'preview' }, io: Io): Promise<ExitStatus> {
  const draft = new Draft(resolve(io.cwd, content), content);
  let seen = draft.signature();
  const good = draft.look();
  const server = await servePreview(draft, port);
  try {
    io.stdout.write(`The book of ${content} is at ${server.address} (Ctrl+C ends the preview).\n`);
    say(draft, good, io);
    let last = seen;
    while (await pause(io.stop)) {
      const now = draft.signature();
      // Taken up once it has stood still for one look: some editors write a file in several steps.
      if (now === last && now !== seen) {
        seen = now;
        const changedWell = draft.look();
        await server.tell(changedWell);
        say(draft, changedWell, io);
      }
      last = now;
    }
    return exitStatus.fine;
  } finally {
    await server.stop();
  }
}

/** Waits for the time of the next look; false when the preview is to end. */
async function pause(stop: AbortSignal): Promise<boolean> {
  return wait(interval, true, { signal: stop }).catch(() => false);
}

function say(draft: Draft, good: boolean, io: Io): void {
  const { diagnostics, lastGood } = draft;
  if (diagnostics.length > 0) io.stdout.write(`\n${formatAll(diagnostics, { colour: io.isTTY })}\n\n`);
  if (good) io.stdout.write(`The content is sound: ${lastGood?.pages.length} pages.\n`);
  else io.stdout.write(lastGood ? 'The pages show the last good book.\n' : 'There is no good book to show yet.\n');
}
