/** What own-sheet.js gives the script of sheets. */
import { bring } from './book-files.ts';

export interface OwnSheetParts {
  /** An address as a QR code, as markup. */
  code(address: string): string;
  /** What differs between two aircraft, by serial, on a day, as the markup of a topic; undefined where it can't be told. */
  pair(serials: readonly [string, string], day: string): Promise<string | undefined>;
}

declare global {
  /** Set by own-sheet.js. */
  var switchleafOwnSheet: OwnSheetParts | undefined;
}

/** Undefined where the file can't be read. */
export async function ownParts(): Promise<OwnSheetParts | undefined> {
  if (!globalThis.switchleafOwnSheet) await bring('own-sheet.js').catch(() => undefined);
  return globalThis.switchleafOwnSheet;
}
