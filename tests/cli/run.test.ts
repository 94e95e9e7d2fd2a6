import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { catalogue } from '../../src/diagnostics/index.ts';
import { startCommand } from '../helpers/command-process.ts';
import { edit, projectFolder, smallProject } from '../helpers/content.ts';
import { runCommand } from '../helpers/run-command.ts';
import { temporaryFolder, writeFiles } from '../helpers/temporary-folder.ts';

describe('check', () => {
  test('says that good content is sound, with status 0', async () => {
    const { status, stdout, stderr } = await runCommand(['check'], smallProject());
    expect(stdout).toMatch(/^The content is sound: \d+ pages\.\n$/);
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });

  test('reports every mistake of a run, of several files, with status 1 and no stack', async () => {
    const folder = smallProject();
    edit(
      join(folder, 'content/panels/strip.yaml'),
      'bus-1 is powered and logo is ON',
      'bus-1 is powered and logo is ONN',
    );
    edit(join(folder, 'content/panels/strip.yaml'), 'when: dome is ON,', 'when: doom is ON,');
    edit(join(folder, 'content/claims.yaml'), 'bus-1 is lost', 'buss-1 is lost');
    const { status, stdout, stderr } = await runCommand(['check'], folder);
    expect(stdout.match(/^SL\d\d\d error/gm)).toEqual(['SL204 error', 'SL205 error', 'SL204 error']);
    expect(stdout).toContain('3 errors, 0 warnings');
    expect(stdout).not.toMatch(/^ +at /m);
    expect(stderr).toBe('');
    expect(status).toBe(1);
  });

  test('gives the same facts as JSON', async () => {
    const folder = smallProject();
    edit(join(folder, 'content/panels/strip.yaml'), 'logo is ON, then', 'logo is ONN, then');
    const { status, stdout } = await runCommand(['check', '--format', 'json'], folder);
    const answer = JSON.parse(stdout) as { status: number; diagnostics: Record<string, unknown>[] };
    expect(answer.status).toBe(1);
    expect(status).toBe(1);
    const line =
      readFileSync(join(folder, 'content/panels/strip.yaml'), 'utf8')
        .split('\n')
        .findIndex((text) => text.includes('ONN')) + 1;
    expect(answer.diagnostics).toMatchObject([{ code: 'SL205', severity: 'error', file: 'panels/strip.yaml', line }]);
    const good = await runCommand(['check', '--format', 'json'], smallProject());
    expect(JSON.parse(good.stdout)).toMatchObject({ status: 0, diagnostics: [] });
  });

  test('loads no module of Astro', async () => {
    const folder = smallProject();
    const hook = join(folder, 'hook.mjs');
    writeFiles(folder, {
      'hook.mjs': `import { registerHooks } from 'node:module';
registerHooks({ load(url, context, next) { process.stderr.write(url + '\\n'); return next(url, context); } });`,
    });
    const command = startCommand(['check'], folder, ['--import', hook]);
    expect(await command.ended).toBe(0);
    const loaded = command
      .printed()
      .split('\n')
      .filter((line) => line.startsWith('file:'));
    expect(loaded.some((url) => url.endsWith('/src/compile/index.ts'))).toBe(true);
    expect(loaded.filter((url) => /\/node_modules\/(astro|vite|rolldown)\//.test(url))).toEqual([]);
  });
});

describe('the other commands', () => {
  test('explain says more about each code, in upper or lower case', async () => {
    for (const [code, { explanation }] of Object.entries(catalogue)) {
      const { status, stdout } = await runCommand(['explain', code.toLowerCase()], projectFolder);
      expect(stdout).toContain(explanation);
      expect(status).toBe(0);
    }
  });

  test('explain knows no other codes', async () => {
    expect(await runCommand(['explain', 'SL999'], projectFolder)).toMatchObject({ status: 2, stdout: '' });
  });

  test('schemas writes one JSON Schema a kind of file', async () => {
    const folder = temporaryFolder();
    const { status, stdout } = await runCommand(['schemas', '--out', 'a/b'], folder);
    expect(status).toBe(0);
    const names = readdirSync(join(folder, 'a/b'));
    expect(names).toContain('panel.schema.json');
    expect(stdout).toBe(`Wrote ${names.length} schemas into a/b.\n`);
    for (const name of names) {
      expect(JSON.parse(readFileSync(join(folder, 'a/b', name), 'utf8'))).toHaveProperty('$schema');
    }
  });

  test('the version is the one of the package', async () => {
    const { version } = JSON.parse(readFileSync(join(projectFolder, 'package.json'), 'utf8')) as { version: string };
    expect((await runCommand(['--version'], projectFolder)).stdout).toBe(`${version}\n`);
  });
});

describe('as a process', () => {
  test('the exit status is 0 for good content, 1 for errors in it, 2 for wrong usage, 3 for a fault', async () => {
    const folder = smallProject();
    const status = (...words: string[]) => startCommand(words, folder).ended;
    expect(await status('check')).toBe(0);
    expect(await status('check', '--contents')).toBe(2);
    rmSync(join(folder, 'content/options.yaml'));
    expect(await status('check')).toBe(1);
    // A file stands where the folder would be.
    const nowhere = { TMPDIR: join(folder, 'content/book.yaml/none') };
    const fault = startCommand(['build'], smallProject(), [], nowhere);
    expect(await fault.ended).toBe(3);
    expect(fault.printed()).toContain('SL602 error');
    expect(fault.printed()).not.toMatch(/^ +at /m);
    const debug = startCommand(['build', '--debug'], smallProject(), [], nowhere);
    expect(await debug.ended).toBe(3);
    expect(debug.printed()).toMatch(/^ +at /m);
  });
});
