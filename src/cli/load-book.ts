/** From a folder to a book, through all stages. Loads no Astro: this is what `check` runs. */
import { type Book, makeBook } from '../book/index.ts';
import { compileFleet, reportFindings } from '../compile/index.ts';
import { type Diagnostic, Diagnostics } from '../diagnostics/index.ts';
import { readFleet } from '../model/index.ts';
import { readFolder } from './read-folder.ts';
import { hasErrors } from './report.ts';

export interface Loaded {
  /** Absent exactly when the diagnostics hold an error. */
  readonly book?: Book;
  /** All of the run, in the order of the files. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads, checks and compiles the content in `folder`. `shown` is the folder's name for messages. */
export function loadBook(folder: string, shown: string = folder): Loaded {
  const diagnostics = new Diagnostics();
  const files = readFolder(folder, shown, diagnostics);
  // Without a single file, everything that is missing would be reported too, and hide what went wrong.
  if (files.length === 0 && diagnostics.all.length > 0) return { diagnostics: diagnostics.all };
  const fleet = readFleet(files, diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  const { all } = diagnostics;
  if (compiled === undefined || hasErrors(all)) return { diagnostics: all };
  // Content with errors has other worries.
  reportFindings(compiled, diagnostics);
  return { book: makeBook(compiled), diagnostics: diagnostics.all };
}
