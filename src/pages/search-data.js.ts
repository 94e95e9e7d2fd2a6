/** What can be searched for, as a script: where there is no server, a page can read nothing else. */
import { book } from 'virtual:switchleaf/book';

export const GET = () =>
  new Response(`globalThis.switchleafSearch=${JSON.stringify(book.search)};\n`, {
    headers: { 'Content-Type': 'text/javascript' },
  });
