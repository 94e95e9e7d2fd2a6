/**
 * The part of the print style that holds the book's own words: paper, and the caution and revision in the margin of each
 * sheet. A file of its own, since the pages allow no style inside them.
 */
import { book } from 'virtual:switchleaf/book';
import { sheetCss } from '../styles/sheet.ts';

export const GET = () => new Response(sheetCss(book.frame), { headers: { 'Content-Type': 'text/css' } });
