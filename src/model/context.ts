/** What the readers of the single files share. */
import { Diagnostics, nearestName, type Place } from '../diagnostics/index.ts';
import type { Allowed, Declaration, Duration, Expression, ExpressionSource, Guard } from '../language/index.ts';
import { readDuration, readExpression, readGuard } from '../language/index.ts';
import type { Citation, Defined, Source } from './fleet.ts';
import { formerlyOf } from './former-ids.ts';
import type { Names } from './names.ts';
import type { Entry, ScalarNode, YamlNode } from './yaml-source.ts';
import { entryOf, scalarUnder } from './yaml-source.ts';

/** For what is decided by the fit of an aircraft. */
export const OPTIONS_ALONE: Allowed = {
  kinds: ['option'],
  why: 'What is fitted is decided by options alone.',
};

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

  /** What expressions can say of a name. */
  declaration(id: string): Declaration | undefined {
    return this.#scope.get(id);
  }

  /** Undefined after a report, or without one where the text names something that is broken itself. */
  expression(source: ScalarNode, allow?: Allowed): Expression | undefined {
    return this.#read(source, (text, found) => readExpression(text, this.#scope, found, allow));
  }

  /** As `expression`, of what a transition waits for. */
  guard(source: ScalarNode): Guard | undefined {
    return this.#read(source, (text, found) => readGuard(text, this.#scope, found));
  }

  /** Undefined after a report. */
  duration(source: ScalarNode): Duration | undefined {
    return readDuration(sourceOf(source), this.diagnostics);
  }

  #read<T>(source: ScalarNode, read: (text: ExpressionSource, found: Diagnostics) => T | undefined): T | undefined {
    if (this.names.mentionsBroken(source.written)) return undefined;
    const found = new Diagnostics();
    const result = read(sourceOf(source), found);
    this.names.former.pass(found, this.diagnostics);
    return result;
  }

  /** The expression under `fitted`, over options only; absent without one. `ok` is false when it cannot be used. */
  fitted(node: YamlNode): { readonly fitted?: Expression; readonly ok: boolean } {
    const scalar = scalarUnder(node, 'fitted');
    if (scalar === undefined) return { ok: true };
    const fitted = this.expression(scalar, OPTIONS_ALONE);
    return fitted === undefined ? { ok: false } : { fitted, ok: true };
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
      ...formerlyOf(node),
      place,
    };
  }

  /** Reports a document that sources.yaml doesn't list. */
  reportUnknownDocument(document: string, place: Place): void {
    if (this.#documents === undefined || this.#documents.has(document)) return;
    const nearest = nearestName(document, [...this.#documents.keys()]);
    this.diagnostics.report('SL306', { document, ...(nearest === undefined ? {} : { nearest }) }, place);
  }

  /** The citation under `source`, with its document checked. */
  citation(node: YamlNode): Citation | undefined {
    const source = entryOf(node, 'source')?.value;
    const document = scalarUnder(source, 'document');
    if (source === undefined || document === undefined) return undefined;
    const paragraph = scalarUnder(source, 'paragraph')?.written;
    this.reportUnknownDocument(document.written, document.place);
    return { document: document.written, ...(paragraph === undefined ? {} : { paragraph }), place: source.place };
  }
}

function sourceOf(source: ScalarNode): ExpressionSource {
  return { text: source.written, file: source.place.file, offset: (index) => source.offset(index) };
}

/** Line breaks of a block scalar are not the author's meaning: the text is one paragraph. */
export function oneParagraph(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

/**
 * Reports the definitions of one list that share what they say under `key`, since a table couldn't tell them apart. Where
 * one says nothing, `otherwise` gives its words.
 */
export function reportSameWords(
  entries: readonly Entry[],
  key: string,
  otherwise: (id: string) => string,
  diagnostics: Diagnostics,
): void {
  const first = new Map<string, Place>();
  for (const entry of entries) {
    const said = scalarUnder(entry.value, key);
    const words = said?.written ?? otherwise(entry.key);
    const place = said?.place ?? entry.keyPlace;
    const folded = words.toLocaleLowerCase('en');
    const other = first.get(folded);
    if (other === undefined) first.set(folded, place);
    else diagnostics.report('SL307', { words }, place, [{ place: other, label: 'also here' }]);
  }
}
