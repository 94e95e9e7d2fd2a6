/** Holds a YAML tree to a schema and says what is wrong in the author's words, at the key or value concerned. */
import { z } from 'zod';
import type { Diagnostics } from '../diagnostics/index.ts';
import { nearestName } from '../diagnostics/index.ts';
import type { Entry, YamlNode } from './yaml-source.ts';
import { entryOf, plainValue } from './yaml-source.ts';

type Path = readonly PropertyKey[];
type Issue = z.core.$ZodIssue;

/** The plain value of a file. `sound(path)` tells whether a part has the shape that its type promises. */
export interface Checked<T> {
  readonly data: T;
  sound(...path: PropertyKey[]): boolean;
}

/** Reports every fault of shape. The data is as typed wherever `sound` says so. */
export function checkShape<S extends z.ZodType>(
  schema: S,
  root: YamlNode,
  diagnostics: Diagnostics,
): Checked<z.infer<S>> {
  const data = plainValue(root) as z.infer<S>;
  const issues = flatten(schema.safeParse(data).error?.issues ?? [], root);
  const check = new ShapeCheck(schema, root, issues, diagnostics);
  for (const issue of issues) check.report(issue);
  return {
    data,
    sound: (...path) => !issues.some((issue) => path.every((key, index) => issue.path[index] === key)),
  };
}

/** Takes of a union the branch that was meant: the one whose own kind (text or mapping) the author wrote. */
function flatten(issues: readonly Issue[], root: YamlNode): Issue[] {
  return issues.flatMap((issue): Issue[] => {
    if (issue.code !== 'invalid_union') return [issue];
    const meant = issue.errors.find((errors) =>
      errors.some((one) => one.path.length > 0 || one.code !== 'invalid_type'),
    );
    if (meant === undefined) return [issue];
    return flatten(
      meant.map((one) => ({ ...one, path: [...issue.path, ...one.path] })),
      root,
    );
  });
}

class ShapeCheck {
  readonly #schema: z.ZodType;
  readonly #root: YamlNode;
  readonly #issues: readonly Issue[];
  readonly #diagnostics: Diagnostics;
  /** Missing keys that an unknown key was taken for, as "path/key". */
  readonly #taken = new Set<string>();

  constructor(schema: z.ZodType, root: YamlNode, issues: readonly Issue[], diagnostics: Diagnostics) {
    this.#schema = schema;
    this.#root = root;
    this.#issues = [...issues];
    this.#diagnostics = diagnostics;
    for (const issue of this.#issues) {
      if (issue.code === 'unrecognized_keys') for (const key of issue.keys) this.#take(issue.path, key);
    }
  }

  #take(path: Path, key: string): void {
    const nearest = this.#nearestKey(path, key);
    if (nearest !== undefined) this.#taken.add([...path, nearest].join('/'));
  }

  #nearestKey(path: Path, key: string): string | undefined {
    const node = nodeAt(this.#root, path);
    return nearestName(
      key,
      keysOf(schemaAt(this.#schema, path)).filter((known) => entryOf(node, known) === undefined),
    );
  }

  report(issue: Issue): void {
    if (issue.code === 'unrecognized_keys') this.#reportUnknownKeys(issue.path, issue.keys);
    else if (issue.code === 'invalid_key') this.#reportKey(issue);
    else this.#reportValue(issue);
  }

  #reportUnknownKeys(path: Path, keys: readonly string[]): void {
    const node = nodeAt(this.#root, path);
    const known = keysOf(schemaAt(this.#schema, path));
    for (const key of keys) {
      const nearest = this.#nearestKey(path, key);
      const facts = { key, known, ...(nearest === undefined ? {} : { nearest }) };
      this.#diagnostics.report('SL120', facts, entryOf(node, key)?.keyPlace ?? this.#root.place);
    }
  }

  #reportKey(issue: Issue & { readonly code: 'invalid_key' }): void {
    const key = String(issue.path.at(-1));
    const entry = entryOf(nodeAt(this.#root, issue.path.slice(0, -1)), key);
    this.#diagnostics.report(
      'SL301',
      { id: key, form: issue.issues[0]?.message ?? '' },
      entry?.keyPlace ?? this.#root.place,
    );
  }

  #reportValue(issue: Issue): void {
    const node = nodeAt(this.#root, issue.path);
    const parent = entryAt(this.#root, issue.path.slice(0, -1));
    const key = keyName(issue.path);
    if (node === undefined) {
      if (this.#taken.has(issue.path.join('/'))) return;
      const owner = parent?.key;
      const place = parent?.keyPlace ?? nodeAt(this.#root, issue.path.slice(0, -1))?.place ?? this.#root.place;
      const at =
        parent === undefined ? { ...place, end: firstKeyEnd(this.#root, issue.path.slice(0, -1)) ?? place.end } : place;
      this.#diagnostics.report('SL121', { key, ...(owner === undefined ? {} : { owner }) }, at);
      return;
    }
    if (isEmpty(node)) {
      const entry = entryAt(this.#root, issue.path);
      this.#diagnostics.report('SL124', { key }, entry?.keyPlace ?? node.place);
      return;
    }
    switch (issue.code) {
      case 'invalid_type':
        this.#reportType(node, key, [issue.expected]);
        break;
      case 'invalid_union':
        this.#reportType(
          node,
          key,
          issue.errors
            .map((errors) => errors[0])
            .map((one) => (one?.code === 'invalid_type' ? one.expected : 'string')),
        );
        break;
      case 'invalid_value':
        this.#reportChoice(node, key, issue.values.map(String));
        break;
      case 'invalid_format':
        if (issue.format === 'date') this.#diagnostics.report('SL126', { text: writtenOf(node) }, node.place);
        else this.#diagnostics.report('SL125', { text: writtenOf(node), form: issue.message }, node.place);
        break;
      case 'too_small':
        // An empty text has been reported before.
        this.#diagnostics.report('SL125', { text: writtenOf(node), form: issue.message }, node.place);
        break;
      default:
        this.#diagnostics.report('SL124', { key }, entryAt(this.#root, issue.path)?.keyPlace ?? node.place);
    }
  }

  #reportType(node: YamlNode, key: string, expected: readonly string[]): void {
    const wanted = [...new Set(expected.map((type) => KINDS[type] ?? type))]
      .filter((kind) => kind !== 'nothing')
      .join(' or ');
    if (
      node.kind === 'scalar' &&
      typeof node.value !== 'string' &&
      node.value !== null &&
      expected.includes('string')
    ) {
      this.#diagnostics.report('SL123', { key, text: node.written }, node.place);
      return;
    }
    const entry = entryAt(this.#root, this.#pathOf(node));
    const place = node.kind === 'scalar' || entry === undefined ? node.place : entry.keyPlace;
    this.#diagnostics.report('SL122', { key, wanted, found: foundKind(node) }, place);
  }

  #pathOf(node: YamlNode): Path {
    return this.#issues.find((issue) => nodeAt(this.#root, issue.path) === node)?.path ?? [];
  }

  #reportChoice(node: YamlNode, key: string, known: readonly string[]): void {
    if (node.kind !== 'scalar') {
      this.#reportType(node, key, ['string']);
      return;
    }
    const nearest = nearestName(node.written, known);
    const facts = { key, value: node.written, known, ...(nearest === undefined ? {} : { nearest }) };
    this.#diagnostics.report('SL128', facts, node.place);
  }
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  boolean: 'true or false',
  object: 'keys with values, indented under it',
  record: 'keys with values, indented under it',
  array: 'a list, each entry starting with "- "',
  null: 'nothing',
};

function foundKind(node: YamlNode): string {
  if (node.kind === 'list') return 'a list';
  if (node.kind === 'map') return 'keys with values';
  return typeof node.value === 'boolean' ? 'true or false' : typeof node.value === 'number' ? 'a number' : 'a text';
}

function isEmpty(node: YamlNode): boolean {
  if (node.kind === 'scalar') return node.value === null || node.value === '';
  return node.kind === 'list' && node.items.length === 0;
}

function writtenOf(node: YamlNode): string {
  return node.kind === 'scalar' ? node.written : '';
}

/** The key that a path ends in; for an entry of a list, the list's. */
function keyName(path: Path): string {
  return String(path.findLast((key) => typeof key === 'string') ?? '');
}

function firstKeyEnd(root: YamlNode, path: Path): number | undefined {
  const node = nodeAt(root, path);
  return node?.kind === 'map' ? node.entries[0]?.keyPlace.end : undefined;
}

function nodeAt(root: YamlNode, path: Path): YamlNode | undefined {
  let node: YamlNode | undefined = root;
  for (const key of path) {
    if (node?.kind === 'list') node = node.items[Number(key)];
    else node = entryOf(node, String(key))?.value;
  }
  return node;
}

/** The mapping entry that a path ends in, if it ends in a key. */
function entryAt(root: YamlNode, path: Path): Entry | undefined {
  const key = path.at(-1);
  return typeof key === 'string' ? entryOf(nodeAt(root, path.slice(0, -1)), key) : undefined;
}

function schemaAt(schema: z.ZodType, path: Path): z.ZodType | undefined {
  const [key, ...rest] = path;
  const bare = unwrap(schema, typeof key === 'number');
  if (key === undefined) return bare;
  let next: z.ZodType | undefined;
  if (bare instanceof z.ZodObject) next = bare.shape[String(key)] as z.ZodType | undefined;
  else if (bare instanceof z.ZodRecord) next = bare.valueType as z.ZodType;
  else if (bare instanceof z.ZodArray) next = bare.element as z.ZodType;
  return next === undefined ? undefined : schemaAt(next, rest);
}

/** Optional and nullable wrappers off; of a union, the branch that has keys, or entries where `asList` says so. */
function unwrap(schema: z.ZodType, asList: boolean): z.ZodType {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable)
    return unwrap(schema.unwrap() as z.ZodType, asList);
  if (schema instanceof z.ZodUnion) {
    const branches = (schema.options as readonly z.ZodType[]).map((branch) => unwrap(branch, asList));
    const kind = asList ? z.ZodArray : z.ZodObject;
    return branches.find((branch) => branch instanceof kind) ?? schema;
  }
  return schema;
}

function keysOf(schema: z.ZodType | undefined): string[] {
  return schema instanceof z.ZodObject ? Object.keys(schema.shape) : [];
}
