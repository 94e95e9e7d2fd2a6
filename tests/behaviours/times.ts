/** Times as expected tables write them: "31.5 s". */
import type { Course } from '../../src/compile/index.ts';

/** Seconds, as a fraction. */
export type Time = Course['until'];

/** Throws where the text is no time in s: the table is wrong then, not the program. */
export function ofSeconds(text: string): Time {
  const seconds = /^(\d+)(?:\.(\d+))? s$/.exec(text);
  if (!seconds) throw new Error(`"${text}" is not a time in s`);
  const [, whole = '', part = ''] = seconds;
  return { over: BigInt(whole + part), under: 10n ** BigInt(part.length) };
}
