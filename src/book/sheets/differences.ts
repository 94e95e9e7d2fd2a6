/** What differs between an aircraft and another one, or a training device, on paper. */
import { type Compiled, comparable, type Fit } from '../../compile/index.ts';
import type { Inline } from '../book.ts';
import type { ComparisonView, DifferenceView, PanelDifferences } from '../book-differences.ts';
import type { SheetTopicView } from '../book-sheets.ts';
import { link, separate, text } from '../cells.ts';
import { differences } from '../differences.ts';
import type { Names } from '../names.ts';
import { answer, cell, lampsIn, row, type SheetContent, type Subject, words } from './block.ts';

/** The aircraft that the sheet is for, whichever it is. */
export const THIS = 'this aircraft';

/** The topic of any two aircraft that a reader compares on a sheet of their own. */
export const PAIR = 'pair';

const NOTHING: SheetContent = {
  title: 'Nothing differs',
  columns: [],
  rows: [row(words([text('Nothing that this book shows looks or behaves otherwise.')]))],
};

/** `sides` gives the two fits that are compared on a sheet for a fit, or undefined where it compares nothing. */
export function differenceSubjects(
  compiled: Compiled,
  sides: (fit: Fit) => readonly [Fit, Fit] | undefined,
  names: Names,
): Subject[] {
  const compared = comparable(compiled);
  const known = new Map<string, ReadonlyMap<string, SheetContent>>();
  const contentsOn = (fit: Fit): ReadonlyMap<string, SheetContent> => {
    const pair = sides(fit);
    if (!pair) return new Map();
    const key = pair.map(({ index }) => index).join(' ');
    const found =
      known.get(key) ?? new Map(differences(compared, ...pair, names).flatMap((one) => ofPanel(one, names)));
    known.set(key, found);
    return found;
  };
  const keys = new Set(compiled.fits.flatMap((fit) => [...contentsOn(fit).keys()]));
  const panels = compiled.fleet.panels.map(({ title }) => title);
  const ordered = panels.flatMap((panel) => [...keys].filter((key) => key.startsWith(`${panel}/`)));
  return [
    ...ordered.map((key) => ({
      key: key.toLowerCase().replace(/[^a-z0-9]+/g, '-'),
      on: (fit: Fit) => contentsOn(fit).get(key),
    })),
    { key: 'nothing', on: (fit: Fit) => (contentsOn(fit).size > 0 ? undefined : NOTHING) },
  ];
}

/** All that differs between two aircraft, as a topic: what the page of comparisons shows, on paper. */
export function comparisonTopic({ names, notes, options, panels }: ComparisonView): SheetTopicView {
  const [here, there] = names;
  const optionRows = options.map(({ option, here: one, there: other }) =>
    row(words([link(option.to, option.title)]), said([text(one)]), said([text(other)])),
  );
  const contents: SheetContent[] = [
    ...notes.map((note) => ({ title: 'Of which day', columns: [], rows: [row(words([text(note)]))] })),
    ...(optionRows.length === 0
      ? []
      : [{ title: 'Options that differ', columns: [[text('')], [text(here)], [text(there)]], rows: optionRows }]),
    ...panels.flatMap((one) => ofPanel(one, { here, there }).map(([, content]) => content)),
    ...(panels.length === 0 ? [NOTHING] : []),
  ];
  const effectivity = { whole: true, aircraft: [], text: '' };
  return {
    id: PAIR,
    title: `${here} and ${there}`,
    blocks: contents.map((content, at) => ({ ...content, id: `${PAIR}-${at + 1}`, effectivity })),
  };
}

/** By a key that begins with the title of the panel; what looks otherwise before what behaves otherwise. */
function ofPanel(one: PanelDifferences, names: Names): [string, SheetContent][] {
  const { panel, looks, notFitted, lone, differences: some } = one;
  const rows = [
    ...looks.map(({ control, here, baseline }) =>
      row(words([link(control.to, control.title)]), said(here), said(baseline)),
    ),
    ...notFitted.flatMap(({ verdict, items }) =>
      items.map((item) =>
        row(
          words([link(item.to, item.title)]),
          ...(verdict.endsWith(names.here)
            ? [said([text('not fitted')]), said([text('fitted')])]
            : [said([text('fitted')]), said([text('not fitted')])]),
        ),
      ),
    ),
  ];
  const equipment: [string, SheetContent][] =
    rows.length === 0
      ? []
      : [
          [
            `${panel.title}/0`,
            {
              title: panel.title,
              note: 'What is fitted',
              to: panel,
              columns: [[text('')], [text(upper(names.here))], [text(upper(names.there))]],
              rows,
            },
          ],
        ];
  const alone = lone.map(({ id, title, verdict, says }): [string, SheetContent] => [
    `${panel.title}/1/${id}`,
    {
      title: `${panel.title}: ${title.map((part) => part.text).join('')}`,
      note: verdict,
      columns: [],
      rows: says.map(({ words: run }) => row(cell([{ words: run }], { answer: true }))),
    },
  ]);
  return [
    ...equipment,
    ...alone,
    ...some.map((each): [string, SheetContent] => [`${panel.title}/2/${each.id}`, table(each)]),
  ];
}

function said(run: readonly Inline[]) {
  return cell([{ words: run }], { answer: true });
}

function table({ item, lamps, verdict, table: { columns, resultTitles, rows } }: DifferenceView): SheetContent {
  return {
    title: item.title,
    note: verdict,
    to: item,
    ...(lamps ? { lamps } : {}),
    columns: [
      ...columns.map(({ title, each }) => (each ? separate(each, 'or') : title)),
      ...resultTitles.map((title) => [text(upper(title))]),
    ],
    rows: rows.map(({ key, cells, results, first }) => ({
      first,
      cells: [
        ...cells.map(({ text: run, any, again }, at) =>
          cell([{ words: run }], { quiet: any || again, ...lampsIn(key, at, columns[at]?.lamps) }),
        ),
        ...results.map(answer),
      ],
    })),
  };
}

function upper(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}
