/** The process around `run`: the one place that touches the real arguments, streams and signals. */
import { run } from './run.ts';

const stop = new AbortController();
let isWatched = false;

/**
 * Signals are watched from the moment that a command has something to tidy up. Until then they end the process as they do
 * any other, also in the midst of long work, when no listener would be called.
 */
function watchSignals(): AbortSignal {
  if (isWatched) return stop.signal;
  isWatched = true;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      // The second time, somebody is losing patience.
      if (stop.signal.aborted) process.exit(130);
      stop.abort();
    });
  }
  return stop.signal;
}

// A reader that has seen enough (`| head`) closes the pipe; that is no fault.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit();
    throw error;
  });
}

process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  stdout: process.stdout,
  stderr: process.stderr,
  isTTY: process.stdout.isTTY === true && process.env['NO_COLOR'] === undefined,
  get stop() {
    return watchSignals();
  },
});
// Work that was given up may still hold the process.
if (stop.signal.aborted) process.exit();
