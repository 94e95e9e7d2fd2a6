/** Scripts for browsers out of TypeScript: each entry one classic file, since module scripts don't run in a folder without a server. */
import { build } from 'esbuild';
import { packageFolder } from './package-folder.ts';

/** The code of each entry (absolute paths), in their order. `define` puts values in for names. */
export async function bundle(
  entryPoints: readonly string[],
  define: Readonly<Record<string, string>> = {},
): Promise<string[]> {
  const { outputFiles } = await build({
    absWorkingDir: packageFolder(),
    entryPoints: [...entryPoints],
    // Nothing is written; several entries need a folder all the same.
    outdir: packageFolder(),
    write: false,
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    legalComments: 'inline',
    logLevel: 'silent',
    define,
  });
  return outputFiles.map(({ text }) => text);
}
