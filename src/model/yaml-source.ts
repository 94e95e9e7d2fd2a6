/**
 * Reads the text of a YAML file into a plain tree in which every key and value knows its place. Only what authors need
 * of YAML 1.2 is accepted: mappings, lists, scalars. Anchors, aliases, merge keys, tags and directives are refused,
 * since they hide what a definition says.
 */

import type { Document, Pair, Node as ParsedNode, Scalar, YAMLMap } from 'yaml';
import { isAlias, isMap, isPair, isScalar, isSeq, parseAllDocuments, visit } from 'yaml';
import type { Diagnostics, Place, SourceFile } from '../diagnostics/index.ts';
import type { ScalarStyle } from './scalar-offsets.ts';
import { mapScalar } from './scalar-offsets.ts';
import { reportSyntax } from './yaml-syntax.ts';

export interface ScalarNode {
  readonly kind: 'scalar';
  readonly value: string | number | boolean | null;
  /** The value as the author wrote it: `1.10` stays `1.10`. For quoted and block scalars the resolved text. */
  readonly written: string;
  readonly place: Place;
  /** Maps an index in `written` to an offset in the file. */
  offset(index: number): number;
}
export interface Entry {
  readonly key: string;
  readonly keyPlace: Place;
  readonly value: YamlNode;
}
export interface MapNode {
  readonly kind: 'map';
  readonly entries: readonly Entry[];
  readonly place: Place;
}
export interface ListNode {
  readonly kind: 'list';
  readonly items: readonly YamlNode[];
  readonly place: Place;
}
export type YamlNode = ScalarNode | MapNode | ListNode;

/** The part of a file that is YAML: all of it, or a note's front matter. */
export interface YamlRange {
  readonly start: number;
  readonly end: number;
}

/** Returns the tree, or undefined after reporting why there is none. A file with a syntax mistake has no tree. */
export function readYaml(file: SourceFile, diagnostics: Diagnostics, range?: YamlRange): YamlNode | undefined {
  // A byte order mark would count as indentation where the file starts with a list.
  const start = range?.start ?? (file.text.startsWith('\uFEFF') ? 1 : 0);
  const text = file.text.slice(start, range?.end ?? file.text.length);
  const place = (from: number, to: number): Place => ({ file, start: start + from, end: start + Math.max(from, to) });
  const parsed = parseAllDocuments(text, {
    version: '1.2',
    schema: 'core',
    merge: false,
    uniqueKeys: false,
    keepSourceTokens: true,
    prettyErrors: false,
    logLevel: 'silent',
  });
  const documents = Array.isArray(parsed) ? parsed : [];
  const [first, second] = documents;
  if (first === undefined || (second === undefined && isNothing(first.contents) && first.errors.length === 0)) {
    diagnostics.report('SL104', {}, place(0, 0));
    return undefined;
  }
  for (const document of documents) {
    if (reportSyntax(document, text, place, diagnostics)) return undefined;
  }
  if (second !== undefined) {
    const marker = text.lastIndexOf('---', second.range[1]);
    diagnostics.report('SL105', {}, place(Math.max(marker, 0), Math.max(marker, 0) + 3));
    return undefined;
  }
  if (refuseFeatures(first, text, place, diagnostics)) return undefined;
  return new TreeMaker(text, place, diagnostics).node(first.contents as ParsedNode);
}

function isNothing(contents: unknown): boolean {
  return contents === null || (isScalar(contents) && contents.value === null && contents.source === '');
}

type MakePlace = (from: number, to: number) => Place;

/** Reports what an author cannot use; true if there was any. */
function refuseFeatures(document: Document, text: string, place: MakePlace, diagnostics: Diagnostics): boolean {
  let found = false;
  const refuse = (feature: string, from: number, to: number): void => {
    found = true;
    diagnostics.report('SL111', { feature }, place(from, to));
  };
  const directive = /^%\S+/m.exec(text.slice(0, document.contents?.range?.[0] ?? 0));
  if (directive !== null) refuse('a directive', directive.index, directive.index + directive[0].length);
  visit(document, (_key, node) => {
    if (isPair(node)) {
      if (isScalar(node.key) && node.key.source === '<<' && node.key.range)
        refuse('a merge key', node.key.range[0], node.key.range[1]);
      return;
    }
    if (isAlias(node)) {
      refuse('an alias', node.range?.[0] ?? 0, node.range?.[1] ?? 0);
      return;
    }
    if (!isScalar(node) && !isMap(node) && !isSeq(node)) return;
    const from = node.range?.[0] ?? 0;
    for (const [feature, mark] of [
      ['an anchor', node.anchor && `&${node.anchor}`],
      ['a tag', node.tag && '!'],
    ] as const) {
      if (!mark) continue;
      const at = Math.max(text.lastIndexOf(mark, from), 0);
      refuse(feature, at, at + (/^\S+/.exec(text.slice(at))?.[0].length ?? 1));
    }
  });
  return found;
}

const STYLES: Readonly<Record<string, ScalarStyle>> = {
  PLAIN: 'plain',
  QUOTE_SINGLE: 'single',
  QUOTE_DOUBLE: 'double',
  BLOCK_LITERAL: 'literal',
  BLOCK_FOLDED: 'folded',
};

class TreeMaker {
  readonly #text: string;
  readonly #place: MakePlace;
  readonly #diagnostics: Diagnostics;

  constructor(text: string, place: MakePlace, diagnostics: Diagnostics) {
    this.#text = text;
    this.#place = place;
    this.#diagnostics = diagnostics;
  }

  node(node: ParsedNode): YamlNode {
    const [from, to] = node.range ?? [0, 0];
    if (isMap(node))
      return { kind: 'map', entries: this.#entries(node), place: this.#place(from, this.#trimmed(from, to)) };
    if (isSeq(node)) {
      const items = node.items.map((item) => this.node(item as ParsedNode));
      return { kind: 'list', items, place: this.#place(from, this.#trimmed(from, to)) };
    }
    return this.#scalar(node as Scalar);
  }

  /** A block collection's range runs on into the blank lines after it. */
  #trimmed(from: number, to: number): number {
    return from + this.#text.slice(from, to).trimEnd().length;
  }

  #scalar(node: Scalar): ScalarNode {
    const [from, to] = node.range ?? [0, 0];
    const style = STYLES[node.type ?? 'PLAIN'] ?? 'plain';
    const base = this.#place(from, from).start - from;
    const indent = (node.srcToken as { readonly indent?: number } | undefined)?.indent ?? 0;
    const mapped = mapScalar({ text: this.#text, start: from, end: to, style, parentIndent: indent });
    const value = node.value as ScalarNode['value'];
    return {
      kind: 'scalar',
      value,
      written: typeof value === 'string' ? value : mapped.value,
      place: this.#place(from, from + this.#text.slice(from, to).trimEnd().length),
      offset: (index) => base + (mapped.offsets[Math.min(index, mapped.offsets.length - 1)] ?? from),
    };
  }

  #entries(map: YAMLMap): Entry[] {
    const seen = new Map<string, Place>();
    const entries: Entry[] = [];
    for (const pair of map.items as Pair<ParsedNode, ParsedNode | null>[]) {
      const entry = this.#entry(pair);
      if (entry === undefined) continue;
      const first = seen.get(entry.key);
      if (first === undefined) {
        seen.set(entry.key, entry.keyPlace);
        entries.push(entry);
      } else {
        const related = [{ place: first, label: 'first given here' }];
        this.#diagnostics.report('SL110', { key: entry.key }, entry.keyPlace, related);
      }
    }
    return entries;
  }

  #entry(pair: Pair<ParsedNode, ParsedNode | null>): Entry | undefined {
    const [from, to] = pair.key.range ?? [0, 0];
    if (!isScalar(pair.key)) {
      this.#diagnostics.report('SL116', {}, this.#place(from, this.#trimmed(from, to)));
      return undefined;
    }
    const key = this.#scalar(pair.key);
    const missing: ScalarNode = {
      kind: 'scalar',
      value: null,
      written: '',
      place: key.place,
      offset: () => key.place.end,
    };
    const value = pair.value === null || isNothing(pair.value) ? missing : this.node(pair.value);
    return { key: key.written, keyPlace: key.place, value };
  }
}

/** The plain value of a tree, as the schemas see it. */
export function plainValue(node: YamlNode): unknown {
  if (node.kind === 'scalar') return node.value;
  if (node.kind === 'list') return node.items.map(plainValue);
  return Object.fromEntries(node.entries.map((entry) => [entry.key, plainValue(entry.value)]));
}

/** The entry of a key, when the node is a mapping that has it. */
export function entryOf(node: YamlNode | undefined, key: string): Entry | undefined {
  return node?.kind === 'map' ? node.entries.find((entry) => entry.key === key) : undefined;
}

/** The entries of the mapping under a key, in the author's order; none when there is no such mapping. */
export function entriesUnder(node: YamlNode | undefined, key: string): readonly Entry[] {
  const value = entryOf(node, key)?.value;
  return value?.kind === 'map' ? value.entries : [];
}

/** The items of the list under a key; none when there is no such list. */
export function itemsUnder(node: YamlNode | undefined, key: string): readonly YamlNode[] {
  const value = entryOf(node, key)?.value;
  return value?.kind === 'list' ? value.items : [];
}

/** The scalar under a key. */
export function scalarUnder(node: YamlNode | undefined, key: string): ScalarNode | undefined {
  const value = entryOf(node, key)?.value;
  return value?.kind === 'scalar' ? value : undefined;
}
