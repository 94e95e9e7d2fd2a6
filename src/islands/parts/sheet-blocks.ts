/** What of a sheet's text holds for one aircraft on a day. */
import { holdsFor, stayOf } from './blocks.ts';

/** A table under its heading, as far as it is shown. */
export interface SheetPart {
  readonly title: HTMLElement;
  /** The topic's heading, above its first table. */
  readonly topic: HTMLElement | undefined;
  readonly head: HTMLElement | undefined;
  readonly rows: readonly HTMLTableRowElement[];
  readonly table: HTMLTableElement;
}

const holds = (element: HTMLElement, serial: string, day: string): boolean =>
  element.dataset['on'] === undefined || holdsFor(element.dataset['on'], serial, day);

/** Shows in the text what holds for the aircraft, hides the rest, and gives what is shown. */
export function show(text: HTMLElement, serial: string, day: string): SheetPart[] {
  const topics = [...text.querySelectorAll<HTMLElement>('.sheet-topic')];
  return topics.flatMap((topic) => {
    const heading = topic.querySelector<HTMLElement>('h2') ?? undefined;
    const parts = [...topic.querySelectorAll<HTMLElement>('.sheet-block')].flatMap((block): SheetPart[] => {
      const all = [...block.querySelectorAll<HTMLTableRowElement>('tbody > tr')];
      const rows = holds(block, serial, day) ? all.filter((row) => holds(row, serial, day)) : [];
      for (const row of all) row.hidden = !rows.includes(row);
      block.hidden = rows.length === 0;
      const title = block.querySelector<HTMLElement>('h3');
      const table = block.querySelector<HTMLTableElement>('table');
      const head = block.querySelector<HTMLElement>('thead') ?? undefined;
      return rows.length > 0 && title && table ? [{ title, topic: undefined, head, rows, table }] : [];
    });
    topic.hidden = parts.length === 0;
    return parts.map((part, at) => ({ ...part, topic: at === 0 && topics.length > 1 ? heading : undefined }));
  });
}

/** What would be shown for an aircraft, as a word that is the same for aircraft for which it is the same. */
export function signature(text: HTMLElement, serial: string, day: string): string {
  const some = [...text.querySelectorAll<HTMLElement>('[data-on]')];
  return some.map((element) => (holds(element, serial, day) ? '1' : '0')).join('');
}

/** The latest day since which something shown is so; empty where all of it is from the start. */
export function since(text: HTMLElement, serial: string, day: string): string {
  const days = [...text.querySelectorAll<HTMLElement>('[data-on]')].map(
    ({ dataset }) => stayOf(dataset['on'] ?? '', serial, day) ?? '',
  );
  return days.toSorted().at(-1) ?? '';
}
