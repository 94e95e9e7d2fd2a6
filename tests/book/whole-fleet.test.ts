/** A content of the size that an operator has: what small ones do not show is how the work grows. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { loadBook } from '../../src/cli/index.ts';
import { toJson } from '../../src/diagnostics/index.ts';
import { projectFolder } from '../helpers/content.ts';

it('the content of 24 aircraft, a training device, 39 controls and 99 lights, signs, annunciators, messages and sounds is sound and becomes a book', () => {
  const folder = join(projectFolder, 'tests/book/whole-fleet');
  // At most twice what it takes.
  const { book, diagnostics } = loadBook(folder, 'whole-fleet', { nodeLimit: 600_000, stepLimit: 10_000_000 });
  expect(toJson(diagnostics)).toEqual([]);
  expect(book?.pages).toHaveLength(236);
}, 120_000);
