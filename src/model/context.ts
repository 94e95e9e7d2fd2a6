/** What the readers of the single files share. */
import { Diagnostics, nearestName, type Place, type SourceFile } from '../diagnostics/index.ts';
import type { Allowed, Declaration, Duration, Expression, ExpressionSource, Guard } from '../language/index.ts';
import { isSayable, readCell, readDuration, readExpression, readGuard } from '../language/index.ts';
import type { Cell } from './csv-source.ts';
import type { Citation, Defined, Source } from './fleet.ts';
import { formerlyOf } from './former-ids.ts';
import type { Names } from './names.ts';
import type { DeclaredQueries } from './read-queries.ts';
import type { Entry, ScalarNode, YamlNode } from './yaml-source.ts';
import { entryOf, scalarUnder } from './yaml-source.ts';

/** For what is decided by the fit of an aircraft. */
export const OPTIONS_ALONE: Allowed = {
  kinds: ['option'],
  why: 'What is fitted is decided by options alone.',
};

/** What other files of the folder hold that definitions refer to. */
export interface KnownFiles {
  /** Documents by id; undefined while sources.yaml is unreadable, so that citations aren't all reported. */
  readonly documents: ReadonlyMap<string, Source> | undefined;
  readonly queries: DeclaredQueries['known'];
  readonly tables: readonly SourceFile[];
  /** Files of no kind, already reported. */
  readonly misnamed: readonly SourceFile[];
}

/** The folder of the decision tables. */
const TABLES = 'tables/';

export class Context {
  readonly diagnostics: Diagnostics;
  readonly names: Names;
  readonly #documents: ReadonlyMap<string, Source> | undefined;
  readonly #queries: DeclaredQueries['known'];
  readonly #tables: readonly SourceFile[];
  readonly #misnamed: readonly SourceFile[];
  readonly #scope = new Map<string, Declaration>();
  readonly #normals = new Map<string, string>();
  readonly #titles = new Map<string, string>();
  readonly #askedQueries = new Set<string>();
  readonly #readTables = new Set<SourceFile>();

  constructor(diagnostics: Diagnostics, names: Names, files: KnownFiles) {
    this.diagnostics = diagnostics;
    this.names = names;
    this.#documents = files.documents;
    this.#queries = files.queries;
    this.#tables = files.tables;
    this.#misnamed = files.misnamed;
  }

  /** The decision table of a name, as content writes it. */
  table(name: string): SourceFile | undefined {
    const file = this.#tables.find(({ path }) => path === `${TABLES}${name}`);
    if (file) this.#readTables.add(file);
    return file;
  }

  /** Whether a file of the name lies where no table is read. */
  isMisplacedTable(name: string): boolean {
    const end = `/${name}`.toLowerCase();
    return this.#misnamed.some(({ path }) => `/${path}`.toLowerCase().endsWith(end));
  }

  get tableNames(): string[] {
    return this.#tables.map(({ path }) => path.slice(TABLES.length));
  }

  /** The tables that no rule list has asked for. */
  get unreadTables(): readonly SourceFile[] {
    return this.#tables.filter((file) => !this.#readTables.has(file));
  }

  /** Keeps the normal value of a condition and how things are called, for what is made of them. */
  keep(id: string, title: string, normal?: string): void {
    this.#titles.set(id, title);
    if (normal !== undefined) this.#normals.set(id, normal);
  }

  normalOf(condition: string): string | undefined {
    return this.#normals.get(condition);
  }

  titleOf(id: string): string {
    return this.#titles.get(id) ?? id;
  }

  /** The names that expressions can read. */
  get readable(): readonly string[] {
    return [...this.#scope.keys()];
  }

  /** Whether the id names an open query. Reports unknown and answered ones. */
  isOpenQuery(id: string, place: Place): boolean {
    this.#askedQueries.add(id);
    if (this.#queries === undefined) return true;
    const query = this.#queries.get(id);
    if (!query) {
      this.diagnostics.report('SL367', { query: id, nearest: nearestName(id, [...this.#queries.keys()]) }, place);
      return false;
    }
    if (query.answered) this.diagnostics.report('SL368', { query: id }, place);
    return !query.answered;
  }

  /** Whether something has named the query. */
  isAsked(query: string): boolean {
    return this.#askedQueries.has(query);
  }

  /** What a cell of a decision table says of the name at the head of its column. Undefined after a report. */
  cell(name: string, { text, place }: Cell): Expression | undefined {
    if (this.names.mentionsBroken(name)) return undefined;
    // The place of a quoted cell counts its quotes.
    const start = place.file.text.charAt(place.start) === '"' ? place.start + 1 : place.start;
    const found = new Diagnostics();
    const source = { text, file: place.file, offset: (index: number) => start + index };
    const result = readCell(name, source, this.#scope, found);
    this.names.former.pass(found, this.diagnostics);
    return result;
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

  /** Reports a document that sources.yaml doesn't list, and says whether it did. */
  reportUnknownDocument(document: string, place: Place): boolean {
    if (this.#documents === undefined || this.#documents.has(document)) return false;
    const nearest = nearestName(document, [...this.#documents.keys()]);
    this.diagnostics.report('SL306', { document, ...(nearest === undefined ? {} : { nearest }) }, place);
    return true;
  }

  /** The citation under `source`, with its document checked. */
  citation(node: YamlNode): Citation | undefined {
    const source = entryOf(node, 'source')?.value;
    const document = scalarUnder(source, 'document');
    if (source === undefined || document === undefined) return undefined;
    const paragraph = scalarUnder(source, 'paragraph')?.written;
    this.reportUnknownDocument(document.written, document.place);
    const revision = scalarUnder(source, 'revision')?.written;
    return {
      document: document.written,
      ...(paragraph === undefined ? {} : { paragraph }),
      ...(revision === undefined ? {} : { revision }),
      place: source.place,
    };
  }
}

function sourceOf(source: ScalarNode): ExpressionSource {
  return { text: source.written, file: source.place.file, offset: (index) => source.offset(index) };
}

/** Line breaks of a block scalar are not the author's meaning: the text is one paragraph. */
export function oneParagraph(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

/** Reports values, attributes and lamps that no expression could name, since their ids are words that join statements. */
export function reportUnsayable(entries: readonly Entry[], diagnostics: Diagnostics): void {
  for (const { key, keyPlace } of entries) {
    if (!isSayable(key)) diagnostics.report('SL377', { word: key }, keyPlace);
  }
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
