/**
 * Holds the pages of tours to the authors' files: every stop in its order, what stands at it true of the aircraft that the
 * tour is for, every word that the author wrote, and whatever the tour passes by.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { byClass, byId, byTag, children, type Element, textOf } from '../../helpers/dom.ts';
import { covers, holdingsOf } from '../../helpers/effectivity-words.ts';
import type { Fit, Oracle } from '../../oracle/index.ts';
import { drivenBy, holdsFor } from './groups.ts';
import type { Pages } from './pages.ts';
import { judgeControl, judgeItem } from './sentences.ts';
import { attempt } from './tables.ts';

interface TourText {
  readonly id: string;
  readonly panel: string;
  readonly for: string | undefined;
  readonly opening: string;
  readonly stops: readonly { readonly at: string; readonly title: string; readonly text: string }[];
}

/** `folder` is the content that the oracle answers for. */
export function judgeTours(pages: Pages, oracle: Oracle, folder: string): string[] {
  const tours = readdirSync(join(folder, 'tours')).map((name) => readTour(join(folder, 'tours'), name));
  return tours.flatMap((tour) => {
    const address = `tours/${tour.id}.html`;
    return attempt(address, () => judgeTour(pages.page(address), oracle, tour));
  });
}

/** By the guide: a block of keys, then a heading at level 2 for each stop. */
function readTour(folder: string, name: string): TourText {
  const [, front = '', body = ''] = /^---\n(.*?)^---\n(.*)$/ms.exec(readFileSync(join(folder, name), 'utf8')) ?? [];
  const key = (wanted: string): string | undefined => new RegExp(`^${wanted}: *(.*)$`, 'm').exec(front)?.[1];
  const [opening = '', ...stops] = `\n${body}`.split(/\n(?=## )/);
  return {
    id: name.replace(/\.md$/, ''),
    panel: key('panel') ?? '',
    for: key('for'),
    opening,
    stops: stops.map((text) => {
      const [heading = '', title = '', at = ''] = /^## \[(.*?)\]\(ref:(.*?)\)\n/.exec(text) ?? [];
      return { at, title, text: text.slice(heading.length) };
    }),
  };
}

function judgeTour(page: Element, oracle: Oracle, tour: TourText): string[] {
  const { for: wanted } = tour;
  const isFor = (fit: Fit): boolean =>
    wanted === undefined ||
    oracle.candidates(fit).some((one) => oracle.meaning.truths(wanted, oracle.meaning.at(one, {})).has(true));
  const fits = oracle.fits.filter(isFor);
  const sections = byClass(page, 'stop');
  const ids = sections.map((section) => section.attrs.find(({ name }) => name === 'id')?.value);
  const wantedIds = tour.stops.map(({ at }) => `stop-${at}`);
  if (ids.join() !== wantedIds.join()) return [`stops ${ids.join()} instead of ${wantedIds.join()}`];
  return [
    ...missingWords(byClass(page, 'walk')[0] as Element, tour.opening),
    ...tour.stops.flatMap((stop, at) => {
      const section = sections[at] as Element;
      const title = `${at + 1} ${stop.title || titleOf(oracle, stop.at)}`;
      const shown = textOf(byTag(section, 'h2')[0] as Element);
      return [
        ...(shown === title ? [] : [`stop "${shown}" instead of "${title}"`]),
        ...missingWords(section, stop.text),
        ...judgeStop(section, oracle, stop.at, fits),
      ].map((fault) => `${stop.at}: ${fault}`);
    }),
    ...judgeMissing(page, oracle, tour, fits),
  ];
}

function titleOf({ content }: Oracle, id: string): string {
  return content.places.get(id) ?? content.controls.get(id)?.title ?? content.items.get(id)?.title ?? '';
}

/** The controls at a stop that some of the aircraft have. */
function controlsAt(oracle: Oracle, at: string, fits: readonly Fit[]): string[] {
  return [...oracle.content.controls.values()]
    .filter(({ id, place }) => id === at || place === at)
    .map(({ id }) => id)
    .filter((id) => fits.some((fit) => oracle.valuesOn(fit, id).length > 0));
}

function judgeStop(section: Element, oracle: Oracle, at: string, fits: readonly Fit[]): string[] {
  const faults = controlsAt(oracle, at, fits).flatMap((control) => {
    const part = byId(section, `at-${control}`);
    return part ? judgeControl(part, oracle, control, fits) : [`nothing stands for ${control}`];
  });
  if (!oracle.content.items.has(at)) return faults;
  const fitted = fits.filter((fit) => oracle.isFitted(fit, at));
  const blocks = byClass(section, 'at');
  return fitted.flatMap((fit) =>
    holdingsOf(oracle, [fit]).flatMap((time) => {
      const mine = blocks.filter((block) => covers(holdsFor(oracle, block), time));
      const [block] = mine;
      if (!block || mine.length > 1) return [`${mine.length} lists of sentences for ${time.registration}`];
      const list = children(block).find(({ tagName }) => tagName === 'ul') as Element;
      return judgeItem(list, oracle, at, fit);
    }),
  );
}

/** The words of the author's text that the part of the page lacks, mark-up and expressions apart. */
export function missingWords(part: Element, text: string): string[] {
  const plain = text
    .replace(/^\[.*?\]: .*$/gm, '')
    .replace(/^:::.*$/gm, '')
    .replace(/\{holds="[^"]*"\}/g, '')
    .replace(/\]\([^)]*\)|\]\[[^\]]*\]|\[\^.*?\]:?/g, ' ');
  const words = (of: string): string[] => of.match(/[\p{L}\p{N}]+(?:['’:.][\p{L}\p{N}]+)*/gu) ?? [];
  const shown = words(textOf(part)).join(' ');
  return plain
    .split(/\n\s*\n|^- /m)
    .map((paragraph) => words(paragraph.replace(/:checked\[/g, ' ')).join(' '))
    .filter((paragraph) => !shown.includes(paragraph))
    .map((paragraph) => `"${paragraph}" is not on the page`);
}

function judgeMissing(page: Element, oracle: Oracle, tour: TourText, fits: readonly Fit[]): string[] {
  const { content } = oracle;
  const controls = tour.stops.flatMap(({ at }) => controlsAt(oracle, at, fits));
  const shown = new Set([
    ...tour.stops.map(({ at }) => at),
    ...controls.flatMap((id) => [id, ...drivenBy(oracle, id).map(({ item }) => item)]),
  ]);
  const onPanel = [
    ...[...content.controls.values()].filter(({ id }) => fits.some((fit) => oracle.valuesOn(fit, id).length > 0)),
    ...[...content.items.values()].filter(
      ({ id, kind }) => !['message', 'supply'].includes(kind) && fits.some((fit) => oracle.isFitted(fit, id)),
    ),
  ].filter(({ id, panel }) => panel === tour.panel && !shown.has(id));
  const section = byId(page, 'missing');
  const listed = section ? byTag(section, 'a').map(textOf) : [];
  const wanted = onPanel.map(({ title }) => title);
  return listed.join() === wanted.join() ? [] : [`not on the tour: ${listed.join()} instead of ${wanted.join()}`];
}
