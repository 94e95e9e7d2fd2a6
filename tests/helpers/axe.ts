import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { REVIEWED } from './axe-reviewed.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag2aaa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

interface Found {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly element: Element }[];
}
interface Axe {
  run(within: string, options: object): Promise<{ violations: Found[]; incomplete: Found[]; passes: unknown[] }>;
}
interface Scope {
  axe: Axe;
  /** What axe-core could not decide, by rule. */
  undecided: Record<string, Element[]>;
}

/**
 * What axe-core finds in a part of the page (a selector), WCAG 2.2 A to AAA and what it calls good practice: each rule with the
 * elements. What it leaves to a human eye ("incomplete") is a fault too, unless a check of `REVIEWED` clears it. The page's
 * context must bypass the policy, for the checker's own script alone. `rules` leaves some out.
 */
export async function axeFaults(
  page: Page,
  within = 'html',
  rules: Readonly<Record<string, { readonly enabled: false }>> = {},
): Promise<string[]> {
  if (await page.evaluate(() => !('axe' in globalThis))) await page.evaluate(AXE);
  const { violations, undecided } = await page.evaluate(
    async ([part, values, some]) => {
      const scope = globalThis as unknown as Scope;
      const {
        violations: found,
        incomplete,
        passes,
      } = await scope.axe.run(part, {
        runOnly: { type: 'tag', values },
        rules: some,
        resultTypes: ['violations', 'incomplete'],
        elementRef: true,
        selectors: false,
      });
      if (passes.length === 0) throw new Error(`nothing of ${part} was looked at`);
      scope.undecided = Object.fromEntries(
        incomplete.map(({ id, nodes }) => [id, nodes.map(({ element }) => element)]),
      );
      const faults = found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`);
      return { violations: faults, undecided: Object.keys(scope.undecided) };
    },
    [within, TAGS, rules] as const,
  );
  const faults = [...violations];
  for (const rule of undecided) {
    const elements = await page.evaluateHandle((id) => (globalThis as unknown as Scope).undecided[id] ?? [], rule);
    const review = REVIEWED[rule];
    const left = review
      ? await elements.evaluate(review.faults)
      : await elements.evaluate((all) => all.map(({ outerHTML }) => outerHTML.slice(0, 120)));
    faults.push(...left.map((fault) => `${rule}, not decided: ${fault}`));
  }
  return faults;
}
