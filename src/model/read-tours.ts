/** tours/*.md: front matter, then a heading for each stop, what is said there, and the traps of the place. */
import type { Definition, FootnoteDefinition, Heading, Root, RootContent } from 'mdast';
import { toString as wordsOf } from 'mdast-util-to-string';
import { visit } from 'unist-util-visit';
import type { Place, SourceFile } from '../diagnostics/index.ts';
import type { Expression } from '../language/index.ts';
import { type Context, OPTIONS_ALONE, oneParagraph } from './context.ts';
import type { Aircraft, Control, Item, Panel, PanelPlace, Prose, Tour, TourStop } from './fleet.ts';
import type { KnownFits } from './known-fits.ts';
import { attributeKeyPlace, placeOf } from './markdown-places.ts';
import type { NameKind } from './names.ts';
import { type FrontMatter, ProseReader, parseProse, readFrontMatter } from './read-prose.ts';
import { tourFrontMatterSchema } from './schema.ts';
import { scalarUnder } from './yaml-source.ts';

/** What a tour can stop at, as far as it could be read. */
export interface Stoppable {
  readonly panels: readonly Panel[];
  readonly places: readonly PanelPlace[];
  readonly controls: readonly Control[];
  readonly items: readonly Item[];
}

const STOPS: readonly NameKind[] = ['control', 'place', 'item'];
/** The level of the headings that are stops. */
const STOP_LEVEL = 2;
const TRAP = 'trap';

/**
 * Reads one tour. Undefined when its front matter cannot be used; a stop that cannot is reported and left out. `aircraft` is
 * undefined while the list of aircraft cannot be read.
 */
export function readTour(
  file: SourceFile,
  aircraft: readonly Aircraft[] | undefined,
  fits: KnownFits,
  stoppable: Stoppable,
  context: Context,
): Tour | undefined {
  const front = readFrontMatter(file, 'tour', tourFrontMatterSchema, context);
  const panel = front && scalarUnder(front.node, 'panel');
  if (!front || !panel || !context.names.resolve(panel.written, ['panel'], panel.place)) return undefined;
  const only = scalarUnder(front.node, 'for');
  const forWhich = only && context.expression(only, OPTIONS_ALONE);
  if (only && !forWhich) return undefined;
  const among = forWhich ? [forWhich] : [];
  const inService = aircraft ? fits : undefined;
  const isForSome = !inService || inService.witness(among) !== undefined;
  if (only && !isForSome) context.diagnostics.report('SL516', {}, only.place);
  const around = { panel: panel.written, stoppable, among, fits: isForSome ? inService : undefined };
  const reader = new ProseReader(file, 'tour', aircraft, context);
  const parts = new StopsReader(file, reader, context, around).read(front);
  const minutes = scalarUnder(front.node, 'minutes')?.written;
  return {
    title: scalarUnder(front.node, 'title')?.written ?? '',
    panel: panel.written,
    ...(forWhich ? { for: forWhich } : {}),
    ...(minutes === undefined ? {} : { minutes }),
    source: file,
    ...parts,
    claims: reader.claims,
    quotes: reader.quotes,
    place: front.node.place,
  };
}

interface Around {
  readonly panel: string;
  readonly stoppable: Stoppable;
  /** What the tour's aircraft fulfil. */
  readonly among: readonly Expression[];
  /** Absent where nothing can be said of aircraft. */
  readonly fits: KnownFits | undefined;
}

/** A heading and what stands below it, up to the next. */
interface Part {
  readonly heading?: Heading;
  readonly children: RootContent[];
}

class StopsReader {
  readonly #file: SourceFile;
  readonly #id: string;
  readonly #prose: ProseReader;
  readonly #context: Context;
  readonly #around: Around;
  /** Where each stop stood first. */
  readonly #seen = new Map<string, Place>();

  constructor(file: SourceFile, prose: ProseReader, context: Context, around: Around) {
    this.#file = file;
    this.#id = file.path.replace(/^.*\//, '').replace(/\.md$/, '');
    this.#prose = prose;
    this.#context = context;
    this.#around = around;
  }

  read(front: FrontMatter): Pick<Tour, 'id' | 'opening' | 'stops'> {
    const text = parseProse(this.#file, front);
    const [first, ...rest] = partsOf(text);
    const shared = definitionsIn(text);
    this.#check(first);
    const stops = rest.flatMap((part) => this.#stop(part, shared) ?? []);
    if (rest.length === 0) {
      const end = this.#file.text.trimEnd().length;
      this.#context.diagnostics.report('SL513', {}, { file: this.#file, start: end, end });
    }
    return { id: this.#id, opening: this.#text('', first.children, shared), stops };
  }

  #stop(part: Part, shared: readonly RootContent[]): TourStop | undefined {
    this.#check(part);
    const named = part.heading && this.#named(part.heading);
    if (!named) return undefined;
    const isTrap = (node: RootContent): boolean => node.type === 'containerDirective' && node.name === TRAP;
    const remarks = part.children.filter((node) => !isTrap(node));
    const traps = part.children.flatMap((node) =>
      isTrap(node) && 'children' in node ? [node.children as RootContent[]] : [],
    );
    return {
      at: named.id,
      ...(named.words === '' ? {} : { words: named.words }),
      remarks: this.#text(named.id, remarks, shared),
      traps: traps.map((children, at) => this.#text(`${named.id}-trap-${at + 1}`, children, shared)),
      place: named.place,
    };
  }

  /** What a stop's heading refers to, if the tour can stop there. */
  #named(heading: Heading): { readonly id: string; readonly words: string; readonly place: Place } | undefined {
    const { diagnostics, names } = this.#context;
    const whole = placeOf(this.#file, heading);
    const [link, ...more] = heading.children;
    if (link?.type !== 'link' || !link.url.startsWith('ref:') || more.length > 0) {
      diagnostics.report('SL510', {}, whole);
      return undefined;
    }
    const id = link.url.slice('ref:'.length);
    const start = this.#file.text.indexOf(link.url, whole.start) + 'ref:'.length;
    const place = { ...whole, start, end: start + id.length };
    if (!names.resolve(id, STOPS, place)) return undefined;
    const first = this.#seen.get(id);
    if (first) {
      diagnostics.report('SL512', { id }, place, [{ place: first, label: 'the first one' }]);
      return undefined;
    }
    this.#seen.set(id, place);
    return this.#isHere(id, place) ? { id, words: oneParagraph(wordsOf(link)), place } : undefined;
  }

  /** Whether something stands on the panel of the tour, on some of its aircraft. */
  #isHere(id: string, place: Place): boolean {
    const { diagnostics } = this.#context;
    const { panel, stoppable, among, fits } = this.#around;
    const { panels, places, controls, items } = stoppable;
    const hole = places.find((each) => each.id === id);
    const one = hole ?? [...controls, ...items].find((each) => each.id === id);
    // What cannot be used itself has been reported where it is defined.
    if (!one) return false;
    if (one.panel !== panel) {
      const titleOf = (which: string): string => panels.find((each) => each.id === which)?.title ?? which;
      diagnostics.report('SL511', { id, panel: titleOf(one.panel), tour: titleOf(panel) }, place);
      return false;
    }
    const fitted = hole
      ? controls.filter(({ at }) => at === id)
      : [...controls, ...items].filter((each) => each === one);
    const isOnSome = fitted.some((each) => !fits || fits.witness([...among, ...(each.fitted ? [each.fitted] : [])]));
    if (!isOnSome) diagnostics.report('SL517', { id }, place);
    return isOnSome;
  }

  /** Reports what is wrong between two headings. */
  #check({ heading, children }: Part): void {
    const body: Root = { type: 'root', children };
    this.#prose.check(body, (node) => {
      if (node.name !== TRAP) return false;
      if (!heading || !children.includes(node))
        this.#context.diagnostics.report('SL514', {}, startOf(placeOf(this.#file, node)));
      for (const key of Object.keys(node.attributes ?? {}))
        this.#context.diagnostics.report('SL518', { key }, attributeKeyPlace(this.#file, node, key));
      return true;
    });
    visit(body, 'heading', (node) => {
      this.#context.diagnostics.report('SL515', {}, startOf(placeOf(this.#file, node)));
    });
  }

  /** A text of its own, with what links and footnotes name elsewhere in the file. */
  #text(name: string, children: readonly RootContent[], shared: readonly RootContent[]): Prose {
    const others = shared.filter((node) => !children.includes(node));
    return {
      id: ['tour', this.#id, name].filter((each) => each !== '').join('-'),
      body: { type: 'root', children: [...children, ...others] },
    };
  }
}

/** What stands before the first stop, then each stop with what stands below it. */
function partsOf({ children }: Root): [Part, ...Part[]] {
  const parts: [Part, ...Part[]] = [{ children: [] }];
  for (const node of children) {
    if (node.type === 'heading' && node.depth === STOP_LEVEL) parts.push({ heading: node, children: [] });
    else parts.at(-1)?.children.push(node);
  }
  return parts;
}

function definitionsIn({ children }: Root): (Definition | FootnoteDefinition)[] {
  return children.filter((node) => node.type === 'definition' || node.type === 'footnoteDefinition');
}

/** The first line alone: what a block holds is not what is wrong. */
function startOf({ file, start, end }: Place): Place {
  const line = file.text.slice(start, end).search(/[\r\n]/);
  return { file, start, end: line < 0 ? end : start + line };
}
