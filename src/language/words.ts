/** Words that have a meaning of their own in expressions. */
import type { Token } from './lexer.ts';

/** Words that can never stand as a value: what follows "is" would have two readings. */
const JOINING: ReadonlySet<string> = new Set(['and', 'or', 'not', 'implies', 'is', 'are', 'for']);
/** Words that nothing may have as a value. "The switch is never" could be read, and would mislead. */
const UNSAYABLE: ReadonlySet<string> = new Set([...JOINING, 'always', 'never']);
/** Words that cannot start a comparison. Two are values all the same: "slats are in", "the sensor is fitted". */
const KEYWORDS: ReadonlySet<string> = new Set([...UNSAYABLE, 'in', 'fitted']);
/** Words that join two statements, where reading goes on behind a fault. */
const JOINTS: ReadonlySet<string> = new Set(['and', 'or', 'implies']);

/** What can be said of the working of a lamp; neither is a state that it is seen in. */
export const LAMP_WORDS = ['serviceable', 'failed'] as const;

/** Whether a word has a meaning of its own in expressions, so that nothing may be called by it. */
export function isReservedWord(word: string): boolean {
  return KEYWORDS.has(word);
}

/** Whether something can have the word as a value. */
export function isSayable(word: string): boolean {
  return !UNSAYABLE.has(word);
}

export function isValue(token: Token): boolean {
  return token.kind === 'number' || (token.kind === 'word' && !JOINING.has(token.text));
}

export function isJoint({ text }: Token): boolean {
  return JOINTS.has(text);
}

export function isLampWord(word: string): boolean {
  return word === LAMP_WORDS[0] || word === LAMP_WORDS[1];
}
