/** Objects of a PDF as they stand in a file (ISO 32000-1, section 7.3), with the numbers of references moved. */
import { PDFArray, PDFDict, PDFHexString, type PDFObject, PDFRawStream, PDFRef } from '@cantoo/pdf-lib';

/** What the number of an object becomes. */
export type Moved = (number: number) => number;

/** Text of an object that is not a stream. */
export function textOf(object: PDFObject, moved: Moved): string {
  if (object instanceof PDFRef) return reference(moved(object.objectNumber));
  if (object instanceof PDFArray) {
    return `[${object
      .asArray()
      .map((each) => textOf(each, moved))
      .join(' ')}]`;
  }
  if (object instanceof PDFDict)
    return `<<${object
      .entries()
      .map(([key, value]) => `${key.toString()} ${textOf(value, moved)}`)
      .join(' ')}>>`;
  return object.toString();
}

/** Bytes of an object, streams included. */
export function bytesOf(object: PDFObject, moved: Moved): Uint8Array[] {
  if (!(object instanceof PDFRawStream)) return [latin(textOf(object, moved))];
  return [latin(`${textOf(object.dict, moved)}\nstream\n`), object.contents, latin('\nendstream')];
}

export function reference(number: number): string {
  return `${number} 0 R`;
}

/** Words for people: a text string of section 7.9.2.2, in UTF-16. */
export function words(text: string): string {
  return PDFHexString.fromText(text).toString();
}

/** One byte for each sign. */
export function latin(text: string): Uint8Array {
  return Buffer.from(text, 'latin1');
}
