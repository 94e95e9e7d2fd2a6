/** The content as it stands while it is edited: the last good book, and what is wrong with it now. */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { Book } from '../../book/index.ts';
import { type Diagnostic, formatText, inOrder, summary } from '../../diagnostics/index.ts';
import { type Loaded, loadBook } from '../load-book.ts';
import { contentPaths } from '../read-folder.ts';
import { faultOf } from '../report.ts';

/** What the open pages are told, as JSON. */
export interface Notice {
  /** Rises with every look at the content: an older notice is never shown over a newer one. */
  readonly number: number;
  /** "2 errors, 1 warning"; empty when the content is good. */
  readonly summary: string;
  /** Each diagnostic in full, with its lines of the file. Empty when the content is good. */
  readonly problems: readonly string[];
}

export class Draft {
  readonly #folder: string;
  readonly #shown: string;
  #number = 0;
  #loaded: Loaded = { diagnostics: [] };
  #lastGood: Book | undefined;

  /** `shown` is the folder's name for messages. Nothing is read before `look`. */
  constructor(folder: string, shown: string) {
    this.#folder = folder;
    this.#shown = shown;
  }

  /** Reads the content anew. True if it makes a book. */
  look(): boolean {
    try {
      this.#loaded = loadBook(this.#folder, this.#shown);
    } catch (error) {
      this.#loaded = { diagnostics: faultOf(error) };
    }
    this.#number++;
    this.#lastGood = this.#loaded.book ?? this.#lastGood;
    return this.#loaded.book !== undefined;
  }

  /** The newest book that had no errors; undefined until there is one. */
  get lastGood(): Book | undefined {
    return this.#lastGood;
  }

  get diagnostics(): readonly Diagnostic[] {
    return inOrder(this.#loaded.diagnostics);
  }

  get notice(): Notice {
    const good = this.#loaded.book !== undefined;
    return {
      number: this.#number,
      summary: good ? '' : summary(this.diagnostics),
      problems: good ? [] : this.diagnostics.map((each) => formatText(each)),
    };
  }

  /** Changes whenever a content file comes, goes or is saved. Cheap: reads no file. */
  signature(): string {
    try {
      return contentPaths(this.#folder)
        .map((path) => {
          const found = statSync(join(this.#folder, path), { throwIfNoEntry: false });
          return `${path} ${found?.ino} ${found?.size} ${found?.mtimeMs}`;
        })
        .join('\n');
    } catch {
      // The folder is missing or being replaced at this moment.
      return 'not readable';
    }
  }
}
