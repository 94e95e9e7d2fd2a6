/** What a finished PDF says of itself, and what its bookmarks are. */

export interface About {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  /** ISO date of the book: a clock would make each print another file. */
  readonly date: string;
  readonly language: string;
}

export interface Bookmark {
  readonly title: string;
  /** The id that it leads to. */
  readonly to: string;
  readonly below: readonly Bookmark[];
}
