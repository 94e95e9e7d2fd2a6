import { run } from '../../src/cli/index.ts';

export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command in this process, in the folder `cwd`, as a script would: without colours. */
export async function runCommand(words: readonly string[], cwd: string): Promise<Ran> {
  let stdout = '';
  let stderr = '';
  const status = await run(words, {
    cwd,
    stdout: {
      write(text) {
        stdout += text;
      },
    },
    stderr: {
      write(text) {
        stderr += text;
      },
    },
    isTTY: false,
    stop: new AbortController().signal,
  });
  return { status, stdout, stderr };
}
