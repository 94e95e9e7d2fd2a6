import { join } from 'node:path';
import { expect, it } from 'vitest';
import { loadBook } from '../../src/cli/index.ts';
import { openBookOf } from '../../src/cli/load-book.ts';
import { Draft } from '../../src/cli/preview/draft.ts';
import { toJson } from '../../src/diagnostics/index.ts';
import { smallProject } from '../helpers/content.ts';

it('a content that meets the limit of the work anywhere ends in one message, or in its book', () => {
  const content = join(smallProject(), 'content');
  const messages = new Set<string>();
  let limit = 10;
  for (; ; limit = Math.ceil(1.05 * limit)) {
    const { book, diagnostics } = loadBook(content, 'content', { nodeLimit: limit });
    const errors = toJson(diagnostics).filter(({ severity }) => severity === 'error');
    expect(errors, `${limit}`).toHaveLength(book ? 0 : 1);
    if (book) break;
    expect(['SL405', 'SL408']).toContain(errors[0]?.code);
    expect(errors[0]?.message).toContain(`more than ${limit.toLocaleString('en')} nodes`);
    messages.add((errors[0]?.message ?? '').replaceAll(/[\d,]+ nodes.*/g, 'nodes'));
  }
  expect([...messages]).toContain('The conditions and what never happens together need more than nodes');
  expect([...messages]).toContain('All rules together need more than nodes');
  expect([...messages]).toContain('The rules are worked out, but their tables need more than nodes');
}, 60_000);

it('a content that takes too long ends in one message', () => {
  const content = join(smallProject(), 'content');
  const { book, diagnostics } = loadBook(content, 'content', { stepLimit: 500 });
  expect(book).toBeUndefined();
  expect(toJson(diagnostics).map(({ message }) => message)).toEqual([expect.stringContaining('more than 500 steps')]);
});

it('a preview opens a content of which a page meets a limit, tells of it, and shows the others', () => {
  const content = join(smallProject(), 'content');
  // So many nodes that the content is judged, and not so many that all pages can be made.
  let limit = 10;
  while (openBookOf(content, 'content', { nodeLimit: limit }).book === undefined) limit += 1;
  const draft = new Draft(content, 'content', { nodeLimit: limit });
  expect(draft.look()).toBe(true);
  expect(draft.notice.problems).toEqual([]);
  const before = draft.notice.number;
  const isMade = (kind: string): boolean =>
    draft.make((book) => book.pages.filter((page) => page.kind === kind).map((page) => page.title));
  expect(isMade('item')).toBe(false);
  expect(draft.notice.number).toBeGreaterThan(before);
  expect(draft.notice.problems).toEqual([expect.stringContaining('SL408')]);
  expect(isMade('about')).toBe(true);
});
