/** From a folder to a book, through all stages. Loads no Astro. */
import { type Book, openBook, type Release, readReleases, reportChanged, wholeBook } from '../book/index.ts';
import { type Compiled, compileFleet, limitText, reportFindings } from '../compile/index.ts';
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

/** A book of which each part is made when it is first read. */
export interface Opened extends Loaded {
  /** All diagnostics with the limit that was met while a part was made; undefined where that threw something else. */
  limitMet(error: unknown): readonly Diagnostic[] | undefined;
}

/**
 * Reads, checks and compiles the content in `folder`, and makes the whole book. `shown` is the folder's name for messages;
 * `limits` bound the work, which ends in a diagnostic where they are met.
 */
export function loadBook(folder: string, shown: string = folder, limits: Limits = LIMITS): Loaded {
  const { book, diagnostics, limitMet } = openBookOf(folder, shown, limits);
  if (book === undefined) return { diagnostics };
  try {
    return { book: wholeBook(book), diagnostics };
  } catch (error) {
    const met = limitMet(error);
    if (met === undefined) throw error;
    return { diagnostics: met };
  }
}

/** The same, but each part of the book is made when it is first read. */
export function openBookOf(folder: string, shown: string = folder, limits: Limits = LIMITS): Opened {
  const { compiled, releases, diagnostics } = compileFolder(folder, shown, limits);
  return {
    ...(compiled === undefined ? {} : { book: openBook(compiled, releases) }),
    diagnostics: diagnostics.all,
    limitMet(error) {
      if (compiled === undefined || !(error instanceof LimitError)) return undefined;
      diagnostics.report('SL408', { stage: 'pages', limit: limitText(error) }, compiled.fleet.book.place);
      return diagnostics.all;
    },
  };
}

/** The content of a folder, compiled and judged, with what earlier revisions of it were. */
export function compileFolder(
  folder: string,
  shown: string,
  limits: Limits = LIMITS,
): { readonly compiled?: Compiled; readonly releases: readonly Release[]; readonly diagnostics: Diagnostics } {
  const diagnostics = new Diagnostics();
  const files = readFolder(folder, shown, diagnostics);
  // Without a single file, everything that is missing would be reported too, and hide what went wrong.
  if (files.length === 0 && diagnostics.all.length > 0) return { releases: [], diagnostics };
  const fleet = readFleet(files, diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics, limits);
  const releases = fleet ? readReleases(fleet, diagnostics) : [];
  if (compiled === undefined || hasErrors(diagnostics.all)) return { releases, diagnostics };
  // Content with errors has other worries.
  reportFindings(compiled, diagnostics);
  reportChanged(compiled, releases, diagnostics);
  return hasErrors(diagnostics.all) ? { releases, diagnostics } : { compiled, releases, diagnostics };
}
