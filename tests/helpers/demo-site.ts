/**
 * Builds the demo book, and one of a smaller fleet whose every case can be walked, once for all tests that read their pages:
 * through the command itself, into a temporary folder. Vitest runs this before the tests (globalSetup); a test asks for the
 * folders with `inject('demoSite')` and `inject('smallSite')`.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { smallFleet } from './content.ts';
import { runCommand } from './run-command.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    demoSite: string;
    smallSite: string;
  }
}

export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), 'switchleaf-demo-'));
  const build = async (content: string, out: string): Promise<string> => {
    const site = join(folder, out);
    const { status, stdout, stderr } = await runCommand(['build', '--content', content, '--out', site], process.cwd());
    if (status !== 0) throw new Error(`the book of ${content} does not build:\n${stdout}${stderr}`);
    return site;
  };
  // One after the other: they run in this process, and Astro builds one site at a time.
  project.provide('demoSite', await build('content', 'demo'));
  project.provide('smallSite', await build(smallFleet, 'small'));
  return () => rmSync(folder, { recursive: true, force: true });
}
