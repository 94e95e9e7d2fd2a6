/** The book of a small content with supplies, sequences, timelines and sounds: see the folder of the same name. */
import { join } from 'node:path';
import { type Book, makeBook, type Page } from '../../src/book/index.ts';
import { readFolder } from '../../src/cli/read-folder.ts';
import { type Compiled, compileFleet } from '../../src/compile/index.ts';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

export const inTimeFolder = join(import.meta.dirname, 'in-time');

export function inTimeBook(): { readonly book: Book; readonly compiled: Compiled } {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(readFolder(inTimeFolder, 'in-time', diagnostics), diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (!compiled || diagnostics.all.length > 0) throw new Error(JSON.stringify(toJson(diagnostics.all)));
  return { book: makeBook(compiled), compiled };
}

/** The page at an address. */
export function pageAt<K extends Page['kind']>(book: Book, kind: K, address: string): Extract<Page, { kind: K }> {
  const page = book.pages.find((each) => each.address === address);
  if (page?.kind !== kind) throw new Error(`${address} is no page of the kind ${kind}`);
  return page as Extract<Page, { kind: K }>;
}
