/** Raw YAML, with keys in the author's order: JavaScript alone would put `0` and `1` before the others. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';

// biome-ignore lint/suspicious/noExplicitAny: raw YAML
export type Raw = any;

const ORDER = Symbol('order');

/** A file of the folder; undefined where it isn't there. Dates stay text. */
export function yaml(folder: string, name: string): Raw {
  const path = join(folder, name);
  return existsSync(path) ? plain(parse(readFileSync(path, 'utf8'), { schema: 'core', mapAsMap: true })) : undefined;
}

function plain(value: Raw): Raw {
  if (Array.isArray(value)) return value.map(plain);
  if (!(value instanceof Map)) return value;
  const entries = [...value].map(([key, inner]) => [String(key), plain(inner)] as const);
  return Object.defineProperty(Object.fromEntries(entries), ORDER, { value: entries.map(([key]) => key) });
}

/** The entries of a YAML mapping, made into something, in the author's order. */
export function mapOf<T>(raw: Raw, make: (id: string, value: Raw) => T): Map<string, T> {
  const keys: string[] = raw?.[ORDER] ?? Object.keys(raw ?? {});
  return new Map(keys.map((id) => [id, make(id, raw[id] ?? {})]));
}

/** Paths of all files below a folder whose names end so, sorted. */
export function filesIn(folder: string, ending: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending))
    .sort();
}

/** An id as a title: "not-shown" is "not shown". */
export const spaced = (id: string): string => id.replaceAll('-', ' ');

/** "Logo lights" becomes "logo lights"; legends and abbreviations stay in capitals. */
export function withSmallInitial(title: string): string {
  const [first = '', second = ''] = title;
  return second === second.toUpperCase() ? title : first.toLowerCase() + title.slice(1);
}

/** One text or a list of them. */
export const listOf = (raw: Raw): string[] =>
  raw === undefined || raw === null ? [] : (Array.isArray(raw) ? raw : [raw]).map(String);
