/** SL101-: the files themselves and the syntax of YAML, CSV and Markdown. */
import { define } from '../define.ts';

export const readingCodes = {
  SL101: define({
    severity: 'error',
    title: 'A file is missing',
    message: (facts: { path: string }) => `The content folder has no file ${facts.path}, and the book cannot be made without it.`,
    hint: (facts) => `Add ${facts.path}. The guide in the content folder shows what it holds.`,
    explanation: 'A few files are needed for every book, because all the others refer to them.',
  }),
};
