/** Tells of a failing family as a person can read it: made small, as the files of an author, with the case that disagrees. */
import { type Family, written } from './family.ts';
import { type Complaint, judgeFamily } from './judge-family.ts';
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
export function reportOf(name: string, family: Family, { kind }: Complaint): string {
  const least = shrunk(family, (smaller) => complaintOf(smaller)?.kind === kind);
  const files = Object.entries(written(least)).filter(([path]) => path !== 'book.yaml');
  const text = files.map(([path, content]) => `# ${path}\n${content}`).join('\n');
  return `${name}, made small: ${kind}: ${complaintOf(least)?.text}\n\n${text}`;
}
