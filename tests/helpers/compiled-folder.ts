/** A content folder, read and compiled as the commands do. */
import { type Release, readReleases } from '../../src/book/index.ts';
import { readFolder } from '../../src/cli/read-folder.ts';
import { type Compiled, compileFleet } from '../../src/compile/index.ts';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

/** Throws where the content has anything to be reported. */
export function compiledFolder(folder: string): Compiled {
  return withReleases(folder).compiled;
}

/** The same, with what its earlier revisions were. */
export function withReleases(folder: string): { readonly compiled: Compiled; readonly releases: readonly Release[] } {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(readFolder(folder, 'content', diagnostics), diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  const releases = fleet ? readReleases(fleet, diagnostics) : [];
  if (!compiled || diagnostics.all.length > 0) throw new Error(JSON.stringify(toJson(diagnostics.all)));
  return { compiled, releases };
}
