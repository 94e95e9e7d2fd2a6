/** Words that have a meaning of their own in expressions. */
import type { Token } from './lexer.ts';

/** Words that can never be a value: what follows "is" would have two readings. */
const JOINING: ReadonlySet<string> = new Set(['and', 'or', 'not', 'implies', 'is', 'are', 'for']);
/** Words that cannot start a comparison. Some are values all the same: "slats are in". */
const KEYWORDS: ReadonlySet<string> = new Set([...JOINING, 'in', 'fitted', 'always', 'never']);
/** Words that join two statements, where reading goes on behind a fault. */
const JOINTS: ReadonlySet<string> = new Set(['and', 'or', 'implies']);

/** What can be said of the working of a lamp; neither is a state that it is seen in. */
export const LAMP_WORDS = ['serviceable', 'failed'] as const;

/** Whether a word has a meaning of its own in expressions, so that nothing may be called by it. */
export function isReservedWord(word: string): boolean {
  return KEYWORDS.has(word);
}

/** Whether a word can stand behind "is", so that something can have it as a value. */
export function isSayable(word: string): boolean {
  return !JOINING.has(word);
}

export function isValue(token: Token): boolean {
  return token.kind === 'number' || (token.kind === 'word' && isSayable(token.text));
}

export function isJoint({ kind, text }: Token): boolean {
  return kind === 'word' && JOINTS.has(text);
}

export function isLampWord(word: string): boolean {
  return word === LAMP_WORDS[0] || word === LAMP_WORDS[1];
}
