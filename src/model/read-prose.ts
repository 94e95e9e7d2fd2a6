/** The author's Markdown: front matter, then text with references, computed tables and checked sentences. */

import type { Definition, Html, Image, ImageReference, Link, Nodes, Root } from 'mdast';
import type { ContainerDirective, LeafDirective, TextDirective } from 'mdast-util-directive';
import { toString as wordsOf } from 'mdast-util-to-string';
import remarkDirective from 'remark-directive';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { SKIP, visit } from 'unist-util-visit';
import type { z } from 'zod';
import { nearestName, type Place, type SourceFile } from '../diagnostics/index.ts';
import { type Context, oneParagraph } from './context.ts';
import type { Aircraft, Claim, Quote } from './fleet.ts';
import { attributeKeyPlace, attributeSource, hasLabelOrAttributes, placeOf } from './markdown-places.ts';
import { REFERABLE } from './names.ts';
import { isChangedBy, isQuote, readQuote } from './quotes.ts';
import { checkShape } from './schema-check.ts';
import { readYaml, type ScalarNode, type YamlNode } from './yaml-source.ts';

/** What a text is, in the words of the diagnostics. */
export type TextKind = 'note' | 'tour' | 'notice';

export interface FrontMatter {
  readonly node: YamlNode;
  /** Offset of the text below it. */
  readonly end: number;
}

/** The block between two lines of dashes. Undefined after a report. */
export function readFrontMatter(
  file: SourceFile,
  kind: TextKind,
  schema: z.ZodType,
  context: Context,
): FrontMatter | undefined {
  const match = /^\uFEFF?---[ \t]*\r?\n([\s\S]*?)^---[ \t]*(?:\r?\n|$)/m.exec(file.text);
  if (match?.index !== 0) {
    const end = /^[^\r\n]*/.exec(file.text)?.[0].length ?? 0;
    context.diagnostics.report('SL502', { kind }, { file, start: 0, end });
    return undefined;
  }
  const start = match[0].indexOf('\n') + 1;
  const node = readYaml(file, context.diagnostics, { start, end: start + (match[1] ?? '').length });
  if (!node || !checkShape(schema, node, context.diagnostics).sound()) return undefined;
  return { node, end: match[0].length };
}

/** The text as a tree. The front matter is blanked rather than cut off, so that positions in it are offsets in the file. */
export function parseProse({ text }: SourceFile, { end }: FrontMatter): Root {
  const blank = text.slice(0, end).replace(/[^\r\n]/g, ' ');
  return unified()
    .use(remarkParse)
    .use(remarkGfm)
    .use(remarkDirective)
    .parse(blank + text.slice(end));
}

/** Checks what a text says, and reports what is wrong in it. */
export class ProseReader {
  readonly #file: SourceFile;
  readonly #kind: TextKind;
  readonly #aircraft: readonly Aircraft[] | undefined;
  readonly #context: Context;
  readonly #claims: Claim[] = [];
  readonly #quotes: Quote[] = [];

  /** `aircraft` is undefined while the list of aircraft cannot be read. */
  constructor(file: SourceFile, kind: TextKind, aircraft: readonly Aircraft[] | undefined, context: Context) {
    this.#file = file;
    this.#kind = kind;
    this.#aircraft = aircraft;
    this.#context = context;
  }

  /** The statements of the checked sentences so far, in the order of the text. */
  get claims(): readonly Claim[] {
    return this.#claims;
  }

  /** What the text asks the book to put in, so far. */
  get quotes(): readonly Quote[] {
    return this.#quotes;
  }

  /** Puts back what only looks like a block. `block` is asked of each block with lines of its own; true if it may stand. */
  check(text: Root, block: (node: ContainerDirective) => boolean): void {
    visit(text, (node, index, parent) => {
      switch (node.type) {
        case 'link':
        case 'definition':
          this.#link(node);
          return;
        case 'html':
          this.#refuse(node);
          return;
        case 'image':
        case 'imageReference':
          this.#refuse(node);
          return;
        case 'leafDirective':
          if (node.name === 'table') this.#table(node);
          else if (isQuote(node.name)) this.#quote(node);
          else this.#report('SL505', node, { name: node.name });
          return;
        case 'containerDirective':
          if (!block(node)) this.#report('SL505', node, { name: node.name });
          return;
        case 'textDirective': {
          if (node.name === 'checked') {
            this.#checked(node);
            return;
          }
          if (hasLabelOrAttributes(this.#file, node)) {
            this.#report('SL505', node, { name: node.name });
            return;
          }
          // "12:30" is no directive: what was typed stands.
          const { start, end } = placeOf(this.#file, node);
          if (parent && index !== undefined)
            parent.children.splice(index, 1, { type: 'text', value: this.#file.text.slice(start, end) });
          return SKIP;
        }
        default:
          return;
      }
    });
  }

  #refuse(node: Html | Image | ImageReference): void {
    if (node.type === 'html') this.#report('SL503', node, {});
    else this.#report('SL504', node, {});
  }

  #link(node: Link | Definition): void {
    if (/^(?:https?:|mailto:)/i.test(node.url)) return;
    if (!node.url.startsWith('ref:')) {
      this.#context.diagnostics.report('SL509', { url: node.url }, this.#within(node, node.url));
      return;
    }
    const id = node.url.slice('ref:'.length);
    const { names } = this.#context;
    const kind = names.kindOf(id);
    if (names.isBroken(id) || (kind !== undefined && REFERABLE.includes(kind))) return;
    if (kind === undefined && names.former.report(id, this.#within(node, id))) return;
    const nearest = nearestName(id, names.ofKinds(REFERABLE));
    this.#context.diagnostics.report('SL501', { kind: this.#kind, id, nearest }, this.#within(node, id));
  }

  #checked(node: TextDirective): void {
    const misspelt = this.#checkAttributes(node, ['holds']).includes('holds');
    const source = attributeSource(this.#file, node, 'holds');
    const sentence = oneParagraph(wordsOf(node));
    const lacks = !source && !misspelt ? 'claim' : sentence === '' ? 'words' : undefined;
    if (lacks) this.#context.diagnostics.report('SL506', { lacks }, placeOf(this.#file, node));
    const expression = source && this.#context.expression(source);
    if (expression && sentence !== '') this.#claims.push({ expression, sentence, place: source.place });
  }

  /** Reports what stands in the braces of a block and is not one of `known`. Those of them that are meant, it seems. */
  #checkAttributes(node: TextDirective | LeafDirective, known: readonly string[]): (string | undefined)[] {
    const given = Object.keys(node.attributes ?? {});
    const free = known.filter((name) => !given.includes(name));
    return given
      .filter((name) => !known.includes(name))
      .map((key) => {
        const nearest = nearestName(key, free);
        const place = attributeKeyPlace(this.#file, node, key);
        this.#context.diagnostics.report('SL120', { key, known, nearest }, place);
        return nearest;
      });
  }

  #table(node: LeafDirective): void {
    const misspelt = this.#checkAttributes(node, ['of', 'on']);
    const of = attributeSource(this.#file, node, 'of');
    const on = attributeSource(this.#file, node, 'on');
    if (!of && !misspelt.includes('of')) this.#report('SL507', node, {});
    else if (of) this.#context.names.resolve(of.written, ['item', 'message', 'supply'], of.place);
    if (on) this.#registration(on);
  }

  #registration(on: ScalarNode): boolean {
    if (!this.#aircraft || this.#aircraft.some(({ registration }) => registration === on.written)) return true;
    const known = this.#aircraft.map(({ registration }) => registration);
    const facts = { registration: on.written, nearest: nearestName(on.written, known) };
    this.#context.diagnostics.report('SL508', facts, on.place);
    return false;
  }

  #quote(node: LeafDirective): void {
    const quote = readQuote(this.#file, node, this.#context, {
      misspelt: (known) => this.#checkAttributes(node, known),
      registration: (on) => this.#registration(on),
      orders: (document) => !this.#aircraft || this.#aircraft.some((each) => isChangedBy(each, document)),
    });
    if (quote) this.#quotes.push(quote);
  }

  /** The place of some words inside a node, or of the whole node. */
  #within(node: Nodes, words: string): Place {
    const whole = placeOf(this.#file, node);
    const at = this.#file.text.slice(whole.start, whole.end).lastIndexOf(words);
    return at < 0 ? whole : { ...whole, start: whole.start + at, end: whole.start + at + words.length };
  }

  #report<C extends 'SL503' | 'SL504' | 'SL505' | 'SL507'>(
    code: C,
    node: Nodes,
    facts: C extends 'SL505' ? { name: string } : Record<never, never>,
  ): void {
    this.#context.diagnostics.report(code, { kind: this.#kind, ...facts } as never, placeOf(this.#file, node));
  }
}
