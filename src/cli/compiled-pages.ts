/**
 * Where Astro keeps the compiled pages while it runs them. Left alone, it puts them into the folder that the command was started in when
 * the book goes elsewhere: it litters there, and two builds started there at once take away each other's.
 */
import { sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { AstroIntegration } from 'astro';

/** Keeps them in `folder`. Only an adapter may say so; this one does nothing else. */
export function compiledPages(folder: string): AstroIntegration {
  const name = 'switchleaf:compiled-pages';
  return {
    name,
    hooks: {
      'astro:config:setup': ({ updateConfig }) => {
        updateConfig({ build: { server: pathToFileURL(`${folder}${sep}`) } });
      },
      'astro:config:done': ({ setAdapter }) => {
        setAdapter({
          name,
          entrypointResolution: 'auto',
          adapterFeatures: { buildOutput: 'static', preserveBuildServerDir: true },
          supportedAstroFeatures: { staticOutput: 'stable', sharpImageService: 'stable' },
        });
      },
    },
  };
}
