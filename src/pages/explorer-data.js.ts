/** What the explorer follows cases with, beside compare-data.js, as a script: where there is no server, a page can read nothing else. */
import { book } from 'virtual:switchleaf/book';

export const GET = () =>
  new Response(`globalThis.switchleafExplorer=${JSON.stringify(book.explorer ?? null)};\n`, {
    headers: { 'Content-Type': 'text/javascript' },
  });
