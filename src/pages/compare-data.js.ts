/** What comparing any two aircraft needs, as a script: where there is no server, a page can read nothing else. */
import { book } from 'virtual:switchleaf/book';

export const GET = () =>
  new Response(`globalThis.switchleafComparison=${JSON.stringify(book.comparison ?? null)};\n`, {
    headers: { 'Content-Type': 'text/javascript' },
  });
