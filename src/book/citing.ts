/** Everything of the content that cites a document or asks a query, with the words and the link for it. */
import type { Citation, Fleet, Rule } from '../model/index.ts';
import { conditionAddress, panelAddress, QUERIES, queryAnchor } from './addresses.ts';
import type { Inline, Listed } from './book.ts';
import { link, text } from './cells.ts';

/** One definition, or a part of it, that may cite a document. */
export interface Citing {
  readonly source?: Citation;
  /** "Logo lights, rule: lit", the title as a link where it has a page. */
  readonly words: readonly Inline[];
  /** The definition that it belongs to. */
  readonly id: string;
}

/** In the order of the content; `index` is the page of each id. */
export function citingParts(fleet: Fleet, index: ReadonlyMap<string, Listed>): Citing[] {
  const part = (
    { id, title }: { readonly id: string; readonly title: string },
    source: Citation | undefined,
    detail?: string,
  ): Citing => {
    const page = index.get(id);
    return {
      id,
      words: [page ? link(page.to, title) : text(title), ...(detail === undefined ? [] : [text(`, ${detail}`)])],
      ...(source ? { source } : {}),
    };
  };
  const stated = ({ then, query }: Rule): string => (query === undefined ? `a rule for ${then}` : 'what is not stated');
  return [
    ...fleet.options.map((each) => part(each, each.source)),
    ...fleet.conditions.map((each) => part(each, each.source)),
    ...fleet.detectors.map((each) => ({
      ...part(each, each.source),
      words: [link(conditionAddress({ id: each.number }), each.title)],
    })),
    ...fleet.never.map(({ source }) => part({ id: '', title: 'What never happens together' }, source)),
    ...fleet.signals.map((each) => part(each, each.source)),
    ...fleet.panels.map((each) => part(each, each.source)),
    ...fleet.places.map((each) => ({
      ...part(each, each.source),
      words: [link(panelAddress({ id: each.panel }), each.title)],
    })),
    ...fleet.controls.map((each) => part(each, each.source)),
    ...fleet.items.flatMap((item) => [
      part(item, item.source),
      ...item.attributes.flatMap(({ rules }) => rules.map((rule) => part(item, rule.source, stated(rule)))),
    ]),
    ...fleet.overrides.map((each) => part(each, each.source)),
    ...fleet.sounds.flatMap((sound) => [
      part(sound, sound.source),
      ...sound.triggers.map(({ source }) => part(sound, source, 'a trigger')),
    ]),
    ...fleet.sequences.flatMap((sequence) => [
      part(sequence, sequence.source),
      ...sequence.stores.map((store) => part(sequence, store.source, store.title)),
      ...sequence.transitions.map(({ source }) => part(sequence, source, 'a transition')),
    ]),
    ...fleet.timelines.map((each) => part(each, each.source)),
    ...fleet.queries.flatMap((query) =>
      [query.source, query.answered?.source].map((source) => ({
        id: query.id,
        words: [link(QUERIES, query.title, queryAnchor(query.id))],
        ...(source ? { source } : {}),
      })),
    ),
  ];
}
