/** The content as it stands while it is edited: the last good book, and what is wrong with it now. */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { Book } from '../../book/index.ts';
import { type Diagnostic, formatText, inOrder, summary } from '../../diagnostics/index.ts';
import type { Limits } from '../../logic/index.ts';
import { type Opened, openBookOf } from '../load-book.ts';
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
  readonly #limits: Limits;
  #number = 0;
  #loaded: Opened = failed([]);
  #lastGood: Book | undefined;

  /**
   * `shown` is the folder's name for messages. Nothing is read before `look`. Pages are made for as long as an author edits, so
   * that time is no limit unless it is given; steps are one.
   */
  constructor(folder: string, shown: string, limits: Limits = {}) {
    this.#folder = folder;
    this.#shown = shown;
    this.#limits = limits;
  }

  /** Reads the content anew. True if it makes a book. */
  look(): boolean {
    try {
      this.#loaded = openBookOf(this.#folder, this.#shown, this.#limits);
    } catch (error) {
      this.#loaded = failed(faultOf(error));
    }
    this.#number++;
    this.#lastGood = this.#loaded.book ?? this.#lastGood;
    return this.#loaded.book !== undefined;
  }

  /** Makes a part of the last good book. False where something is in its way, which the notice tells from then on. */
  make(part: (book: Book) => unknown): boolean {
    const book = this.#lastGood;
    if (book === undefined) return false;
    try {
      part(book);
      return true;
    } catch (error) {
      this.#loaded = failed(this.#loaded.limitMet(error) ?? faultOf(error));
      this.#number++;
      return false;
    }
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

/** What is known of a content that makes no book. */
function failed(diagnostics: readonly Diagnostic[]): Opened {
  return { diagnostics, limitMet: () => undefined };
}
