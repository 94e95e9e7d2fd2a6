/**
 * What is lit through the stages of a procedure, as SVG: a row for each thing, the stages from left to right. Drawings are
 * narrow enough for a phone, so that wider pages and paper set several beside each other.
 */
import type { PhaseRow } from '../book/index.ts';
import { escapeXml, number } from './markup.ts';
import { textWidth } from './text.ts';

type Cell = PhaseRow['cells'][number];

const WIDTH = 344;
const MARGIN = 2;
const HEAD = 22;
const TITLE = 18;
const BAR = 12;
const ROW = TITLE + BAR + 8;
/** A flashing stage is drawn as so many blocks. */
const BLOCKS = 3;
const BLOCK_GAP = 3;

export interface Phases {
  /** Unique on the page. */
  readonly id: string;
  /** "Lights". */
  readonly title: string;
  readonly stages: readonly { readonly number: number; readonly title: string }[];
  readonly rows: readonly PhaseRow[];
}

/** A run of stages in which a row is the same. */
interface Run extends Cell {
  readonly from: number;
  readonly to: number;
}

/** Text of 14 units. Colours come from `src/styles/figures.css`. */
export function phasesSvg({ id: name, title, stages, rows }: Phases): string {
  const id = escapeXml(name);
  const step = (WIDTH - 2 * MARGIN) / stages.length;
  const x = (stage: number): number => MARGIN + stage * step;
  const height = HEAD + rows.length * ROW;
  const widest = Math.max(WIDTH, ...rows.map(({ item }) => 2 * MARGIN + textWidth(item.title, 400)));
  const [width, bottom] = [number(widest), number(height)];
  return [
    `<svg class="flow-drawing phases" role="img" aria-labelledby="${id}-title" aria-describedby="${id}-text"`,
    ` width="${width}" height="${bottom}" viewBox="0 0 ${width} ${bottom}">`,
    `<title id="${id}-title">${escapeXml(`${title} through the stages`)}</title>`,
    `<desc id="${id}-text">${escapeXml(description(stages, rows))}</desc>`,
    ...stages.map(({ number: words }, at) => head(x(at) + step / 2, String(words))),
    ...[...stages.keys(), stages.length].map((at) => line(x(at), height)),
    ...rows.flatMap((row, at) => rowOf(row, HEAD + at * ROW, x)),
    '</svg>',
  ].join('');
}

function head(x: number, words: string): string {
  return `<text class="flow-label" x="${number(x)}" y="14">${escapeXml(words)}</text>`;
}

function line(x: number, bottom: number): string {
  return `<path class="timeline-tick" d="M${number(x)} ${HEAD - 4}V${number(bottom)}"/>`;
}

/** The words stand over the bars, on a ground of their own, so that no line runs through them. */
function rowOf({ item, cells }: PhaseRow, top: number, x: (stage: number) => number): string[] {
  const behind = `<rect class="flow-behind" x="0" y="${number(top)}" width="${number(textWidth(item.title, 400) + MARGIN + 4)}" height="${TITLE}"/>`;
  const words = `<text class="timeline-title" x="${MARGIN}" y="${number(top + 14)}">${escapeXml(item.title)}</text>`;
  return [behind, words, ...runsOf(cells).map((run) => bar(run, top + TITLE, x))];
}

function runsOf(cells: readonly Cell[]): Run[] {
  return cells.reduce<Run[]>((runs, cell, at) => {
    const last = runs.at(-1);
    if (last && last.lit === cell.lit && last.flashing === cell.flashing) {
      return [...runs.slice(0, -1), { ...last, to: at + 1 }];
    }
    return [...runs, { ...cell, from: at, to: at + 1 }];
  }, []);
}

/** Filled where it is lit throughout, an outline where it is so in part, blocks where it flashes, a line where it is dark. */
function bar({ from, to, lit, flashing }: Run, top: number, x: (stage: number) => number): string {
  const [left, right] = [x(from) + 1, x(to) - 1];
  if (lit === 'none')
    return `<path class="phase-dark" d="M${number(left)} ${number(top + BAR - 1)}H${number(right)}"/>`;
  const rect = (start: number, end: number): string =>
    `<rect class="phase-${lit}" x="${number(start)}" y="${number(top)}" width="${number(end - start)}" height="${BAR}"/>`;
  if (!flashing) return rect(left, right);
  const count = (to - from) * BLOCKS;
  const block = (right - left + BLOCK_GAP) / count;
  return Array.from({ length: count }, (_, at) => rect(left + at * block, left + (at + 1) * block - BLOCK_GAP)).join(
    '',
  );
}

/** The same in words: each row with the stages in which it is lit. */
function description(stages: Phases['stages'], rows: readonly PhaseRow[]): string {
  const numbers = (cells: readonly Cell[], lit: Cell['lit']): string =>
    cells.flatMap((cell, at) => (cell.lit === lit ? [stages[at]?.number ?? at + 1] : [])).join(', ');
  return rows
    .map(({ item, cells }) => {
      const [all, some] = [numbers(cells, 'all'), numbers(cells, 'some')];
      const parts = [
        ...(all === '' ? [] : [`lit throughout in ${all}`]),
        ...(some === '' ? [] : [`lit in part in ${some}`]),
      ];
      return `${item.title}: ${parts.join('; ')}.`;
    })
    .join(' ');
}
