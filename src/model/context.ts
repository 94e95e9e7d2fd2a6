/** What the readers of the single files share. */
import type { Diagnostics, Place, SourceFile } from '../diagnostics/index.ts';
import { nearestName } from '../diagnostics/index.ts';
import { readExpression } from '../language/index.ts';
import type { Declaration, Expression } from '../language/index.ts';
import type { Citation, Defined, Source } from './fleet.ts';
import type { Names } from './names.ts';
import { entryOf, scalarUnder } from './yaml-source.ts';
import type { Entry, ScalarNode, YamlNode } from './yaml-source.ts';

/** Kinds of name that an expression may read. */
export type Readable = Declaration['kind'];

/** A place in the author's text that holds an expression. */
export interface ExpressionSource {
  readonly written: string;
  readonly place: Place;
  offset(index: number): number;
}

export class Context {
  readonly diagnostics: Diagnostics;
  readonly names: Names;
  /** Documents by id; undefined while sources.yaml is unreadable, so that citations aren't all reported. */
  readonly #documents: ReadonlyMap<string, Source> | undefined;
  readonly #scope = new Map<string, Declaration>();

  constructor(diagnostics: Diagnostics, names: Names, documents: ReadonlyMap<string, Source> | undefined) {
    this.diagnostics = diagnostics;
    this.names = names;
    this.#documents = documents;
  }

  /** Lets expressions read a name. */
  bring(declaration: Declaration): void {
    this.#scope.set(declaration.id, declaration);
  }

  /** Undefined after a report, or without one where the text names something that is broken itself. */
  expression(source: ExpressionSource, where: string, allow?: readonly Readable[]): Expression | undefined {
    if (this.names.mentionsBroken(source.written)) return undefined;
    const { file } = source.place;
    const text = { text: source.written, file, offset: (index: number) => source.offset(index) };
    return readExpression(text, this.#scope, this.diagnostics, allow === undefined ? undefined : { kinds: allow, where });
  }

  /** The expression under a key; absent without the key. `ok` is false when it is there and can't be used. */
  expressionUnder(node: YamlNode, key: string, where: string, allow?: readonly Readable[]): { readonly expression?: Expression; readonly ok: boolean } {
    const scalar = scalarUnder(node, key);
    if (scalar === undefined) return { ok: true };
    const expression = this.expression(scalar, where, allow);
    return expression === undefined ? { ok: false } : { expression, ok: true };
  }

  /** What every definition has. The node's shape must be sound. */
  defined(id: string, place: Place, node: YamlNode): Defined {
    const about = scalarUnder(node, 'about')?.written;
    const source = this.citation(node);
    return {
      id,
      title: scalarUnder(node, 'title')?.written ?? id,
      ...(about === undefined ? {} : { about: oneParagraph(about) }),
      ...(source === undefined ? {} : { source }),
      place,
    };
  }

  /** The citation under `source`, with its document checked. */
  citation(node: YamlNode): Citation | undefined {
    const source = entryOf(node, 'source')?.value;
    const document = scalarUnder(source, 'document');
    if (source === undefined || document === undefined) return undefined;
    const paragraph = scalarUnder(source, 'paragraph')?.written;
    if (this.#documents !== undefined && !this.#documents.has(document.written)) {
      const nearest = nearestName(document.written, [...this.#documents.keys()]);
      const facts = { document: document.written, ...(nearest === undefined ? {} : { nearest }) };
      this.diagnostics.report('SL206', facts, document.place);
    }
    return { document: document.written, ...(paragraph === undefined ? {} : { paragraph }), place: source.place };
  }
}

/** Line breaks of a block scalar are not the author's meaning: the text is one paragraph. */
export function oneParagraph(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

/** The place of a file as a whole, for what is missing in it. */
export function startOf(file: SourceFile): Place {
  return { file, start: 0, end: 0 };
}

/** Reports names that share their words, since a table couldn't tell them apart. */
export function reportSameWords(
  values: readonly { readonly id: string; readonly words: string; readonly place: Place }[],
  diagnostics: Diagnostics,
): void {
  const first = new Map<string, Place>();
  for (const { words, place } of values) {
    const key = words.toLocaleLowerCase('en');
    const other = first.get(key);
    if (other === undefined) first.set(key, place);
    else diagnostics.report('SL207', { words }, place, [{ place: other, label: 'also here' }]);
  }
}

/** The scalar of an entry. */
export function scalarOf(entry: Entry | undefined): ScalarNode | undefined {
  return entry?.value.kind === 'scalar' ? entry.value : undefined;
}
