/** What the judges of a random family say. */

/** The first disagreement. Shrinking keeps the kind, so that it stays the same one. */
export interface Complaint {
  readonly kind: string;
  readonly text: string;
}

/** What a family can show: counted, so that enough of them show each. */
export type Kind =
  | 'a case that never happens'
  | 'may be either'
  | 'an absent control'
  | 'an abnormal position'
  | 'an override that decides'
  | 'a table of three rows'
  | 'unlike groups'
  | 'depends on what is unknown'
  | 'not stated'
  | 'a latch'
  | 'a claim that holds'
  | 'a claim that fails'
  | 'an empty premise';

/** The first complaint about one of several. */
export function firstOf<T>(all: Iterable<T>, judge: (each: T) => Complaint | undefined): Complaint | undefined {
  for (const each of all) {
    const complaint = judge(each);
    if (complaint) return complaint;
  }
  return undefined;
}
