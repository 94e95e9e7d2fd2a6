/** The register of queries: the open questions first, each with what waits for its answer. */
import type { Compiled } from '../../compile/index.ts';
import { type Attribute, type Fleet, type Item, type Override, overridesOf, type Query } from '../../model/index.ts';
import { itemAddress, QUERIES, queryAnchor } from '../addresses.ts';
import type { Inline, QueriesPage, QueryView } from '../book.ts';
import { link, text } from '../cells.ts';
import { citations } from '../links.ts';
import { trailTo } from '../trail.ts';

export function queriesPage({ fleet }: Compiled): QueriesPage {
  const views = fleet.queries.map((query) => queryView(fleet, query));
  return {
    kind: 'queries',
    address: QUERIES,
    title: 'Queries',
    trail: trailTo(),
    open: views.filter(({ answered }) => !answered),
    answered: views.filter(({ answered }) => answered),
  };
}

function queryView(fleet: Fleet, query: Query): QueryView {
  const { id, title, question, to, asked, about, answered } = query;
  return {
    id: queryAnchor(id),
    name: id,
    title,
    question,
    askedOf: to,
    asked,
    ...(about === undefined ? {} : { about }),
    citations: citations(fleet, [query]),
    ...(answered
      ? { answered: { date: answered.date, answer: answered.answer, citations: citations(fleet, [answered]) } }
      : {}),
    usedBy: usedBy(fleet, id),
  };
}

/** Whether an override touches an attribute with a rule for every case that says another state. */
function isBroken(fleet: Fleet, override: Override, item: Item, attribute: Attribute): boolean {
  return (
    overridesOf(fleet.overrides, item, attribute).includes(override) &&
    attribute.rules.some(({ inEveryCase, then }) => inEveryCase && then !== override.then)
  );
}

/** Items with rules that are not stated, and overrides that break a rule marked as holding in every case. */
function usedBy(fleet: Fleet, id: string): Inline[][] {
  const items = fleet.items.flatMap((item) =>
    item.attributes
      .filter(({ rules }) => rules.some(({ query }) => query === id))
      .map((attribute): Inline[] => [
        link(itemAddress(item), item.title),
        text(item.attributes.length > 1 ? `, ${attribute.title}: not stated` : ': not stated'),
      ]),
  );
  const overrides = fleet.overrides
    .filter(({ query }) => query === id)
    .flatMap((override) =>
      fleet.items
        .filter((item) => item.attributes.some((attribute) => isBroken(fleet, override, item, attribute)))
        .map((item): Inline[] => [
          link(itemAddress(item), item.title, `override-${override.id}`),
          text(`: ${override.title} stands above what is said to hold in every case`),
        ]),
    );
  return [...items, ...overrides];
}
