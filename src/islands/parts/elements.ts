/** Elements made by scripts, and runs of text with their legends and links. */
import type { Inline, Listed } from '../../book/index.ts';
import { ROOT } from './book-files.ts';

export function made<K extends keyof HTMLElementTagNameMap>(
  name: K,
  className = '',
  ...content: readonly (string | Node)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(name);
  if (className !== '') element.className = className;
  element.append(...content);
  return element;
}

export function button(label: string, act: () => void, className = ''): HTMLButtonElement {
  const element = made('button', className, label);
  element.type = 'button';
  element.addEventListener('click', act);
  return element;
}

export function linkTo({ to, anchor, title }: Listed): HTMLAnchorElement {
  const link = made('a', '', title);
  link.href = new URL(anchor === undefined ? to : `${to}#${anchor}`, ROOT).href;
  return link;
}

export function words(parts: readonly Inline[]): (string | Node)[] {
  return parts.map((part) => {
    if (part.kind === 'text') return part.text;
    if (part.kind === 'legend') return made('span', 'legend', part.text);
    return linkTo({ ...part, title: part.text });
  });
}
