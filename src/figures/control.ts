/** Plain symbols of controls: the body, a mark at each position, and the legends beside the marks. */
import type { PanelCell } from '../book/index.ts';
import { escapeXml, number } from './markup.ts';
import { FONT_SIZE, textWidth } from './text.ts';

type Drawn = NonNullable<PanelCell['control']>;

interface Placed {
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly text: string;
}
interface Symbol {
  readonly shapes: string;
  readonly legends: readonly Placed[];
  /** The box of the body, which a guard goes around. */
  readonly body: readonly [x: number, y: number, width: number, height: number];
}

const STEP = 24;
/** Where marks begin, clear of a guard. */
const TICK = 24;
const MARGIN = 4;

/** The control as SVG, with the words that say the same. The lever or pointer stands in the first position. */
export function controlSvg({ symbol, guarded, positions, words }: Drawn): string {
  const drawn = symbol === 'rotary' ? rotary(positions) : upright(symbol, positions);
  const [bx, by, bw, bh] = drawn.body;
  const guard = guarded ? [bx - 7, by - 7, bw + 14, bh + 14] : [bx, by, bw, bh];
  const [gx, gy, gw, gh] = guard as [number, number, number, number];
  const left = Math.min(gx - 3, ...drawn.legends.map(leftOf)) - MARGIN;
  const right = Math.max(gx + gw + 3, ...drawn.legends.map((each) => leftOf(each) + widthOf(each))) + MARGIN;
  const top = Math.min(gy - 5, ...drawn.legends.map(({ y }) => y - FONT_SIZE)) - MARGIN;
  const bottom = Math.max(gy + gh + 2, ...drawn.legends.map(({ y }) => y + 4)) + MARGIN;
  const [width, height] = [Math.ceil(right - left), Math.ceil(bottom - top)];
  return [
    `<svg class="control-drawing" role="img" aria-label="${escapeXml(words)}" width="${width}" height="${height}"`,
    ` viewBox="${number(left)} ${number(top)} ${width} ${height}">`,
    drawn.shapes,
    guarded ? guardShape(gx, gy, gw, gh) : '',
    ...drawn.legends.map(
      ({ x, y, anchor, text }) =>
        `<text class="control-legend ${anchor}" x="${number(x)}" y="${number(y)}">${escapeXml(text)}</text>`,
    ),
    '</svg>',
  ].join('');
}

function widthOf({ text }: Placed): number {
  return textWidth(text, 650);
}

function leftOf(placed: Placed): number {
  const share = { start: 0, middle: 0.5, end: 1 }[placed.anchor];
  return placed.x - share * widthOf(placed);
}

/** Two hinges above, open at nothing else: a cover that is to be lifted. */
function guardShape(x: number, y: number, width: number, height: number): string {
  const hinge = (at: number): string => `M${number(at - 4)} ${number(y)}v-4h8v4`;
  return `<path class="control-guard" d="M${number(x)} ${number(y)}h${number(width)}v${number(height)}h${number(-width)}Z${hinge(x + 7)}${hinge(x + width - 7)}"/>`;
}

/** Positions one below the other, the first at the top. */
function upright(symbol: Exclude<Drawn['symbol'], 'rotary'>, positions: Drawn['positions']): Symbol {
  const at = (index: number): number => index * STEP;
  const last = at(positions.length - 1);
  const ticks = positions.map(({ springs }, i) => tick(TICK, at(i), springs)).join('');
  const legends = positions.map(
    ({ legend }, i): Placed => ({ x: TICK + 15, y: at(i) + 5, anchor: 'start', text: legend }),
  );
  if (symbol === 'button') {
    const middle = last / 2;
    return {
      shapes: `<rect class="control-body" x="-15" y="${number(middle - 15)}" width="30" height="30" rx="4"/><rect class="control-part" x="-9" y="${number(middle - 9)}" width="18" height="18" rx="2"/>${ticks}`,
      legends,
      body: [-15, middle - 15, 30, 30],
    };
  }
  if (symbol === 'rocker') {
    const height = last + 24;
    return {
      shapes: `<rect class="control-body" x="-11" y="-12" width="22" height="${height}" rx="3"/><path class="control-part" d="M-11 ${number(last / 2)}h22"/><circle class="control-lever" cx="0" cy="0" r="3"/>${ticks}`,
      legends,
      body: [-11, -12, 22, height],
    };
  }
  return {
    shapes: `<rect class="control-body" x="-6" y="-6" width="12" height="${last + 12}" rx="6"/><circle class="control-lever" cx="0" cy="0" r="8"/>${ticks}`,
    legends,
    body: [-10, -10, 20, last + 20],
  };
}

/** Springs back: an arrowhead towards the body in place of a plain mark. */
function tick(x: number, y: number, springs: boolean): string {
  const shape = springs ? `M${x + 10} ${y}H${x + 1}m4.500 -4.500l-4.500 4.500l4.500 4.500` : `M${x + 2} ${y}h7`;
  return `<path class="control-tick" d="${shape}"/>`;
}

/** Positions around the upper part of a knob, clockwise, evenly and at most 60° apart. */
function rotary(positions: Drawn['positions']): Symbol {
  const apart = Math.min(60, 240 / Math.max(1, positions.length - 1));
  const spots = positions.map(({ legend, springs }, i) => {
    const angle = ((i - (positions.length - 1) / 2) * apart * Math.PI) / 180;
    const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
    const anchor = Math.abs(sin) < 0.2 ? 'middle' : sin < 0 ? 'end' : 'start';
    const point = (radius: number, aside = 0): string =>
      `${number(radius * sin + aside * cos)} ${number(-radius * cos + aside * sin)}`;
    const head = springs ? `M${point(26, -4.5)}L${point(21)}L${point(26, 4.5)}` : '';
    const mark = `<path class="control-tick" d="M${point(21)}L${point(springs ? 31 : 29)}${head}"/>`;
    const out = springs ? 36 : 34;
    return {
      pointer: `M0 0L${point(14)}`,
      mark,
      legend: { x: out * sin, y: 5 - out * cos - (anchor === 'middle' ? 3 : 0), anchor, text: legend } as Placed,
    };
  });
  return {
    shapes: `<circle class="control-body" cx="0" cy="0" r="17"/><path class="control-pointer" d="${spots[0]?.pointer ?? ''}"/>${spots.map(({ mark }) => mark).join('')}`,
    legends: spots.map(({ legend }) => legend),
    body: [-17, -17, 34, 34],
  };
}
