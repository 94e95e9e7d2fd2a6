/** What the page "from what I see" combines, as a script: where there is no server, a page can read nothing else. */
import { book } from 'virtual:switchleaf/book';

export const GET = () =>
  new Response(`globalThis.switchleafSeen=${JSON.stringify(book.seen)};\n`, {
    headers: { 'Content-Type': 'text/javascript' },
  });
