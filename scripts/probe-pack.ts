/**
 * Shows that the tool runs as an installed package: compiles it, packs it, installs the package into an empty folder, and runs
 * `check` and `build` there on a copy of the content. Prints what it did; fails on the first thing that is wrong.
 * Not part of the checks of every change, since it installs all dependencies.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const project = join(import.meta.dirname, '..');
const work = mkdtempSync(join(tmpdir(), 'switchleaf-pack-'));
const source = join(work, 'package');
const user = join(work, 'user');

function run(cwd: string, command: string, ...args: string[]): string {
  console.log(`$ ${command} ${args.join(' ')}`);
  // npm hands its settings and the pinned Node of this project to its scripts; a user has neither.
  const inherited = Object.entries(process.env).filter(([name]) => !/^(npm_|INIT_CWD)/.test(name));
  const path = (process.env['PATH'] ?? '')
    .split(':')
    .filter((folder) => !folder.includes('node_modules'))
    .join(':');
  const { status, stdout, stderr } = spawnSync(command, args, {
    cwd,
    encoding: 'utf8',
    env: { ...Object.fromEntries(inherited), PATH: path },
  });
  if (status !== 0) throw new Error(`it ended with ${status}:\n${stdout}\n${stderr}`);
  return stdout.trim();
}

/** Every file below `folder` with its size and date, but for what Node packages below it keep to themselves. */
function listing(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => !name.startsWith('node_modules/') || name.startsWith('node_modules/.'))
    .map((name) => `${name} ${statSync(join(folder, name)).mtimeMs}`)
    .sort();
}

try {
  mkdirSync(source);
  for (const name of ['bin', 'src', 'public', 'package.json', 'tsconfig.json'])
    cpSync(join(project, name), join(source, name), { recursive: true });
  const compiler = join(project, 'node_modules', 'typescript', 'bin', 'tsc');
  writeFileSync(
    join(source, 'tsconfig.lib.json'),
    JSON.stringify({
      extends: join(project, 'tsconfig.json'),
      compilerOptions: {
        noEmit: false,
        allowImportingTsExtensions: false,
        noCheck: true,
        rootDir: 'src',
        outDir: 'lib',
        types: [],
      },
      include: ['src'],
    }),
  );
  run(source, process.execPath, compiler, '-p', 'tsconfig.lib.json');
  const [{ filename, size, entryCount }] = JSON.parse(run(source, 'npm', 'pack', '--json')) as [
    { filename: string; size: number; entryCount: number },
  ];
  console.log(`packed ${entryCount} files, ${Math.round(size / 1024)} kB`);

  mkdirSync(user);
  writeFileSync(
    join(user, 'package.json'),
    '{ "name": "user", "version": "1.0.0", "private": true, "allowScripts": { "node": true, "esbuild": true } }\n',
  );
  run(user, 'npm', 'install', '--prefer-offline', '--no-audit', '--no-fund', join(source, filename));
  cpSync(join(project, 'content'), join(user, 'content'), { recursive: true });
  const installed = join(user, 'node_modules', 'switchleaf');
  const before = listing(installed);
  console.log(run(user, 'npx', '--no-install', 'switchleaf', '--version'));
  console.log(run(user, 'npx', '--no-install', 'switchleaf', 'check'));
  console.log(run(user, 'npx', '--no-install', 'switchleaf', 'build'));
  if (!existsSync(join(user, 'dist', 'index.html'))) throw new Error('there is no dist/index.html');
  const written = listing(installed).filter((line) => !before.includes(line));
  if (written.length > 0) throw new Error(`the build wrote into the installed package:\n${written.join('\n')}`);
  const beside = readdirSync(user).sort().join(' ');
  if (beside !== 'content dist node_modules package-lock.json package.json')
    throw new Error(`the user's folder now holds ${beside}`);
  console.log('The packed tool checks and builds in an empty folder, and writes nothing but the book.');
} finally {
  rmSync(work, { recursive: true, force: true });
}
