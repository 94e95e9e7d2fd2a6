/** Tells of a failing family as a person can read it: made small, as the files of an author, with the case that disagrees. */

import type { Complaint } from './complaint.ts';
import { type Family, written } from './family.ts';
import { judgeFamily } from './judge-family.ts';
import { shrunk } from './shrink.ts';

/** What is wrong with a family; something that throws is wrong too. */
export function complaintOf(family: Family): Complaint | undefined {
  try {
    return judgeFamily(family).complaint;
  } catch (error) {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { kind: `thrown: ${text.split('\n')[0]}`, text };
  }
}

/** The smallest family with a complaint of the same kind, as text. */
export async function reportOf(name: string, family: Family, { kind }: Complaint): Promise<string> {
  const least = await shrunk(family, (smaller) => complaintOf(smaller)?.kind === kind);
  return `${name}, made small: ${kind}: ${complaintOf(least)?.text}\n\n${filesText(least)}`;
}

/** The files of a family one after the other, without the book's own. */
export function filesText(family: Family): string {
  const files = Object.entries(written(family)).filter(([path]) => path !== 'book.yaml');
  return files.map(([path, content]) => `# ${path}\n${content}`).join('\n');
}
