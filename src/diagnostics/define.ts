/** The shape of a catalogue entry. `F` is the type of the facts that a diagnostic of this code carries. */
import type { Severity } from './diagnostic.ts';

export interface Entry<F> {
  readonly severity: Severity;
  /** A few words without facts: the headline of the printed diagnostic. */
  readonly title: string;
  /** What happened and why, in full sentences. Never says where: the printer adds the place. */
  readonly message: (facts: F) => string;
  /** What to do now. */
  readonly hint: (facts: F) => string;
  /** The longer text of `explain`: what the rule is for. */
  readonly explanation: string;
  /** Set on a code that is no longer reported. It stays listed, so that its number is never given to something else. */
  readonly retired?: true;
}

/** Gives an entry the type of its facts, which stands at the parameter of `message`: `message: (facts: { ... }) => ...`. */
export function define<F>(entry: Entry<F>): Entry<F> {
  return entry;
}
