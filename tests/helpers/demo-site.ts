/**
 * Builds the demo book once for all tests that read its pages, through the command itself, into a temporary folder.
 * Vitest runs this before the tests (globalSetup); a test asks for the folder with `inject('demoSite')`.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { runCommand } from './run-command.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    demoSite: string;
  }
}

export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), 'switchleaf-demo-'));
  const site = join(folder, 'book');
  const { status, stdout, stderr } = await runCommand(['build', '--content', 'content', '--out', site], process.cwd());
  if (status !== 0) throw new Error(`the demo book does not build:\n${stdout}${stderr}`);
  project.provide('demoSite', site);
  return () => rmSync(folder, { recursive: true, force: true });
}
