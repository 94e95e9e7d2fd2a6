/** The modes of a sequence and its transitions as SVG. The numbers on the lines are those of the transitions' table. */
import type { StateDiagramView } from '../book/index.ts';
import { arrow, roundedPath, textLines } from './lines.ts';
import { escapeXml, number } from './markup.ts';
import { layoutStates, type PlacedMode, type PlacedMove } from './states-layout.ts';

const CORNER = 8;

/** Text of 14 units; what is too wide for its place should scroll. Colours come from `src/styles/figures.css`. */
export function statesSvg(diagram: StateDiagramView): string {
  const layout = layoutStates(diagram);
  const id = escapeXml(diagram.id);
  const [width, height] = [number(layout.width), number(layout.height)];
  const [dot] = layout.start;
  return [
    `<svg class="flow-drawing" role="img" aria-labelledby="${id}-drawing-title" aria-describedby="${id}-drawing-text"`,
    ` width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<title id="${id}-drawing-title">${escapeXml(diagram.title)}</title>`,
    `<desc id="${id}-drawing-text">${description(diagram)}</desc>`,
    `<path class="flow-line" d="${[...layout.moves.map(({ points }) => points), layout.start].map(roundedPath).join('')}"/>`,
    ...[...layout.moves.map(({ points }) => points), layout.start].map(arrow),
    dot ? `<circle class="flow-arrow" cx="${number(dot.x)}" cy="${number(dot.y)}" r="4"/>` : '',
    ...layout.moves.map(label),
    ...layout.modes.map(modeShape),
    '</svg>',
  ].join('');
}

function description({ vertices, edges }: StateDiagramView): string {
  const lines = new Set(edges.map(({ from, to }) => `${from} ${to}`)).size;
  return `${vertices.length} modes, ${lines} ways from one to another. The table of transitions says the same.`;
}

function label({ label: { box, text } }: PlacedMove): string {
  const behind = `<rect class="states-number" x="${number(box.x)}" y="${number(box.y)}" width="${number(box.width)}" height="${number(box.height)}" rx="${number(box.height / 2)}"/>`;
  const middle = box.x + box.width / 2;
  return `${behind}<text class="flow-label strong" x="${number(middle)}" y="${number(box.y + 15)}">${escapeXml(text)}</text>`;
}

function modeShape({ box, text, final }: PlacedMode): string {
  const rect = (inset: number): string =>
    `<rect class="states-mode" x="${number(box.x + inset)}" y="${number(box.y + inset)}" width="${number(box.width - 2 * inset)}" height="${number(box.height - 2 * inset)}" rx="${CORNER - inset / 2}"/>`;
  const corner = { x: box.x + (box.width - text.width) / 2, y: box.y + (box.height - text.height) / 2 };
  return rect(0) + (final ? rect(3.5) : '') + textLines(text, corner, 'flow-label strong');
}
