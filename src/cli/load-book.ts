/** From a folder to a book, through all stages. Loads no Astro: this is what `check` runs. */
import { type Book, makeBook } from '../book/index.ts';
import { compileFleet, limitText, reportFindings } from '../compile/index.ts';
import { type Diagnostic, Diagnostics } from '../diagnostics/index.ts';
import { LimitError, type Limits } from '../logic/index.ts';
import { readFleet } from '../model/index.ts';
import { readFolder } from './read-folder.ts';
import { hasErrors } from './report.ts';

export interface Loaded {
  /** Absent exactly when the diagnostics hold an error. */
  readonly book?: Book;
  /** All of the run, in the order of the files. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Ten minutes: no author waits longer for a message. */
const LIMITS: Limits = { timeLimit: { seconds: 600, now: () => performance.now() } };

/**
 * Reads, checks and compiles the content in `folder`. `shown` is the folder's name for messages; `limits` bound the work,
 * which ends in a diagnostic where they are met.
 */
export function loadBook(folder: string, shown: string = folder, limits: Limits = LIMITS): Loaded {
  const diagnostics = new Diagnostics();
  const files = readFolder(folder, shown, diagnostics);
  // Without a single file, everything that is missing would be reported too, and hide what went wrong.
  if (files.length === 0 && diagnostics.all.length > 0) return { diagnostics: diagnostics.all };
  const fleet = readFleet(files, diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics, limits);
  const { all } = diagnostics;
  if (compiled === undefined || hasErrors(all)) return { diagnostics: all };
  // Content with errors has other worries.
  reportFindings(compiled, diagnostics);
  if (hasErrors(diagnostics.all)) return { diagnostics: diagnostics.all };
  try {
    return { book: makeBook(compiled), diagnostics: diagnostics.all };
  } catch (error) {
    if (!(error instanceof LimitError)) throw error;
    diagnostics.report('SL408', { stage: 'pages', limit: limitText(error) }, compiled.fleet.book.place);
    return { diagnostics: diagnostics.all };
  }
}
