/** How the book names a document. */
import type { Fleet } from '../model/index.ts';
import { ABOUT, sourceAnchor } from './addresses.ts';
import type { Inline } from './book.ts';
import { link, text } from './cells.ts';

/** "Engineering order 57, revision 1" as a link to where the book lists it. */
export function documentWords(fleet: Fleet, id: string): Inline[] {
  const source = fleet.sources.find((each) => each.id === id);
  return source ? [link(ABOUT, `${source.title}, revision ${source.revision}`, sourceAnchor(id))] : [text(id)];
}
