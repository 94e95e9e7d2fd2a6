/** The glossary: terms, the words that crews use for them, and where each leads. */
import type { Fleet, Term } from '../../model/index.ts';
import { GLOSSARY, termAnchor } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { GlossaryPage } from '../book-reference.ts';
import { inAlphabet, initialOf } from '../in-alphabet.ts';
import { citations } from '../links.ts';
import { trailTo } from '../trail.ts';

/** `index` is the page of every id. */
export function glossaryPage(fleet: Fleet, index: ReadonlyMap<string, Listed>): GlossaryPage {
  const terms = fleet.glossary.toSorted((a, b) => inAlphabet(a.title, b.title));
  const letters = Map.groupBy(terms, ({ title }) => initialOf(title));
  return {
    kind: 'glossary',
    address: GLOSSARY,
    title: 'Glossary',
    trail: trailTo(),
    letters: [...letters].map(([letter, some]) => ({
      id: `letter-${letter.toLowerCase()}`,
      letter,
      terms: some.map((term) => ({
        id: termAnchor(term.id),
        title: term.title,
        meaning: term.meaning,
        also: term.also,
        see: leadsTo(term, index),
        citations: citations(fleet, [term]),
      })),
    })),
  };
}

function leadsTo({ see }: Term, index: ReadonlyMap<string, Listed>): Listed[] {
  return see.flatMap((id) => index.get(id) ?? []);
}
