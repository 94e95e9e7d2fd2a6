/** Notices that have expired by the day of reading: where it is said until when they hold, it is said that this is over. */
import { dayOf } from './parts/times.ts';

document.addEventListener('DOMContentLoaded', () => {
  const today = dayOf(new Date());
  for (const until of document.querySelectorAll<HTMLElement>('.until[data-expires]:not(.expired)')) {
    const expires = until.dataset.expires ?? '';
    if (expires >= today) continue;
    until.classList.add('expired');
    until.textContent = `expired on ${expires}, by the clock of this device`;
  }
});
