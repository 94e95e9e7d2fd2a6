/** A drawing read as XML, strictly: what is not well-formed throws. */
import { Window } from 'happy-dom';

const window = new Window();

export function parsedXml(text: string): Element {
  const document = new window.DOMParser().parseFromString(text, 'image/svg+xml');
  const root = document.documentElement as unknown as Element;
  if (root?.tagName.toLowerCase() !== 'svg' || root.querySelector('parsererror')) throw new Error('no well-formed SVG');
  return root;
}
