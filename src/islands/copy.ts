/**
 * The copy of the book on this device: says that it is whole, when it was last compared with the server, and that a newer
 * release waits, which is taken on the reader's word only. Without a server there is nothing to do.
 */
import type { Frame } from '../book/index.ts';
import { ROOT } from './parts/book-files.ts';
import { keep, kept } from './parts/kept.ts';
import { clockOf, dayOf } from './parts/times.ts';

type Edition = Pick<Frame, 'revision' | 'date'>;

const COMPARED = 'switchleaf-compared';

function editionOf(worker: ServiceWorker): Promise<Edition> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', ({ data }) => resolve(data as Edition));
    port1.start();
    worker.postMessage('which', [port2]);
  });
}

/** Resolves when the worker has all of its release. */
function whole(worker: ServiceWorker): Promise<boolean> {
  const isWhole = (): boolean =>
    worker.state === 'installed' || worker.state === 'activating' || worker.state === 'activated';
  return new Promise((resolve) => {
    const look = (): void => {
      if (isWhole() || worker.state === 'redundant') resolve(isWhole());
    };
    worker.addEventListener('statechange', look);
    look();
  });
}

async function offer(worker: ServiceWorker, notice: HTMLElement): Promise<void> {
  if (!(await whole(worker)) || navigator.serviceWorker.controller === null) return;
  const { revision, date } = await editionOf(worker);
  const words = notice.querySelector('p') as HTMLElement;
  words.textContent = `Revision ${revision}, as of ${date}, is ready on this device. You are reading another one.`;
  const [take, later] = notice.querySelectorAll('button');
  take?.addEventListener('click', () => worker.postMessage('take'));
  later?.addEventListener('click', () => {
    notice.hidden = true;
  });
  notice.hidden = false;
}

function tell(line: HTMLElement): void {
  const last = new Date(String(kept(COMPARED)));
  const when = Number.isNaN(last.getTime())
    ? ''
    : ` Last compared with the server on ${dayOf(last)} at ${clockOf(last)}.`;
  line.textContent = `All of this revision is on this device and can be read without a network.${when}`;
  line.hidden = false;
}

async function start(notice: HTMLElement, line: HTMLElement): Promise<void> {
  const { serviceWorker } = navigator;
  // Pages of one release only: when another is taken, in this window or in another one, each is read anew.
  if (serviceWorker.controller) serviceWorker.addEventListener('controllerchange', () => location.reload());
  const registration = await serviceWorker.register(new URL('offline.js', ROOT), { scope: ROOT });
  registration.addEventListener('updatefound', () => {
    if (registration.installing && registration.active) void offer(registration.installing, notice);
  });
  if (registration.waiting) void offer(registration.waiting, notice);
  await registration.update().then(
    () => keep(COMPARED, new Date()),
    () => undefined,
  );
  const active = registration.active ?? registration.installing ?? registration.waiting;
  if (active && (await whole(active))) tell(line);
}

document.addEventListener('DOMContentLoaded', () => {
  const notice = document.querySelector<HTMLElement>('.newer.release');
  const line = document.querySelector<HTMLElement>('.copy');
  if (notice && line && 'serviceWorker' in navigator && location.protocol.startsWith('http')) {
    // Where the device refuses a copy (no room, a private window), the book is read from the server as before.
    start(notice, line).catch(() => undefined);
  }
});
