/** The first page: everything in two taps. */
import type { Compiled } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { Fleet, Panel } from '../../model/index.ts';
import { ABOUT, aircraftAddress, COMPARE, DIFFERENCES, HOME, panelAddress, QUERIES } from '../addresses.ts';
import type { HomePage, Listed } from '../book.ts';
import { listedControl } from '../links.ts';
import { listPages } from '../lists.ts';
import type { RevisionRecord } from '../releases/record.ts';
import { baselineOf } from './aircraft.ts';
import { changesListed } from './changes.ts';
import { hasPairs } from './compare.ts';

export function homePage(compiled: Compiled, record: RevisionRecord): HomePage {
  const { fleet } = compiled;
  const [changes] = changesListed(record);
  return {
    kind: 'home',
    address: HOME,
    title: fleet.book.title,
    trail: [],
    ...(changes ? { changes } : {}),
    lookUp: [
      {
        to: DIFFERENCES,
        title: 'Differences',
        detail: `What is otherwise than on ${baselineOf(compiled).registration}, aircraft by aircraft.`,
      },
      ...(hasPairs(compiled)
        ? [{ to: COMPARE, title: 'Any two aircraft', detail: 'All that differs between the two that you choose.' }]
        : []),
      ...listPages(compiled),
      ...queriesListed(fleet),
      { to: ABOUT, title: 'About and cautions', detail: 'The sources, and what this book is not.' },
    ],
    panels: fleet.panels.map((panel) => ({
      panel: { to: panelAddress(panel), title: panel.title },
      controls: fleet.controls.filter((control) => control.panel === panel.id).map(listedControl),
      seen: seenOn(fleet, panel),
    })),
    aircraft: fleet.aircraft
      .filter(({ kind }) => kind === 'aircraft')
      .map((aircraft) => ({
        to: aircraftAddress(aircraft),
        title: aircraft.registration,
        baseline: aircraft.serial === fleet.book.baseline,
      })),
    devices: fleet.aircraft
      .filter(({ kind }) => kind === 'device')
      .map((device) => ({
        to: aircraftAddress(device),
        title: device.registration,
        ...(device.serial === fleet.book.baseline ? { detail: 'baseline' } : {}),
      })),
  };
}

/** "12 lights, signs and annunciators", of the kinds that there are. */
function seenOn({ items }: Fleet, panel: Panel): string {
  const own = items.filter((item) => item.panel === panel.id);
  const kinds = (['light', 'sign', 'annunciator'] as const).map(
    (kind) => own.filter((item) => item.kind === kind).length,
  );
  const words = ['light', 'sign', 'annunciator'].filter((_, at) => (kinds[at] ?? 0) > 0);
  const count = kinds.reduce((sum, each) => sum + each, 0);
  return count === 0
    ? ''
    : `${count} ${list(
        words.map((word) => (count === 1 ? word : `${word}s`)),
        'and',
      )}`;
}

/** The register of queries, where there is one, with how many are open: "2 open, 1 answered". */
export function queriesListed({ queries }: Fleet): Listed[] {
  if (queries.length === 0) return [];
  const answered = queries.filter((query) => query.answered).length;
  const detail = [
    ...(answered < queries.length ? [`${queries.length - answered} open`] : []),
    ...(answered > 0 ? [`${answered} answered`] : []),
  ].join(', ');
  return [{ to: QUERIES, title: 'Queries', detail }];
}
