/**
 * Keeps the whole book on the device. Every file of one release is fetched with its digest before any of them is used, so
 * that a copy is whole or is not taken; a newer release waits beside the old one until a reader takes it.
 */
import { cleanupOutdatedCaches, type PrecacheEntry, precacheAndRoute } from 'workbox-precaching';

/** Put in by the build. */
declare const BOOK_FILES: PrecacheEntry[];
declare const BOOK_EDITION: { readonly revision: string; readonly date: string };

/** What a worker has and a page has not. */
interface Worker {
  skipWaiting(): Promise<void>;
  addEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
}

// What stands behind "?" in an address is for scripts; the page is the same.
precacheAndRoute(BOOK_FILES, { ignoreURLParametersMatching: [/./], cleanURLs: false });
cleanupOutdatedCaches();

(self as unknown as Worker).addEventListener('message', ({ data, ports }) => {
  if (data === 'which') ports[0]?.postMessage(BOOK_EDITION);
  if (data === 'take') void (self as unknown as Worker).skipWaiting();
});
