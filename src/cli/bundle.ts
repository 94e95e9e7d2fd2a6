/** Scripts for browsers out of TypeScript: each entry one classic file, since module scripts don't run in a folder without a server. */
import { build, type Plugin } from 'esbuild';
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
    plugins: [withoutUnused],
  });
  return outputFiles.map(({ text }) => text);
}

/** Files of src/ do nothing by being imported: of those that a script uses little of, no more than that comes along. */
const withoutUnused: Plugin = {
  name: 'without-unused',
  setup({ onResolve, resolve }) {
    onResolve({ filter: /^\.{1,2}\// }, async ({ path, pluginData, ...from }) => {
      if (pluginData === RESOLVED || from.kind !== 'import-statement') return undefined;
      const { importer, namespace, resolveDir, kind } = from;
      const found = await resolve(path, { importer, namespace, resolveDir, kind, pluginData: RESOLVED });
      return found.errors.length > 0 || !path.endsWith('.ts') ? found : { ...found, sideEffects: false };
    });
  },
};

/** Marks what the plugin itself asks for. */
const RESOLVED = 'resolved';
