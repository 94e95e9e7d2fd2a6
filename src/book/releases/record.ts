/** The earlier revisions of the book, and the present one beside each of them, compared when it is first asked for. */
import type { Compiled } from '../../compile/index.ts';
import { type ComparedReleases, compareReleases } from './compared-releases.ts';
import type { Release } from './released.ts';

export interface RevisionRecord {
  /** The last first; none of them is the present revision's. */
  readonly releases: readonly Release[];
  readonly compared: (release: Release) => ComparedReleases;
}

/** `all` may hold the release of the present revision too. */
export function recordOf(compiled: Compiled, all: readonly Release[]): RevisionRecord {
  const known = new Map<Release, ComparedReleases>();
  return {
    releases: all.filter(({ revision }) => revision !== compiled.fleet.book.revision),
    compared(release) {
      const found = known.get(release) ?? compareReleases(compiled, release);
      known.set(release, found);
      return found;
    },
  };
}
