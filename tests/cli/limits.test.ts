import { join } from 'node:path';
import { expect, it } from 'vitest';
import { loadBook } from '../../src/cli/index.ts';
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
