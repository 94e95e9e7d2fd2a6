/** What the book is and is not, the documents that it rests on, and what has to be read again. */
import type { Compiled } from '../../compile/index.ts';
import { ABOUT, COLOURS, sourceAnchor } from '../addresses.ts';
import { unitsOf } from '../aircraft-figures.ts';
import type { AboutPage, Inline, Listed } from '../book.ts';
import { link, text } from '../cells.ts';
import { citingParts } from '../citing.ts';
import { trailTo } from '../trail.ts';

export function aboutPage({ fleet }: Compiled, index: ReadonlyMap<string, Listed>): AboutPage {
  const cited = citingParts(fleet, index);
  return {
    kind: 'about',
    address: ABOUT,
    title: 'About and cautions',
    trail: trailTo(),
    ...(fleet.items.some((item) => unitsOf(item, '').length > 0) ? { colours: { id: COLOURS } } : {}),
    sources: fleet.sources.map(({ id, title, revision, date }) => ({
      id: sourceAnchor(id),
      title,
      revision,
      ...(date === undefined ? {} : { date }),
      citedBy: [...new Set(cited.filter(({ source }) => source?.document === id).map((each) => each.id))].flatMap(
        (definition) => index.get(definition) ?? [],
      ),
    })),
    toReview: cited.flatMap(({ source, words }): Inline[][] => {
      const document = fleet.sources.find(({ id }) => id === source?.document);
      if (!document || source?.revision === undefined || source.revision === document.revision) return [];
      const paragraph = source.paragraph === undefined ? '' : `, ${source.paragraph}`;
      return [
        [
          ...words,
          text(`: read in revision ${source.revision}${paragraph} of `),
          link(ABOUT, document.title, sourceAnchor(document.id)),
          text(`, which is at revision ${document.revision} now.`),
        ],
      ];
    }),
    notes: fleet.notes.filter(({ about }) => about.length === 0),
  };
}
