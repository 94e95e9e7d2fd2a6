/** `check`: judges the content without building. */
import { resolve } from 'node:path';
import type { Request } from './arguments.ts';
import type { ExitStatus } from './exit-status.ts';
import type { Io } from './io.ts';
import { openBookOf } from './load-book.ts';
import { report } from './report.ts';

export function check({ content, format }: Request & { command: 'check' }, io: Io): ExitStatus {
  const { book, diagnostics } = openBookOf(resolve(io.cwd, content), content);
  const outcome =
    book === undefined
      ? 'The book cannot be made from this content.'
      : `The content is sound: ${book.pages.length} pages.`;
  return report(io, format, diagnostics, outcome);
}
