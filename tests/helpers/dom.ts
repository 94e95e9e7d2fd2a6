/** Reads built pages as a reader sees them: the visible text of elements, found by tag, class or id. */
import { readFileSync } from 'node:fs';
import { type DefaultTreeAdapterTypes, parse } from 'parse5';

type ParentNode = DefaultTreeAdapterTypes.ParentNode;
export type Element = DefaultTreeAdapterTypes.Element;

export function readPage(file: string): Element {
  return parsePage(readFileSync(file, 'utf8'));
}

export function parsePage(html: string): Element {
  const found = children(parse(html)).find(({ tagName }) => tagName === 'html');
  if (!found) throw new Error('no html element');
  return found;
}

export function children(node: ParentNode): Element[] {
  return node.childNodes.filter((child): child is Element => 'tagName' in child);
}

/** All elements below that a test accepts, in document order. */
export function findAll(node: ParentNode, accept: (element: Element) => boolean): Element[] {
  return children(node).flatMap((child) => [...(accept(child) ? [child] : []), ...findAll(child, accept)]);
}

export function byTag(node: ParentNode, tag: string): Element[] {
  return findAll(node, ({ tagName }) => tagName === tag);
}

export function byClass(node: ParentNode, name: string): Element[] {
  return findAll(node, (element) => (attribute(element, 'class') ?? '').split(/\s+/).includes(name));
}

export function byId(node: ParentNode, id: string): Element | undefined {
  return findAll(node, (element) => attribute(element, 'id') === id)[0];
}

export function attribute(element: Element, name: string): string | undefined {
  return element.attrs.find((each) => each.name === name)?.value;
}

/** The text that a reader sees, white space folded. What an SVG says only to screen readers is left out. */
export function textOf(node: ParentNode): string {
  const collect = (each: DefaultTreeAdapterTypes.ChildNode): string => {
    if ('value' in each) return each.value;
    if (!('tagName' in each)) return '';
    return each.tagName === 'svg' ? '' : each.childNodes.map(collect).join('');
  };
  return node.childNodes.map(collect).join('').replace(/\s+/g, ' ').trim();
}
