/** Crew notices: the list, a page each, and which pages lead to which of them. */
import { visit } from 'unist-util-visit';
import type { Compiled } from '../../compile/index.ts';
import type { Notice } from '../../model/index.ts';
import { NOTICES, noticeAddress } from '../addresses.ts';
import type { Address, Effectivity, Inline, Listed } from '../book.ts';
import type { NoticeListed, NoticePage, NoticesPage } from '../book-notices.ts';
import { text } from '../cells.ts';
import { documentWords } from '../documents.ts';
import { effectivityOf } from '../effectivity.ts';
import { expressionWords } from '../expression-words.ts';
import { changedBy, fulfilling } from '../quotes.ts';
import { trailTo } from '../trail.ts';

export function noticesPages(
  compiled: Compiled,
  index: ReadonlyMap<string, Listed>,
): readonly [NoticesPage, ...NoticePage[]] {
  const { fleet } = compiled;
  const { date: asOf } = fleet.book;
  const pages = fleet.notices.map((notice): NoticePage => {
    const listed = noticeListed(notice, asOf);
    return {
      kind: 'notice',
      address: listed.to,
      title: notice.title,
      trail: [...trailTo(), { to: NOTICES, title: 'Crew notices' }],
      notice: listed,
      asOf,
      ...(notice.issuedBy === undefined ? {} : { issuedBy: notice.issuedBy }),
      ...affected(compiled, notice),
      text: notice,
      about: mentioned(notice).flatMap((id) => index.get(id) ?? []),
    };
  });
  const latestFirst = pages.map(({ notice }) => notice).reverse();
  return [
    {
      kind: 'notices',
      address: NOTICES,
      title: 'Crew notices',
      trail: trailTo(),
      asOf,
      current: latestFirst.filter(({ expired }) => !expired),
      expired: latestFirst.filter(({ expired }) => expired),
    },
    ...pages,
  ];
}

/** By address of a page, the current notices that mention what it is about, or that affect its aircraft. */
export function noticesByPage(notices: readonly NoticePage[]): ReadonlyMap<Address, readonly NoticeListed[]> {
  const current = notices.filter(({ notice }) => !notice.expired);
  const leading = new Map<Address, NoticeListed[]>();
  for (const { notice, effectivity, about } of current) {
    // A place, a term or a signal stands on a page that is about much else.
    const pages = about.filter(({ anchor }) => anchor === undefined).map(({ to }) => to);
    const aircraft = effectivity.whole ? [] : effectivity.aircraft.map(({ to }) => to);
    for (const to of new Set([...pages, ...aircraft])) leading.set(to, [...(leading.get(to) ?? []), notice]);
  }
  return leading;
}

function noticeListed(notice: Notice, asOf: string): NoticeListed {
  const { number, title, date, expires } = notice;
  return { to: noticeAddress(notice), title, number, date, expires, expired: expires < asOf };
}

function affected(
  compiled: Compiled,
  { for: wanted, changedBy: document }: Notice,
): { readonly effectivity: Effectivity; readonly because: readonly Inline[] } {
  const { fleet, fits } = compiled;
  if (document !== undefined)
    return {
      effectivity: changedBy(fleet, document),
      because: [text('changed by '), ...documentWords(fleet, document)],
    };
  if (wanted)
    return {
      effectivity: fulfilling(compiled, wanted),
      because: expressionWords(fleet, wanted),
    };
  return { effectivity: effectivityOf(compiled, fits), because: [] };
}

/** Every definition that a notice names: at its head, by a reference, or in a part that is computed. */
function mentioned({ about, body, quotes }: Notice): string[] {
  const ids = [...about];
  visit(body, (node) => {
    if ((node.type === 'link' || node.type === 'definition') && node.url.startsWith('ref:'))
      ids.push(node.url.slice('ref:'.length));
    if (node.type === 'leafDirective' && node.name === 'table') ids.push(node.attributes?.of ?? '');
  });
  for (const quote of quotes) if (quote.kind === 'difference') ids.push(quote.of);
  return [...new Set(ids)];
}
