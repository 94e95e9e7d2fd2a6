/**
 * Builds the books that tests read as pages, once for all of them, into a temporary folder. Vitest runs this before the tests
 * (globalSetup); a test asks for a folder with `inject('demoSite')`. The demo and the smaller fleet, whose every case can be walked, go
 * through the command itself, as a user builds them.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ProvidedContext } from 'vitest';
import type { TestProject } from 'vitest/node';
import type { Book } from '../../src/book/index.ts';
import { buildSite } from '../../src/cli/build-site.ts';
import { everyKind } from '../book/every-kind.ts';
import { inTimeBook } from '../book/in-time.ts';
import { sampleBook } from '../site/sample-book.ts';
import { startCommand } from './command-process.ts';
import { projectFolder, smallFleet } from './content.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    demoSite: string;
    smallSite: string;
    sampleSite: string;
    inTimeSite: string;
    everyKindSite: string;
  }
}

export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), 'switchleaf-books-'));
  const endings: (() => void)[] = [() => rmSync(folder, { recursive: true, force: true })];
  const byCommand = async (name: keyof ProvidedContext, content: string): Promise<void> => {
    const site = join(folder, name);
    const words = ['build', '--content', content, '--out', site];
    const command = startCommand(words, projectFolder, [], {}, (end) => endings.unshift(end));
    const status = await command.ended;
    if (status !== 0) throw new Error(`the book of ${content} does not build:\n${command.printed()}`);
    project.provide(name, site);
  };
  const byHand = async (name: keyof ProvidedContext, book: Book): Promise<void> => {
    await buildSite(book, join(folder, name));
    project.provide(name, join(folder, name));
  };
  // In this process one after the other: Astro builds one site at a time.
  const rest = async (): Promise<void> => {
    await byHand('sampleSite', sampleBook);
    await byHand('inTimeSite', inTimeBook().book);
    await byHand('everyKindSite', everyKind);
    await byCommand('smallSite', smallFleet);
  };
  await Promise.all([byCommand('demoSite', 'content'), rest()]);
  return () => {
    for (const end of endings) end();
  };
}
