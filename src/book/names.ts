/** What the two that are compared are called. */

/** How the two fits are called in the words of a page. */
export interface Names {
  readonly here: string;
  readonly there: string;
  /** They are revisions of the book, in which something is so; it is so on aircraft. */
  readonly revisions?: true;
}

/** What stands before one of the names: "on" or "in". */
export function before({ revisions }: Names): string {
  return revisions ? 'in' : 'on';
}
