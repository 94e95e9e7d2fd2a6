/**
 * Fixtures of the diagnostics: tests/fixtures/CODE/fixture.yaml says what an author (or a machine) did wrong to the good
 * content of tests/fixtures/base, and expected.txt what the command then prints.
 */
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { runCommand } from './run-command.ts';
import { writeFiles } from './temporary-folder.ts';

export const fixturesFolder = join(import.meta.dirname, '..', 'fixtures');

const fixtureSchema = z.strictObject({
  /** What is tried, in words. */
  about: z.string(),
  /** Words of the command; the content lies in "content", beside it is nothing. */
  command: z.array(z.string()).default(['check']),
  /** A command that was run before anything went wrong. */
  first: z.array(z.string()).optional(),
  /** Replaces a text that stands exactly once in a file of the content. */
  edit: z.array(z.strictObject({ file: z.string(), from: z.string(), to: z.string() })).default([]),
  /** Whole files, by path from the folder that holds "content". */
  add: z.record(z.string(), z.string()).default({}),
  /** The same, as base64. */
  bytes: z.record(z.string(), z.string()).default({}),
  links: z.record(z.string(), z.string()).default({}),
  delete: z.array(z.string()).default([]),
  environment: z.record(z.string(), z.string()).default({}),
});

/** The codes that have a fixture. */
export function fixtureCodes(): string[] {
  return readdirSync(fixturesFolder).filter((name) => existsSync(join(fixturesFolder, name, 'fixture.yaml')));
}

/** Does what the fixture of `code` says and gives what the command printed, with its exit status. */
export async function runFixture(code: string): Promise<string> {
  const fixture = fixtureSchema.parse(parse(readFileSync(join(fixturesFolder, code, 'fixture.yaml'), 'utf8')));
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'switchleaf-fixture-')));
  const before = new Map(Object.keys(fixture.environment).map((name) => [name, process.env[name]]));
  try {
    cpSync(join(fixturesFolder, 'base'), join(folder, 'content'), { recursive: true });
    if (fixture.first) await runCommand(fixture.first, folder);
    for (const { file, from, to } of fixture.edit) {
      const text = readFileSync(join(folder, 'content', file), 'utf8');
      if (text.split(from).length !== 2) throw new Error(`${code}: "${from}" does not stand exactly once in ${file}`);
      writeFiles(folder, { [`content/${file}`]: text.replace(from, () => to) });
    }
    for (const path of fixture.delete) rmSync(join(folder, path), { recursive: true });
    writeFiles(folder, fixture.add);
    writeFiles(
      folder,
      Object.fromEntries(Object.entries(fixture.bytes).map(([path, text]) => [path, Buffer.from(text, 'base64')])),
    );
    for (const [path, target] of Object.entries(fixture.links)) symlinkSync(target, join(folder, path));
    for (const [name, value] of Object.entries(fixture.environment)) process.env[name] = value;
    const { status, stdout, stderr } = await runCommand(fixture.command, folder);
    // How long it took is another each time, and how many pages there are with each new kind of page.
    const printed = `${stdout}${stderr}\nexit status ${status}\n`
      .replace(/ in \d+\.\d s\b/g, ' in 1.0 s')
      .replace(/ sound: \d+ pages/, ' sound: 20 pages');
    return printed.replaceAll(folder, '.');
  } finally {
    for (const [name, value] of before) {
      if (value === undefined) delete process.env[name];
      else process.env[name] = value;
    }
    rmSync(folder, { recursive: true, force: true });
  }
}
