/** Lists on paper, out of the pages that gather things of one kind: legends, messages, the fleet by option. */
import type { Fit } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { MessageClass } from '../../model/index.ts';
import type { Inline } from '../book.ts';
import type { FleetPage, FleetRow, LegendsPage, MessagesPage, OccasionGroup } from '../book-reference.ts';
import type { SheetCell, SheetLine, SheetRow } from '../book-sheets.ts';
import { joined, legend, link, separate, text, upperFirst } from '../cells.ts';
import { cell, coversFit, type ListSubject, row, type Subject, words } from './block.ts';

/** What each legend of an aircraft can mean. */
export function legendRows(page: LegendsPage): ListSubject[] {
  const rows = page.letters.flatMap(({ legends }) =>
    legends.flatMap((one) =>
      one.things.map(
        (thing) => (fit: Fit) =>
          coversFit(thing.on, fit)
            ? row(
                words([legend(one.text)]),
                words(
                  [link(thing.item.to, thing.item.title)],
                  [text([thing.colour, thing.kind].filter((word) => word !== undefined).join(' '))],
                ),
                occasions(thing.groups, fit, false),
              )
            : undefined,
      ),
    ),
  );
  const columns = ['Legend', 'What it stands on', 'When it is lit'].map((title) => [text(title)]);
  return [{ key: 'legends', head: { title: 'Legends', to: { to: page.address, title: page.title }, columns }, rows }];
}

/** Messages of some classes, a table each. */
export function messageRows(page: MessagesPage, classes: readonly MessageClass[]): ListSubject[] {
  return page.classes
    .filter(({ messageClass }) => classes.includes(messageClass))
    .map(({ id, messageClass, title, messages }) => ({
      key: messageClass,
      head: {
        title,
        to: { to: page.address, title, anchor: id },
        columns: [[text('Message')], [text('When it is raised')]],
      },
      rows: messages.map(
        (message) => (fit: Fit) =>
          coversFit(message.on, fit)
            ? row(
                words([legend(message.text)], ...(message.colour === undefined ? [] : [[text(message.colour)]])),
                occasions(message.groups, fit, true),
              )
            : undefined,
      ),
    }));
}

/** When something is seen on a fit; dark, and not shown, is what it is otherwise. */
function occasions(groups: readonly OccasionGroup[], fit: Fit, isMessage: boolean): SheetCell {
  const group = groups.find(({ effectivity }) => coversFit(effectivity, fit));
  const seen = (group?.occasions ?? []).filter(({ state }) => state.glyph !== 'dark' && state.text !== 'not shown');
  const lines = seen.map(({ state, alternatives, more }): SheetLine => {
    const run = [...separate(alternatives), ...(more ? [text(', and in other cases')] : [])];
    // A message says by its being there that it is shown.
    return isMessage && seen.length === 1 && state.text === 'shown' ? { words: capital(run) } : { state, words: run };
  });
  return cell(lines.length > 0 ? lines : [{ words: [text('Never in normal cases')] }], { answer: true });
}

function capital([first, ...rest]: readonly Inline[]): Inline[] {
  return first ? [{ ...first, text: upperFirst(first.text) }, ...rest] : [];
}

/** The whole fleet, whatever the aircraft: a row for those that are alike. */
export function fleetRows(page: FleetPage): Subject[] {
  const columns = [[text('Aircraft')], ...page.options.map((option) => [link(option.to, option.title)])];
  const rows = [...page.rows, ...page.devices].map(fleetRow);
  const content = { title: page.title, to: { to: page.address, title: page.title }, columns, rows };
  return [{ key: 'fleet', on: () => content }];
}

function fleetRow({ aircraft, cells, baseline }: FleetRow): SheetRow {
  const names = joined(
    aircraft.map(({ to, title }) => link(to, title)),
    ', ',
  );
  return row(
    words(names),
    ...cells.map(({ value, differs, later }) => {
      const changes = later.map((one): Inline[] => {
        const whose = aircraft.length > 1 ? `${one.registration}: ` : '';
        return [text(`${whose}${one.value} from ${one.date}`)];
      });
      return cell(
        [[text(value)], ...changes].map((run) => ({ words: run })),
        {
          answer: true,
          quiet: !baseline && !differs && later.length === 0,
        },
      );
    }),
  );
}

/** "warnings and cautions". */
export function classesInWords(classes: readonly MessageClass[]): string {
  const plural: Readonly<Record<MessageClass, string>> = {
    warning: 'warnings',
    caution: 'cautions',
    advisory: 'advisories',
    reminder: 'reminders',
  };
  return list(
    classes.map((each) => plural[each]),
    'and',
  );
}
