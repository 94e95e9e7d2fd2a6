/** The pages of printed sheets: the list, each one that the author defined, and the reader's own. */
import type { Aircraft, Fleet, Sheet, SheetTopic } from '../../model/index.ts';
import { aircraftAddress, OWN_SHEET, SHEETS, sheetAddress } from '../addresses.ts';
import type { Address, Listed } from '../book.ts';
import type { OwnSheetPage, SheetPage, SheetPaper, SheetsPage, SheetTopicView } from '../book-sheets.ts';
import { choiceTitle, choosable, type Made, topicId, topicView } from '../sheets/topics.ts';
import { trailTo } from '../trail.ts';
import { baselineOf } from './aircraft.ts';

const LIST: Listed = { to: SHEETS, title: 'Sheets to print' };
const OWN: Listed = { to: OWN_SHEET, title: 'A sheet of your own' };

export interface SheetPages {
  readonly pages: readonly (SheetsPage | SheetPage | OwnSheetPage)[];
  /** What sheets can be about, by id: what a reader's own sheet brings in. */
  readonly topics: ReadonlyMap<string, SheetTopicView>;
}

/** The kind and the address of each page of sheets. */
export function sheetHeads({ sheets }: Fleet): (readonly [kind: 'sheets' | 'sheet' | 'own-sheet', address: Address])[] {
  return [
    ['sheets', SHEETS],
    ...sheets.map((sheet) => ['sheet', sheetAddress(sheet)] as const),
    ['own-sheet', OWN_SHEET],
  ];
}

export function sheetPages(made: Made): SheetPages {
  const { compiled } = made;
  const { fleet } = compiled;
  const known = new Map<string, SheetTopicView>();
  const viewOf = (topic: SheetTopic): SheetTopicView => {
    const id = topicId(topic);
    const view = known.get(id) ?? topicView(made, topic);
    known.set(id, view);
    return view;
  };
  const choice = choosable(compiled)
    .map(({ title, topics }) => ({
      title,
      topics: topics
        .filter((topic) => viewOf(topic).blocks.length > 0)
        .map((topic) => ({ id: topicId(topic), title: choiceTitle(compiled, topic) })),
    }))
    .filter(({ topics }) => topics.length > 0);
  const offered = new Map(
    choice.flatMap(({ topics }) => topics.map(({ id }) => [id, known.get(id) as SheetTopicView])),
  );
  const shown = baselineOf(compiled).serial;
  const { address, paper } = fleet.book;
  const base = { trail: [...trailTo(), LIST], shown };
  return {
    topics: offered,
    pages: [
      {
        kind: 'sheets',
        address: SHEETS,
        title: LIST.title,
        trail: trailTo(),
        sheets: fleet.sheets.map((sheet) => ({
          to: sheetAddress(sheet),
          title: sheet.title,
          detail: paperInWords(sheet),
          ...(sheet.about === undefined ? {} : { about: sheet.about }),
        })),
        own: OWN,
      },
      ...fleet.sheets.map(
        (sheet): SheetPage => ({
          ...base,
          kind: 'sheet',
          address: sheetAddress(sheet),
          title: sheet.title,
          ...(sheet.about === undefined ? {} : { about: sheet.about }),
          paper: paperOf(sheet),
          topics: sheet.topics.map(viewOf),
          shown: differing(sheet, fleet.aircraft, viewOf) ?? shown,
          ...(address === undefined ? {} : { online: `${address}${sheetAddress(sheet)}` }),
        }),
      ),
      {
        ...base,
        kind: 'own-sheet',
        address: OWN_SHEET,
        title: OWN.title,
        paper: {
          size: paper,
          orientation: 'portrait',
          twoUp: false,
          sheets: { from: 1, to: 1 },
          type: { from: 7, to: 11 },
          columns: { from: 1, to: 4 },
        },
        choice,
        ...(address === undefined ? {} : { online: `${address}${OWN_SHEET}` }),
      },
    ],
  };
}

function paperOf({ size, orientation, twoUp, sheets, type, columns }: Sheet): SheetPaper {
  return { size, orientation, twoUp, sheets, type, columns };
}

/** "1 sheet of A4, portrait", "2 sheets of US Letter, landscape, two pages on each". */
export function paperInWords({ size, orientation, twoUp, sheets }: SheetPaper): string {
  const paper = size === 'Letter' ? 'US Letter' : size;
  const { from, to } = sheets;
  const many = to === 1 ? '1 sheet' : `${from === to ? to : `${from} to ${to}`} sheets`;
  return `${many} of ${paper}, ${orientation}${twoUp ? ', two pages on each' : ''}`;
}

/**
 * Of a sheet that tells nothing but how an aircraft differs from one: the serial of the first that does. That one itself would be a
 * sheet without a word.
 */
function differing(
  { topics }: Sheet,
  fleet: readonly Aircraft[],
  viewOf: (topic: SheetTopic) => SheetTopicView,
): string | undefined {
  const found = topics.map((topic) => {
    if (topic.kind !== 'differences' || topic.of !== undefined) return undefined;
    const self = aircraftAddress({ serial: topic.from });
    const others = viewOf(topic).blocks.flatMap(({ effectivity }) =>
      effectivity?.aircraft.some(({ to }) => to === self) ? [] : (effectivity?.aircraft ?? []),
    );
    const first = others.find(({ from, until }) => from === undefined && until === undefined);
    return fleet.find((one) => aircraftAddress(one) === first?.to)?.serial;
  });
  return found.every((serial) => serial !== undefined) ? found[0] : undefined;
}
