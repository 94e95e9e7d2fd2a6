/** Markup of single words, states and links as text: the pages are built of it, and scripts on pages write the same. */
import type { Address, Inline, StateView } from '../book/index.ts';
import { glyph } from '../figures/index.ts';
import { relative } from './address.ts';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&#34;',
  "'": '&#39;',
};

/** Text as it stands in markup, between tags and in attributes. */
export function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}

/** A link from one page to another. */
export function linkHtml(from: Address, to: Address, words: string, anchor?: string): string {
  return `<a href="${escaped(relative(from, to, anchor))}">${escaped(words)}</a>`;
}

/** A run of text with its legends and links. */
export function wordsHtml(words: readonly Inline[], from: Address): string {
  return words
    .map((part) => {
      if (part.kind === 'link') return linkHtml(from, part.to, part.text, part.anchor);
      return part.kind === 'text' ? escaped(part.text) : `<span class="legend">${escaped(part.text)}</span>`;
    })
    .join('');
}

/** A state: its glyph, told apart by shape, and always the word. */
export function stateHtml({ glyph: kind, colour, text, link }: StateView, from: Address): string {
  const words = link ? linkHtml(from, link.to, text, link.anchor) : escaped(text);
  return `<span class="state">${glyph(kind, colour)}${words}</span>`;
}

/**
 * The attribute of what says of lights what they do: scripts mark there which lamps a reader has found unserviceable. `lamps` are the
 * anchors of the lamps that it is about; without them it is about the lights that its links lead to.
 */
export function tells(lamps: readonly string[] = []): string {
  return ` data-tells="${escaped(lamps.join(' '))}"`;
}
