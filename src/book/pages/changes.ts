/** What has changed since the last revision, and since each earlier one. */
import type { Compiled } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import { CHANGES, changesSinceAddress } from '../addresses.ts';
import type { Address, Listed } from '../book.ts';
import type { ChangesPage, Revision } from '../book-changes.ts';
import { upperFirst } from '../cells.ts';
import { changesSince } from '../releases/changes.ts';
import type { ComparedReleases } from '../releases/compared-releases.ts';
import type { RevisionRecord } from '../releases/record.ts';
import type { Release } from '../releases/released.ts';
import { trailTo } from '../trail.ts';

export function changesPages(compiled: Compiled, { releases, compared }: RevisionRecord): ChangesPage[] {
  return releases.map((release, at) => changesPage(compiled, releases, release, at, compared(release)));
}

/** The page of changes, where there is an earlier revision. */
export function changesListed({ releases: [last] }: RevisionRecord): Listed[] {
  if (!last) return [];
  return [{ ...listedChangesPage(last, 0), detail: 'What this revision says otherwise, and of which aircraft.' }];
}

/** The last one's page is the page of changes. */
export function changesAddress(release: Pick<Release, 'name'>, at: number): Address {
  return at === 0 ? CHANGES : changesSinceAddress(release);
}

/** "Changes since revision 7". */
export function listedChangesPage(release: Release, at: number): Listed {
  return { to: changesAddress(release, at), title: `Changes since revision ${release.revision}` };
}

function changesPage(
  compiled: Compiled,
  releases: readonly Release[],
  release: Release,
  at: number,
  compared: ComparedReleases,
): ChangesPage {
  const { book } = compiled.fleet;
  const [here, there] = [`revision ${release.revision}`, `revision ${book.revision}`];
  const names = { here, there, revisions: true } as const;
  const { to: address, title } = listedChangesPage(release, at);
  const changed = changesSince(compiled, compared, names, address);
  return {
    ...{ kind: 'changes', address, title, trail: trailTo() },
    since: revisionOf(release),
    now: revisionOf(book),
    summary: summary(changed, names),
    names: [upperFirst(here), upperFirst(there)],
    ...changed,
    others: releases.map(listedChangesPage).filter(({ to }) => to !== address),
  };
}

function revisionOf({ revision, date }: Revision): Revision {
  return { revision, date };
}

/** How much has changed, in sentences. */
function summary(
  { aircraft, panels, lists }: Pick<ChangesPage, 'aircraft' | 'panels' | 'lists'>,
  { here, there }: { readonly here: string; readonly there: string },
): string[] {
  if (aircraft.length + panels.length + lists.length === 0) {
    return [`Nothing that the book says has changed between ${here} and ${there}.`];
  }
  const items = new Set(panels.flatMap((panel) => panel.differences.map(({ what }) => what.item.to))).size;
  const looks = panels.flatMap((panel) => panel.looks).length;
  const counted = (count: number, one: string, many: string): string[] =>
    count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];
  const behaves = counted(items, 'thing behaves otherwise', 'things behave otherwise');
  const looking = counted(looks, 'control or legend looks otherwise', 'controls and legends look otherwise');
  const both = [...behaves, ...looking];
  return [
    both.length === 0
      ? `No light, sign, annunciator or message that both revisions have behaves or looks otherwise on any aircraft that both have.`
      : `${upperFirst(list(both, 'and'))} on some aircraft or all.`,
  ];
}
