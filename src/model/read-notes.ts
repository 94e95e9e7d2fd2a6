/** notes/*.md: front matter, then Markdown with references, computed tables and checked sentences. */
import type { Definition, Html, Image, ImageReference, Link, Nodes, Root } from 'mdast';
import type { LeafDirective, TextDirective } from 'mdast-util-directive';
import { toString as wordsOf } from 'mdast-util-to-string';
import remarkDirective from 'remark-directive';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { SKIP, visit } from 'unist-util-visit';
import { nearestName, type Place, type SourceFile } from '../diagnostics/index.ts';
import { type Context, oneParagraph } from './context.ts';
import type { Aircraft, Claim, Note } from './fleet.ts';
import { attributeKeyPlace, attributeSource, hasLabelOrAttributes, placeOf } from './markdown-places.ts';
import type { NameKind } from './names.ts';
import { frontMatterSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { itemsUnder, readYaml, scalarUnder, type YamlNode } from './yaml-source.ts';

/** Kinds of definition that have a page of their own. */
const PAGED: readonly NameKind[] = [
  'panel',
  'option',
  'condition',
  'control',
  'item',
  'message',
  'supply',
  'sequence',
  'sound',
];

/** Reads one note. Undefined when its front matter cannot be used; what is wrong in the text is reported and left out. */
export function readNote(
  file: SourceFile,
  aircraft: readonly Aircraft[] | undefined,
  context: Context,
): Note | undefined {
  const front = readFrontMatter(file, context);
  if (!front) return undefined;
  const { body, claims } = new NoteReader(file, aircraft, context).read(front.end);
  return {
    id: file.path
      .replace(/^notes\//, '')
      .replace(/\.md$/, '')
      .replaceAll('/', '-'),
    title: scalarUnder(front.node, 'title')?.written ?? '',
    about: itemsUnder(front.node, 'about').flatMap((node) =>
      node.kind === 'scalar' && context.names.resolve(node.written, PAGED, node.place) ? [node.written] : [],
    ),
    source: file,
    body,
    claims,
    place: front.node.place,
  };
}

function readFrontMatter(file: SourceFile, context: Context): { node: YamlNode; end: number } | undefined {
  const match = /^\uFEFF?---[ \t]*\r?\n([\s\S]*?)^---[ \t]*(?:\r?\n|$)/m.exec(file.text);
  if (match?.index !== 0) {
    context.diagnostics.report('SL502', {}, { file, start: 0, end: /^[^\r\n]*/.exec(file.text)?.[0].length ?? 0 });
    return undefined;
  }
  const start = match[0].indexOf('\n') + 1;
  const node = readYaml(file, context.diagnostics, { start, end: start + (match[1] ?? '').length });
  if (!node || !checkShape(frontMatterSchema, node, context.diagnostics).sound()) return undefined;
  return { node, end: match[0].length };
}

class NoteReader {
  readonly #file: SourceFile;
  readonly #aircraft: readonly Aircraft[] | undefined;
  readonly #context: Context;
  readonly #claims: Claim[] = [];

  constructor(file: SourceFile, aircraft: readonly Aircraft[] | undefined, context: Context) {
    this.#file = file;
    this.#aircraft = aircraft;
    this.#context = context;
  }

  read(bodyStart: number): { body: Root; claims: readonly Claim[] } {
    // The front matter is blanked rather than cut off, so that positions in the tree are offsets in the file.
    const blank = this.#file.text.slice(0, bodyStart).replace(/[^\r\n]/g, ' ');
    const text = blank + this.#file.text.slice(bodyStart);
    const body = unified().use(remarkParse).use(remarkGfm).use(remarkDirective).parse(text);
    visit(body, (node, index, parent) => {
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
          else this.#report('SL505', node, { name: node.name });
          return;
        case 'containerDirective':
          this.#report('SL505', node, { name: node.name });
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
            parent.children.splice(index, 1, { type: 'text', value: text.slice(start, end) });
          return SKIP;
        }
        default:
          return;
      }
    });
    return { body, claims: this.#claims };
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
    if (names.isBroken(id) || (kind !== undefined && PAGED.includes(kind))) return;
    if (kind === undefined && names.former.report(id, this.#within(node, id))) return;
    const nearest = nearestName(id, names.ofKinds(PAGED));
    this.#context.diagnostics.report('SL501', { id, nearest }, this.#within(node, id));
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
    if (!on || !this.#aircraft || this.#aircraft.some(({ registration }) => registration === on.written)) return;
    const known = this.#aircraft.map(({ registration }) => registration);
    const facts = { registration: on.written, nearest: nearestName(on.written, known) };
    this.#context.diagnostics.report('SL508', facts, on.place);
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
    this.#context.diagnostics.report(code, facts as never, placeOf(this.#file, node));
  }
}
