/** How each kind of Markdown node that is ours, or that must not pass as it is, becomes HTML. */
import type { Element, ElementContent, Text } from 'hast';
import type { Heading, Html, Image, ImageReference, Link, Nodes, PhrasingContent } from 'mdast';
import type { Handlers, State } from 'mdast-util-to-hast';
import { quoteKey } from '../model/index.ts';
import type { Resolve } from './render-prose.ts';

/** The elements that stand for what is computed until the note is cut into blocks. */
export const TABLE = 'computed-table';
export const QUOTE = 'computed-quote';

interface Directive {
  readonly type: 'textDirective' | 'leafDirective' | 'containerDirective';
  readonly name: string;
  readonly attributes?: Readonly<Record<string, string | null | undefined>> | null;
  readonly children: PhrasingContent[];
}

const element = (tagName: string, properties: Element['properties'], children: ElementContent[]): Element => ({
  type: 'element',
  tagName,
  properties,
  children,
});
const text = (value: string): Text => ({ type: 'text', value });

const DEEPEST = 6;
const OUTSIDE = /^(?:https?:|mailto:)/i;

/** The last word in an element of its own, which the tick is bound to; a link or the like at the end is taken whole. */
function withEnd(words: readonly ElementContent[]): ElementContent[] {
  const last = words.at(-1);
  if (!last) return [];
  const before = words.slice(0, -1);
  const end = (content: ElementContent): Element => element('span', { className: ['checked-end'] }, [content]);
  if (last.type !== 'text') return [...before, end(last)];
  const at = last.value.trimEnd().lastIndexOf(' ') + 1;
  const start = last.value.slice(0, at);
  return [...before, ...(start === '' ? [] : [text(start)]), end(text(last.value.slice(at)))];
}

/** `highest` is the level of the text's highest heading as written, `level` the one that it gets. */
export function handlers(resolve: Resolve, highest: number, level: number): Handlers {
  const children = (state: State, node: Nodes) => state.all(node as Parameters<State['all']>[0]) as ElementContent[];

  return {
    link(state: State, node: Link) {
      const words = children(state, node);
      if (node.url.startsWith('ref:')) {
        const id = node.url.slice('ref:'.length);
        const content = words.length > 0 ? words : [text(resolve.title(id) ?? id)];
        const href = resolve.href(id);
        return href === undefined ? content : element('a', { href }, content);
      }
      if (OUTSIDE.test(node.url)) return element('a', { href: node.url, rel: ['external'] }, words);
      return words;
    },
    heading(state: State, node: Heading) {
      return element(`h${Math.min(node.depth - highest + level, DEEPEST)}`, {}, children(state, node));
    },
    textDirective(state: State, node: Directive) {
      const words = children(state, node as unknown as Nodes);
      if (node.name !== 'checked') return [text(`:${node.name}`), ...words];
      return element('span', { className: ['checked'], title: 'Checked against the rules' }, withEnd(words));
    },
    leafDirective(state: State, node: Directive) {
      if (node.name === 'table') {
        const { of, on } = node.attributes ?? {};
        return element(TABLE, { ...(of ? { of } : {}), ...(on ? { on } : {}) }, []);
      }
      const key = quoteKey(node.name, node.attributes ?? {});
      if (resolve.quote(key)) return element(QUOTE, { key }, []);
      return element('p', {}, [text(`::${node.name} `), ...children(state, node as unknown as Nodes)]);
    },
    containerDirective(state: State, node: Directive) {
      return element('div', {}, [
        element('p', {}, [text(`:::${node.name}`)]),
        ...children(state, node as unknown as Nodes),
      ]);
    },
    html: (_state: State, node: Html) => text(node.value),
    image: (_state: State, node: Image) => text(node.alt ?? ''),
    imageReference: (_state: State, node: ImageReference) => text(node.alt ?? ''),
  } as unknown as Handlers;
}
