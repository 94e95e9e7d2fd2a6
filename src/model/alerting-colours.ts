/**
 * Colours of crew alerting messages by class: 14 CFR 25.1322(e): red for warnings, amber or yellow for cautions, any but
 * red or green for advisories; (f) keeps red, amber and yellow from other uses, which covers plain reminders.
 */
import type { MessageClass } from './fleet.ts';

export function isColourAllowed(messageClass: MessageClass, colour: string): boolean {
  switch (messageClass) {
    case 'warning':
      return colour === 'red';
    case 'caution':
      return colour === 'amber' || colour === 'yellow';
    case 'advisory':
      return colour !== 'red' && colour !== 'green';
    case 'reminder':
      return colour !== 'red' && colour !== 'amber' && colour !== 'yellow';
  }
}

/** The colour of a class where only one is common; undefined where the author must say. */
export function defaultColour(messageClass: MessageClass): string | undefined {
  return messageClass === 'warning' ? 'red' : messageClass === 'caution' ? 'amber' : undefined;
}
