import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { projectFolder } from './content.ts';

/** The command as a process of its own, as a user starts it. Killed when the running test ends; `whenDone` is `afterAll` where none runs. */
export interface CommandProcess {
  readonly child: ChildProcess;
  /** What it has printed so far. */
  printed(): string;
  /** Its exit status, or the signal that ended it. */
  readonly ended: Promise<number | string>;
}

export function startCommand(
  words: readonly string[],
  cwd: string,
  nodeOptions: readonly string[] = [],
  environment: Readonly<Record<string, string>> = {},
  whenDone: (end: () => void) => void = onTestFinished,
): CommandProcess {
  const child = spawn(process.execPath, [...nodeOptions, join(projectFolder, 'bin', 'switchleaf.mjs'), ...words], {
    cwd,
    // Astro's server holds itself back when it believes that it runs inside of Vitest.
    env: { ...process.env, VITEST: undefined, NODE_ENV: undefined, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let printed = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (data: Buffer) => (printed += data.toString()));
  whenDone(() => void child.kill('SIGKILL'));
  const ended = new Promise<number | string>((done) =>
    child.on('close', (status, signal) => done(status ?? signal ?? 'unknown')),
  );
  return { child, printed: () => printed, ended };
}

/** Asks again and again until `ask` gives something, for a generous minute. */
export async function until<T>(
  what: string,
  ask: () => T | undefined | false | Promise<T | undefined | false>,
): Promise<T> {
  const deadline = Date.now() + 60_000;
  for (;;) {
    const answer = await ask();
    if (answer !== undefined && answer !== false) return answer;
    if (Date.now() > deadline) throw new Error(`waited a minute for ${what}`);
    await new Promise((done) => setTimeout(done, 50));
  }
}
