/**
 * Holds walk-rounds on sheets to the authors' files: on each aircraft a row for every lamp outside that is fitted, and in a stage of a
 * procedure what the oracle says that it does in it.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { attribute, byClass, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { type Fit, type Oracle, Stages, type StageWorlds } from '../../oracle/index.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

interface InStage {
  readonly procedure: string;
  readonly stage: string;
}
interface SheetText {
  readonly topics: readonly { readonly 'walk-round'?: string; readonly in?: InStage }[];
}
type Spot = string | { readonly spot?: string; readonly at?: string };
interface PanelText {
  readonly items?: Readonly<
    Record<
      string,
      {
        readonly kind: string;
        readonly colour?: string;
        readonly spots?: readonly Spot[];
        readonly lamps?: Readonly<
          Record<string, { readonly spot?: Spot; readonly at?: string; readonly colour?: string }>
        >;
      }
    >
  >;
}

/** A lamp with a spot, as the author's file has it. */
interface Lamp {
  readonly item: string;
  readonly title: string;
  readonly attribute: string;
  readonly where: string;
  readonly colour: string;
}

/** `serials`: the aircraft that are judged; all unless given. */
export function judgeWalkRounds(pages: Pages, oracle: Oracle, folder: string, serials?: readonly string[]): string[] {
  const sheets = parse(readFileSync(join(folder, 'sheets.yaml'), 'utf8')) as Record<string, SheetText>;
  const stages = new Stages(oracle.meaning);
  const lamps = lampsIn(oracle, folder);
  return Object.entries(sheets).flatMap(([id, { topics }]) =>
    topics.flatMap((topic) => {
      if (topic['walk-round'] === undefined) return [];
      const name = ['walk-round', topic.in?.procedure, topic.in?.stage].filter((part) => part !== undefined).join('-');
      const address = `sheets/${id}.html`;
      return attempt(`${address} ${name}`, () => {
        const sections = byClass(pages.page(address), 'sheet-topic');
        const section = sections.find((each) => attribute(each, 'data-topic') === name);
        if (!section) return ['is missing'];
        return oracle.aircraft
          .filter(({ serial }) => serials?.includes(serial) ?? true)
          .flatMap(({ serial, fit }) => {
            const here = topic.in && stageOn(oracle, stages, fit, topic.in);
            const wanted = lamps
              .filter(({ item }) => oracle.isFitted(fit, item))
              .map((lamp) => {
                const does = here ? [doing(oracle, stages, fit, here, lamp)] : [];
                return [lamp.where, lamp.title, lamp.colour, ...does].join(' | ');
              });
            const shown = rowsFor(section, serial, oracle.content.book.date);
            return [
              ...without(wanted, shown).map((row) => `on ${serial} no row says ${row}`),
              ...without(shown, wanted).map((row) => `on ${serial} a row says ${row}`),
            ];
          });
      });
    }),
  );
}

/** Every lamp of every light that the files give a spot. */
function lampsIn(oracle: Oracle, folder: string): Lamp[] {
  const panels = readdirSync(join(folder, 'panels')).map((file) => readFileSync(join(folder, 'panels', file), 'utf8'));
  const items = panels.flatMap((text) => Object.entries((parse(text) as PanelText).items ?? {}));
  return items.flatMap(([item, { kind, colour, spots = [], lamps = {} }]) => {
    if (kind !== 'light') return [];
    const title = oracle.content.items.get(item)?.title ?? '';
    const named = Object.entries(lamps).flatMap(([attribute, { spot, at, ...lamp }]) =>
      spot === undefined ? [] : [{ item, title, attribute, colour: lamp.colour ?? '–', where: whereOf(spot, at) }],
    );
    const unnamed = spots.map((spot) => ({
      item,
      title,
      attribute: 'lamp',
      colour: colour ?? '–',
      where: whereOf(spot),
    }));
    return [...named, ...unnamed];
  });
}

/** "Left wing tip": the author's words, or else those of a spot's name. */
function whereOf(spot: Spot, at = typeof spot === 'string' ? undefined : spot.at): string {
  const name = typeof spot === 'string' ? spot : spot.spot;
  const words = at ?? String(name).replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function stageOn(oracle: Oracle, stages: Stages, fit: Fit, { procedure, stage }: InStage): StageWorlds {
  const known = oracle.content.procedures.get(procedure);
  const found = known && stages.on(fit, known).find((each) => each.stage.id === stage);
  if (!found) throw new Error(`no stage ${stage} of ${procedure}`);
  return found;
}

/** "lit", or "flashing, lit in some cases": what a lamp does in a stage, in alphabetical order. */
function doing(oracle: Oracle, stages: Stages, fit: Fit, here: StageWorlds, { item, attribute }: Lamp): string {
  const seen = [...stages.outcomes(fit, here, item, attribute).values()].flatMap(({ outcomes }) => [...outcomes]);
  const lit = [...new Set(seen)].filter((state) => state !== 'dark');
  if (lit.length === 0) return 'dark';
  const { states } = oracle.content.items.get(item)?.attributes.get(attribute) ?? {};
  const titles = lit.map((state) => states?.get(state)?.title ?? state).toSorted();
  return `${titles.join(', ')}${seen.includes('dark') ? ' in some cases' : ''}`;
}

/** Where, light, colour and what it does, of every row that holds for an aircraft on the book's date. */
function rowsFor(section: Element, serial: string, date: string): string[] {
  const holds = (element: Element): boolean => {
    const on = attribute(element, 'data-on')
      ?.split(' ')
      .map((each) => each.split('/'));
    return on?.some(([of, from, until]) => of === serial && (from || date) <= date && date <= (until || date)) ?? true;
  };
  return byClass(section, 'sheet-block')
    .filter(holds)
    .flatMap((block) => byTag(block, 'tr').filter(holds))
    .flatMap((row) => {
      const cells = byTag(row, 'td').map((cell) => {
        const words = byClass(cell, 'line').map(textOf).join(' ');
        return [attribute(cell, 'data-column') ?? '', words] as const;
      });
      if (cells.length === 0) return [];
      return [
        ['Where', 'Light', 'Colour', 'Then']
          .flatMap((column) => {
            const words = cells.find(([name]) => name === column)?.[1];
            if (words === undefined) return [];
            const [states = '', some = ''] = column === 'Then' ? words.split(/(?= in some cases$)/) : [words];
            return [
              column === 'Then'
                ? `${states
                    .split(/, | or /)
                    .toSorted()
                    .join(', ')}${some}`
                : words,
            ];
          })
          .join(' | '),
      ];
    });
}

/** What is in one list more often than in another. */
function without(these: readonly string[], those: readonly string[]): string[] {
  const left = [...those];
  return these.filter((each) => {
    const at = left.indexOf(each);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}
