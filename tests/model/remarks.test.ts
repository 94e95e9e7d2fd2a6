/** The mail address for remarks, in book.yaml. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadBook } from '../../src/cli/load-book.ts';
import { smallProject } from '../helpers/content.ts';

function withRemarks(line: string) {
  const content = join(smallProject(), 'content');
  const file = join(content, 'book.yaml');
  writeFileSync(file, `${readFileSync(file, 'utf8').trimEnd()}\n${line}\n`);
  return loadBook(content, 'content');
}

describe('the address for remarks', () => {
  it('is in the frame of every page where the operator gives one, and may be left out', () => {
    expect(withRemarks('remarks: lighting@books.example').book?.frame.remarks).toBe('lighting@books.example');
    expect(withRemarks('').book?.frame).not.toHaveProperty('remarks');
  });

  it('is refused where nobody could be mailed at it', () => {
    const { book, diagnostics } = withRemarks('remarks: the publications department');
    expect(book).toBeUndefined();
    expect(diagnostics.map(({ code, facts }) => [code, JSON.stringify(facts)])).toEqual([
      ['SL125', expect.stringContaining('a mail address, for example lighting@books.example')],
    ]);
  });
});
