/**
 * The tree of the author's text into blocks for a page. References become links, checked sentences keep their words with a discreet
 * mark, and computed tables come out as views, so that one component draws every table of the book.
 *
 * Raw HTML never passes: whatever the text says reaches the page as text, or as an element made here.
 */
import type { Element, ElementContent, Root as HtmlRoot, RootContent } from 'hast';
import type { Root } from 'mdast';
import rehypeStringify from 'rehype-stringify';
import remarkRehype from 'remark-rehype';
import { unified } from 'unified';
import type { AttributeView, QuoteView } from '../book/index.ts';
import type { Prose } from '../model/index.ts';
import { handlers, QUOTE, TABLE } from './handlers.ts';

/** What a text may ask of the book. An `undefined` answer leaves the words standing as text. */
export interface Resolve {
  /** The address of an id's page, relative to the page that shows the text. */
  href(id: string): string | undefined;
  title(id: string): string | undefined;
  /** The tables of an item; `on` is the registration of the aircraft whose fit group is meant. */
  table(of: string, on?: string): readonly AttributeView[];
  /** What else was asked for, by the key that the model gives it. */
  quote(key: string): QuoteView | undefined;
}

export type Block =
  | { readonly kind: 'html'; readonly html: string }
  | { readonly kind: 'table'; readonly views: readonly AttributeView[] }
  | { readonly kind: 'quote'; readonly quote: QuoteView };

/** A page's note has its title at level 3, so that its own headings begin at 4, whatever level its author chose. */
const NOTE_LEVEL = 4;

/** Renders a text, or a part of one, in the order of its source. A title is not part of the result. */
export function renderProse(prose: Prose, resolve: Resolve, level: number = NOTE_LEVEL): Block[] {
  const highest = Math.min(...prose.body.children.map((node) => (node.type === 'heading' ? node.depth : Infinity)));
  const processor = unified()
    .use(remarkRehype, { handlers: handlers(resolve, highest, level), clobberPrefix: `${prose.id}-` })
    .use(rehypeStringify, { closeSelfClosing: false });
  const tree = processor.runSync(prose.body satisfies Root) as HtmlRoot;
  const blocks: Block[] = [];
  let run: RootContent[] = [];
  const flush = () => {
    const html = processor.stringify({ type: 'root', children: run }).trim();
    if (html !== '') blocks.push({ kind: 'html', html });
    run = [];
  };
  for (const node of tree.children) {
    const computed = takeComputed(node);
    if (!isComputed(node)) run.push(node);
    if (computed.length === 0) continue;
    flush();
    for (const { tagName, properties } of computed) {
      const { of, on, key } = properties;
      const quote = tagName === QUOTE ? resolve.quote(String(key)) : undefined;
      if (quote) blocks.push({ kind: 'quote', quote });
      else {
        const views = resolve.table(String(of ?? ''), on === undefined ? undefined : String(on));
        blocks.push({ kind: 'table', views });
      }
    }
  }
  flush();
  return blocks;
}

function isComputed(node: RootContent | ElementContent): boolean {
  return node.type === 'element' && (node.tagName === TABLE || node.tagName === QUOTE);
}

/** Takes the placeholders out of `node`. One inside a list or a quotation comes after it. */
function takeComputed(node: RootContent | ElementContent): Element[] {
  if (node.type !== 'element') return [];
  if (isComputed(node)) return [node];
  const found = node.children.flatMap(takeComputed);
  node.children = node.children.filter((child) => !isComputed(child));
  return found;
}
