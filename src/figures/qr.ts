/** An address as a QR code (ISO/IEC 18004), drawn as one path, so that it is sharp on paper. */
import { encode } from 'uqr';
import { escapeXml } from './markup.ts';

/** The margin of four modules that scanners ask for. */
const QUIET = 4;

/** An SVG element; about 15 % of its signs may be lost before it can no longer be read. */
export function qrCode(address: string): string {
  const { data } = encode(address, { ecc: 'M', boostEcc: true, border: QUIET });
  const path = data
    .flatMap((line, y) => runs(line).map(([x, length]) => `M${x} ${y}h${length}v1h-${length}z`))
    .join('');
  const side = data.length;
  return `<svg class="code" viewBox="0 0 ${side} ${side}" role="img" aria-label="${escapeXml(`Code for ${address}`)}"><path d="${path}"/></svg>`;
}

/** Where dark modules follow each other: the first, and how many. */
function runs(line: readonly boolean[]): [number, number][] {
  const found: [number, number][] = [];
  line.forEach((dark, x) => {
    const last = found.at(-1);
    if (dark && last && last[0] + last[1] === x) last[1] += 1;
    else if (dark) found.push([x, 1]);
  });
  return found;
}
