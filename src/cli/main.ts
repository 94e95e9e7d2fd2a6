/** The process around `run`: the one place that touches the real arguments, streams and signals. */
import { run } from './run.ts';

const stop = new AbortController();
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
  process.on(signal, () => {
    // The second time, somebody is losing patience.
    if (stop.signal.aborted) process.exit(130);
    stop.abort();
  });
}

process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  stdout: process.stdout,
  stderr: process.stderr,
  isTTY: process.stdout.isTTY === true && process.env['NO_COLOR'] === undefined,
  stop: stop.signal,
});
// Work that was given up may still hold the process.
if (stop.signal.aborted) process.exit();
