/**
 * Measures the advance widths of the book's typeface and writes src/figures/font-widths.ts.
 * Run by hand after the typeface's version changes: `npx node scripts/measure-font.ts`.
 *
 * Each character is set 20 times in a row at 100 px with tabular figures and without kerning, in Chromium, and its width
 * divided. A character that the font lacks gets a different width with another fallback and is left out.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { launchChromium } from '../tests/helpers/chromium.ts';

const FONT =
  'node_modules/@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2';
const WEIGHTS = [400, 650];
const CODES: number[] = [];
for (let code = 0x20; code <= 0x7e; code += 1) CODES.push(code);
for (let code = 0xa0; code <= 0xff; code += 1) CODES.push(code);
CODES.push(0x2013, 0x2014, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2026, 0x2032, 0x2033, 0x2191, 0x2193, 0x2212);

const browser = await launchChromium();
const page = await browser.newPage();
const source = `data:font/woff2;base64,${readFileSync(FONT).toString('base64')}`;
await page.setContent(`<style>
  @font-face { font-family: Measured; src: url(${source}); font-weight: 200 800 }
  span { position: absolute; white-space: pre; font-size: 100px; font-kerning: none; font-variant-numeric: tabular-nums; font-variant-ligatures: none }
</style><span></span>`);
const widths = await page.evaluate(
  async ({ codes, weights }) => {
    const span = document.querySelector('span') as HTMLSpanElement;
    await Promise.all(weights.map((weight) => document.fonts.load(`${weight} 100px Measured`)));
    return weights.map((weight) =>
      codes.map((code) => {
        span.textContent = String.fromCodePoint(code).repeat(20);
        span.style.fontWeight = String(weight);
        const [serif, mono] = ['serif', 'monospace'].map((fallback) => {
          span.style.fontFamily = `Measured, ${fallback}`;
          return span.getBoundingClientRect().width / 20;
        });
        return serif === mono ? Math.round((serif ?? 0) * 10) : null;
      }),
    );
  },
  { codes: CODES, weights: WEIGHTS },
);
await browser.close();

/** Runs of consecutive characters, so that the table stays short. */
function runs(values: readonly (number | null)[]): string {
  const lines: string[] = [];
  for (let i = 0; i < CODES.length; i += 1) {
    if (values[i] === null) continue;
    const start = i;
    while (i + 1 < CODES.length && CODES[i + 1] === (CODES[i] as number) + 1 && typeof values[i + 1] === 'number')
      i += 1;
    lines.push(`    [0x${(CODES[start] as number).toString(16)}, [${values.slice(start, i + 1).join(', ')}]],`);
  }
  return lines.join('\n');
}
writeFileSync(
  'src/figures/font-widths.ts',
  `/**
 * Advance widths of Atkinson Hyperlegible Next (Latin subset) in thousandths of the font size, by weight: runs of
 * [first code point, widths of it and its successors], with tabular figures and without kerning.
 * Made by scripts/measure-font.ts from the installed font file; not edited by hand.
 */
export const FONT_WIDTHS: Readonly<Record<${WEIGHTS.join(' | ')}, readonly (readonly [number, readonly number[]])[]>> = {
${WEIGHTS.map((weight, i) => `  ${weight}: [\n${runs(widths[i] ?? [])}\n  ],`).join('\n')}
};
`,
);
