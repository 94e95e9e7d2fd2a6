/** What a block of a page says to scripts of whom it holds for, beside the words for readers. */
import type { Effectivity } from '../book/index.ts';

/**
 * "40112 40118/2026-12-01/ 40127//2026-11-30": serials, with the first and the last day where it is only for a time. A serial
 * is read out of the address of its page, which is made of nothing else.
 */
export function fitsAttribute({ aircraft }: Effectivity): string {
  return aircraft
    .map(({ to, from, until }) => {
      const serial = to.replace(/^aircraft\/|\.html$/g, '');
      return from === undefined && until === undefined ? serial : `${serial}/${from ?? ''}/${until ?? ''}`;
    })
    .join(' ');
}

/** The same, where it does not hold for the whole fleet. */
export function someFits(effectivity: Effectivity): string | undefined {
  return effectivity.whole ? undefined : fitsAttribute(effectivity);
}
