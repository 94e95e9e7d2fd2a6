/** From what a topic says of each fit to blocks that say it once for all aircraft of which it is true. */
import type { Compiled, Fit } from '../../compile/index.ts';
import { aircraftAddress } from '../addresses.ts';
import type { Effectivity, Inline, StateView } from '../book.ts';
import type { SheetBlock, SheetCell, SheetLine, SheetRow } from '../book-sheets.ts';
import { effectivityOf } from '../effectivity.ts';

/** What a block says on one fit. */
export type SheetContent = Omit<SheetBlock, 'id' | 'effectivity'>;

/** A list that a topic shows, row by row; undefined where there is no such row on a fit. */
export interface ListSubject {
  /** Unique within the topic. */
  readonly key: string;
  readonly head: Omit<SheetContent, 'rows'>;
  readonly rows: readonly ((fit: Fit) => SheetRow | undefined)[];
}

/** One thing that a topic tells of, on each fit; undefined where there is nothing to tell. */
export interface Subject {
  /** Unique within the topic. */
  readonly key: string;
  readonly on: (fit: Fit) => SheetContent | undefined;
}

/** Of a list one block; of anything else one for each group of fits on which its content is the same. */
export function blocksOf(
  compiled: Compiled,
  topic: string,
  subjects: readonly (Subject | ListSubject)[],
): SheetBlock[] {
  return subjects.flatMap((subject) => {
    if ('rows' in subject) return listBlock(compiled, topic, subject);
    const { key, on } = subject;
    return [...grouped(compiled.fits, on).values()].map(({ content, fits }, at) => ({
      id: `${topic}-${key}${at === 0 ? '' : `-${at + 1}`}`,
      ...content,
      effectivity: effectivityOf(compiled, fits),
    }));
  });
}

function listBlock(compiled: Compiled, topic: string, { key, head, rows }: ListSubject): SheetBlock[] {
  const found = rows.flatMap((on) => [...grouped(compiled.fits, on).values()]);
  const fits = compiled.fits.filter((fit) => found.some((some) => some.fits.includes(fit)));
  if (fits.length === 0) return [];
  return [
    {
      id: `${topic}-${key}`,
      ...head,
      effectivity: effectivityOf(compiled, fits),
      rows: found.map(({ content, fits: having }) =>
        having.length === fits.length ? content : { ...content, effectivity: effectivityOf(compiled, having) },
      ),
    },
  ];
}

/** The fits on which the same is said, by what is said. */
function grouped<T>(
  fits: readonly Fit[],
  on: (fit: Fit) => T | undefined,
): Map<string, { readonly content: T; readonly fits: Fit[] }> {
  const groups = new Map<string, { readonly content: T; readonly fits: Fit[] }>();
  for (const fit of fits) {
    const content = on(fit);
    if (content === undefined) continue;
    const key = JSON.stringify(content);
    const group = groups.get(key) ?? { content, fits: [] };
    group.fits.push(fit);
    groups.set(key, group);
  }
  return groups;
}

/** Whether something holds for every aircraft of a fit for as long as they have it. */
export function coversFit({ aircraft }: Effectivity, { holders }: Fit): boolean {
  return holders.every((holder) => {
    const to = aircraftAddress(holder.aircraft);
    return aircraft.some(
      (one) =>
        one.to === to &&
        (one.from ?? '') <= (holder.from ?? '') &&
        (one.until ?? '9999-12-31') >= (holder.until ?? '9999-12-31'),
    );
  });
}

export function cell(lines: readonly SheetLine[], more: Partial<Omit<SheetCell, 'lines'>> = {}): SheetCell {
  return { lines, answer: false, quiet: false, span: 1, ...more };
}

/** What the cell of a row says of lamps, read out of the row's key; nothing where its column is about something else. */
export function lampsIn(key: string, at: number, anchors: readonly string[] | undefined): Pick<SheetCell, 'lamps'> {
  const value = key.split('_')[at] ?? '';
  if (!anchors || (value !== 'serviceable' && !value.endsWith('failed'))) return {};
  return { lamps: { state: value === 'serviceable' ? 'serviceable' : 'failed', anchors } };
}

export function words(...runs: readonly (readonly Inline[])[]): SheetCell {
  return cell(runs.map((run) => ({ words: run })));
}

/** A state, which a worksheet leaves out. */
export function answer(state: StateView): SheetCell {
  return cell([{ state, words: [] }], { answer: true });
}

/** Rows that each stand for themselves. */
export function row(...cells: readonly SheetCell[]): SheetRow {
  return { cells, first: true };
}
