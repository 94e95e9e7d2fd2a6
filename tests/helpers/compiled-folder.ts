/** A content, read and compiled as the commands do. */
import { type Release, readReleases } from '../../src/book/index.ts';
import { readFolder } from '../../src/cli/read-folder.ts';
import { type Compiled, compileFleet } from '../../src/compile/index.ts';
import { Diagnostics, type SourceFile, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

/** Throws where the content has anything to be reported. */
export function compiledFolder(folder: string): Compiled {
  return withReleases(folder).compiled;
}

/** The same of files that stand in no folder, by path. */
export function compiledFiles(files: Readonly<Record<string, string>>): Compiled {
  const all = Object.entries(files).map(([path, text]) => ({ path, text }));
  return compiledFrom(all, new Diagnostics()).compiled;
}

/** The same of a folder, with what its earlier revisions were. */
export function withReleases(folder: string): Made {
  const diagnostics = new Diagnostics();
  return compiledFrom(readFolder(folder, 'content', diagnostics), diagnostics);
}

interface Made {
  readonly compiled: Compiled;
  readonly releases: readonly Release[];
}

function compiledFrom(files: readonly SourceFile[], diagnostics: Diagnostics): Made {
  const fleet = readFleet(files, diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  const releases = fleet ? readReleases(fleet, diagnostics) : [];
  if (!compiled || diagnostics.all.length > 0) throw new Error(JSON.stringify(toJson(diagnostics.all)));
  return { compiled, releases };
}
