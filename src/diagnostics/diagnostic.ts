/**
 * What a diagnostic is: facts and places, never wording. The wording stands in the catalogue (catalogue.ts), the
 * printing in format.ts. Everything here is plain data, so that the command line, the preview and the tests share it.
 */
import type { Catalogue, Code } from './catalogue.ts';

/** One file of the author's, as it was read. `path` is relative to the content folder, with forward slashes. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** A half-open range of UTF-16 offsets in a source file: `text.slice(start, end)`. */
export interface Place {
  readonly file: SourceFile;
  readonly start: number;
  readonly end: number;
}

export type Severity = 'error' | 'warning';

/** A second place that explains the first ("the other rule", "first defined here"). */
export interface Related {
  readonly place: Place;
  /** A few words that label the place, e.g. "first defined here". */
  readonly label: string;
}

/** The facts that the catalogue's message function of a code takes. */
export type Facts<C extends Code> = Parameters<Catalogue[C]['message']>[0];

export interface Diagnostic<C extends Code = Code> {
  readonly code: C;
  readonly facts: Facts<C>;
  /** Absent only when no file can be blamed (the content folder itself is missing). */
  readonly place?: Place;
  readonly related?: readonly Related[];
}

/** Collects the diagnostics of a run. Stages report into it and go on as far as they sensibly can. */
export class Diagnostics {
  readonly #list: Diagnostic[] = [];

  /** Records one diagnostic; the facts are checked against the code's message by the compiler. */
  report<C extends Code>(code: C, facts: Facts<C>, place?: Place, related?: readonly Related[]): void {
    const diagnostic: Diagnostic<C> = {
      code,
      facts,
      ...(place === undefined ? {} : { place }),
      ...(related === undefined ? {} : { related }),
    };
    this.#list.push(diagnostic as Diagnostic);
  }

  get all(): readonly Diagnostic[] {
    return this.#list;
  }
}
