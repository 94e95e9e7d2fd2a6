/** Whether the content is still what was released under the name that it bears. */
import type { Compiled } from '../../compile/index.ts';
import type { Diagnostics } from '../../diagnostics/index.ts';
import { CHANGES } from '../addresses.ts';
import { changesSince } from './changes.ts';
import { compareReleases } from './compared-releases.ts';
import type { Release } from './released.ts';

export function reportChanged(compiled: Compiled, releases: readonly Release[], diagnostics: Diagnostics): void {
  const { revision, revisionPlace } = compiled.fleet.book;
  const own = releases.find((release) => release.revision === revision);
  if (!own) return;
  const names = { here: 'then', there: 'now', revisions: true } as const;
  const { aircraft, panels, lists } = changesSince(compiled, compareReleases(compiled, own), names, CHANGES);
  if (aircraft.length + panels.length + lists.length === 0) return;
  diagnostics.report('SL149', { revision, path: `releases/${own.name}.json` }, revisionPlace);
}
