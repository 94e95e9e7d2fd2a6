/** The built pages as parsed trees, for tests of what every page must have. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type DefaultTreeAdapterTypes, parse } from 'parse5';

export type Element = DefaultTreeAdapterTypes.Element;

export interface BuiltPage {
  /** From the book's root, with forward slashes. */
  readonly address: string;
  readonly html: string;
  /** Every element, in document order. */
  readonly elements: readonly Element[];
}

/** Every HTML page under `root`, sorted by address. */
export function builtPages(root: string): BuiltPage[] {
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => path.endsWith('.html'))
    .sort()
    .map((address) => {
      const html = readFileSync(join(root, address), 'utf8');
      return { address, html, elements: elementsOf(parse(html)) };
    });
}

function elementsOf(node: DefaultTreeAdapterTypes.ParentNode): Element[] {
  return node.childNodes.flatMap((child) => ('tagName' in child ? [child, ...elementsOf(child)] : []));
}

export function attribute(element: Element, name: string): string | undefined {
  return element.attrs.find((one) => one.name === name)?.value;
}
