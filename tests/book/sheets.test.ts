/** Sheets as data: what their cells say of lamps, by which a reader's marks are set. */
import { expect, it } from 'vitest';
import { everyKind } from './every-kind.ts';

it('tell of every cell that says whether a lamp works which lamp it is, and of no other', () => {
  const sheet = everyKind.pages.find((page) => page.kind === 'sheet');
  const blocks = sheet?.topics.flatMap((topic) => topic.blocks) ?? [];
  const cells = blocks.flatMap(({ title, rows }) =>
    rows.flatMap((row) =>
      row.cells.map(({ lines, lamps }) => ({
        title,
        words: lines.flatMap(({ words }) => words.map(({ text }) => text)).join(''),
        lamps,
      })),
    ),
  );
  const told = cells.filter(({ words }) => words === 'serviceable' || words === 'failed');
  expect(told.map(({ title, words }) => `${title} ${words}`)).toEqual([
    'Position lights: left lamp failed',
    'Position lights: right lamp failed',
    'Position lights: tail lamp failed',
  ]);
  expect(cells.filter(({ lamps }) => lamps)).toEqual(told);
  expect(told.map(({ lamps }) => lamps)).toEqual(
    ['left', 'right', 'tail'].map((lamp) => ({ state: 'failed', anchors: [`position-lights-${lamp}`] })),
  );
});
