import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag2aaa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

interface Axe {
  run(
    within: string,
    options: object,
  ): Promise<{ violations: { id: string; nodes: { html: string }[] }[]; passes: unknown[] }>;
}

/**
 * What axe-core finds in a part of the page (a selector), WCAG 2.2 A to AAA and what it calls good practice: each rule with the
 * elements. The page's context must bypass the policy, for the checker's own script alone.
 */
export async function axeFaults(page: Page, within = 'html'): Promise<string[]> {
  if (await page.evaluate(() => !('axe' in globalThis))) await page.evaluate(AXE);
  return page.evaluate(
    async ([part, values]) => {
      const { axe } = globalThis as unknown as { axe: Axe };
      const { violations, passes } = await axe.run(part, { runOnly: { type: 'tag', values } });
      if (passes.length === 0) throw new Error(`nothing of ${part} was looked at`);
      return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`);
    },
    [within, TAGS] as const,
  );
}
