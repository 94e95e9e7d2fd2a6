/**
 * Of streams with the same bytes a joined document keeps one. The browser draws the variable typeface letter by letter, and draws the
 * same letters and pictures for every part anew.
 */
import { createHash } from 'node:crypto';
import { type PDFContext, PDFRawStream, PDFRef } from '@cantoo/pdf-lib';
import { bytesOf, type Moved } from './pdf-text.ts';

export class SameStreams {
  /** The number of each stream, by a digest of it. */
  readonly #known = new Map<string, number>();

  /** What the numbers of a part become: moved up behind the others, but of the same streams the number of the first. */
  numbers(context: PDFContext, up: number): Moved {
    const same = new Map<number, number>();
    const moved: Moved = (number) => same.get(number) ?? number + up;
    const streams = context
      .enumerateIndirectObjects()
      .flatMap(([ref, stream]) => (stream instanceof PDFRawStream ? [{ ref, stream }] : []));
    // A picture refers to its mask, which must have its number first.
    const refers = ({ dict }: PDFRawStream): boolean => dict.values().some((value) => value instanceof PDFRef);
    const inOrder = [
      ...streams.filter(({ stream }) => !refers(stream)),
      ...streams.filter(({ stream }) => refers(stream)),
    ];
    for (const { ref, stream } of inOrder) {
      const digest = createHash('sha256');
      for (const each of bytesOf(stream, moved)) digest.update(each);
      const key = digest.digest('base64');
      const number = this.#known.get(key) ?? ref.objectNumber + up;
      this.#known.set(key, number);
      same.set(ref.objectNumber, number);
    }
    return moved;
  }
}
