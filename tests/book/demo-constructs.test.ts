/** Every construct of the model occurs in the demo: each key of the content's schemas, each operator and form of expression. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readFolder } from '../../src/cli/read-folder.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import type { Comparison, Expression, Quantifier, Reference } from '../../src/language/index.ts';
import { jsonSchemas, readFleet } from '../../src/model/index.ts';
import { demoFolder } from '../helpers/content.ts';

/** What the demo may leave out, each with its reason. */
const EXCEPTIONS: Readonly<Record<string, string>> = {
  'book.paper=A5': 'a book has one size of paper',
  'book.paper=Letter': 'a book has one size of paper',
  'glyph=dark': 'the state of that name has it by itself',
  'glyph=flashing': 'the state of that name has it by itself',
  'overrides[].scope.kinds[]=light': 'no override of this aircraft lights lights',
  'panel.items.*.lamps.*.at': 'spots of the airframe say it',
  'panel.items.*.lamps.*.side': 'spots of the airframe say it',
  'panel.items.*.lamps.*.side=centre': 'spots of the airframe say it',
  'panel.items.*.lamps.*.side=left': 'spots of the airframe say it',
  'panel.items.*.lamps.*.side=right': 'spots of the airframe say it',
};

interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | false;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly type?: string;
}

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Keys that mean the same wherever they stand: what follows them is one construct, of which one use is enough. All other keys
 * count by their place.
 */
const SHARED =
  /^.*\.((?:source|formerly|about|noun|plural|glyph|rules|policy|wins|legends|spot|sector|supply|query)(?:[.[=].*)?)$/;

const SPOTS = /\.spots?(?:\[\](?:\.spot)?)?$/;

const nameOf = (path: string): string => SHARED.exec(path)?.[1] ?? path;

/** Tells of every key and choice of a schema, as "panel.controls.*.guarded", whether one of the samples has it. */
function walk(schema: Schema, samples: readonly unknown[], path: string, tell: (name: string, used: boolean) => void) {
  for (const each of schema.anyOf ?? []) walk(each, samples, path, tell);
  // The named spots are places of one airframe.
  for (const each of SPOTS.test(path) ? [] : (schema.enum ?? [])) {
    tell(nameOf(`${path}=${each}`), samples.includes(each));
  }
  if (schema.items) walk(schema.items, samples.filter(Array.isArray).flat(), `${path}[]`, tell);
  const maps = samples.filter(isMap);
  for (const [key, inner] of Object.entries(schema.properties ?? {})) {
    const values = maps.flatMap((map) => (key in map ? [map[key]] : []));
    tell(nameOf(`${path}.${key}`), values.length > 0);
    walk(inner, values, `${path}.${key}`, tell);
  }
  const rest = schema.additionalProperties;
  const entries = maps.flatMap((map) => Object.values(map));
  if (rest) walk(rest, entries, `${path}.*`, tell);
}

const paths = readdirSync(demoFolder, { recursive: true, encoding: 'utf8' }).map((path) => path.replaceAll('\\', '/'));
const text = (path: string): string => readFileSync(join(demoFolder, path), 'utf8');

/** The kind of content file, as the schemas are called: by its folder, or else by its name. */
function kindOf(path: string): string {
  const [folder, name] = path.split('/');
  return name === undefined ? path.replace('.yaml', '') : (folder ?? '').replace(/s$/, '');
}

function samplesOf(kind: string): unknown[] {
  if (kind === 'note-front-matter') return notes.map(headingBlock);
  if (kind === 'tour-front-matter') return tours.map(headingBlock);
  if (kind === 'notice-front-matter') return notices.map(headingBlock);
  return paths
    .filter((path) => path.endsWith('.yaml') && kindOf(path) === kind)
    .map((path) => parse(text(path), { schema: 'core' }) as unknown);
}

const markdown = (folder: string): string[] =>
  paths.filter((path) => path.startsWith(folder) && path.endsWith('.md')).map(text);
const notes = markdown('notes/');
const tours = markdown('tours/');
const notices = markdown('notices/');
const headingBlock = (note: string): unknown => parse(/^---\n([\s\S]*?)\n---\n/.exec(note)?.[1] ?? '');

/** Every construct, and whether it is used. */
function constructs(): Map<string, boolean> {
  const found = new Map<string, boolean>();
  for (const [kind, schema] of Object.entries(jsonSchemas()))
    walk(schema, samplesOf(kind), kind, (name, used) => {
      found.set(name, used || found.get(name) === true);
    });
  return found;
}

it('the demo uses every key and choice of the schemas, but for the exceptions', () => {
  const found = constructs();
  expect(found.size).toBeGreaterThan(150);
  const unused = [...found].flatMap(([name, used]) => (used ? [] : [name]));
  expect(unused.toSorted()).toEqual(Object.keys(EXCEPTIONS).toSorted());
});

const diagnostics = new Diagnostics();
const fleet = readFleet(readFolder(demoFolder, 'content', diagnostics), diagnostics);
if (!fleet) throw new Error('the demo is not sound');

const isExpression = (value: object): value is Expression => 'op' in value && 'place' in value;

/** Every expression below a value, with those inside it. Places hold whole files and are left out. */
function expressionsIn(value: unknown, seen = new Set<object>()): Expression[] {
  if (typeof value !== 'object' || value === null || seen.has(value)) return [];
  seen.add(value);
  const inner = (value instanceof Map ? [...value.values()] : Object.entries(value)).flatMap((entry) => {
    const [key, child] = Array.isArray(entry) && !(value instanceof Map) ? entry : ['', entry];
    return key === 'place' || key === 'body' || (key === 'source' && 'body' in value) ? [] : expressionsIn(child, seen);
  });
  return isExpression(value) ? [value, ...inner] : inner;
}

const expressions = expressionsIn(fleet);

/** What an expression is an example of. */
function forms(expression: Expression): string[] {
  switch (expression.op) {
    case 'among':
      return [`among ${expression.of.kind}`, expression.values.length > 1 ? 'among several' : 'among one'];
    case 'constant':
      return [expression.value ? 'always' : 'never'];
    case 'compare':
      return [`compare ${expression.by}`];
    case 'level':
      return [`level ${expression.by}`];
    case 'lamps':
      return [`lamps ${expression.quantifier}`];
    case 'fitted':
      return [`fitted ${expression.of.kind}`, ...(expression.position === undefined ? [] : ['fitted position'])];
    default:
      return [expression.op];
  }
}

/** The types of the language, written out: one that is added to them must be added here. */
const KINDS: Readonly<Record<Reference['kind'], true>> = {
  option: true,
  condition: true,
  control: true,
  item: true,
  lamp: true,
  sequence: true,
};
const COMPARISONS: Readonly<Record<Comparison, true>> = { '<': true, '<=': true, '>': true, '>=': true, '=': true };
const QUANTIFIERS: Readonly<Record<Quantifier, true>> = {
  any: true,
  all: true,
  'at least': true,
  'at most': true,
  exactly: true,
};
const WANTED: Readonly<Record<Expression['op'], readonly string[]>> = {
  and: ['and'],
  or: ['or'],
  not: ['not'],
  implies: ['implies'],
  signal: ['signal'],
  detector: ['detector'],
  // "never" stands where a latch is never reset; the model leaves that transition out.
  constant: ['always'],
  among: [...Object.keys(KINDS).map((kind) => `among ${kind}`), 'among one', 'among several'],
  compare: Object.keys(COMPARISONS).map((by) => `compare ${by}`),
  lamps: Object.keys(QUANTIFIERS).map((quantifier) => `lamps ${quantifier}`),
  fitted: ['fitted control', 'fitted item', 'fitted position'],
  level: ['level <=', 'level >='],
};

describe('the expressions of the demo', () => {
  it('use every operator, on every kind of thing that it can be about', () => {
    const found = new Set(expressions.flatMap(forms));
    expect(
      Object.values(WANTED)
        .flat()
        .filter((form) => !found.has(form)),
    ).toEqual([]);
  });

  it('use every word that stands for several values or for the working of a lamp', () => {
    const written = expressions.map(({ place: { file, start, end } }) => file.text.slice(start, end)).join('\n');
    const words = ['held', 'released', 'powered', 'lost', 'failed', 'serviceable', 'set', 'reset'];
    expect(words.filter((word) => !new RegExp(`\\b(?:is|are) ${word}\\b`).test(written))).toEqual([]);
    for (const form of [/: never\b/, /\bis not \w/, /\bis not in \(/, /\w in \(/, / for \d+ s/, /\blamps? of\b/])
      expect(
        form.test(
          `${written}\n${paths
            .filter((path) => path.startsWith('panels/'))
            .map(text)
            .join('\n')}`,
        ),
      ).toBe(true);
  });

  it('use detectors in every direction', () => {
    const found = new Set(fleet.detectors.map(({ by }) => by));
    expect([...found].sort()).toEqual(['<', '<=', '>', '>=']);
  });
});

describe('beside them the demo has', () => {
  it('rules that state nothing, with a case and as what closes a list, and rules for every case', () => {
    const rules = fleet.items.flatMap(({ attributes }) => attributes.flatMap((attribute) => attribute.rules));
    const open = rules.filter(({ query }) => query !== undefined);
    expect(open.some(({ when }) => when !== undefined)).toBe(true);
    expect(open.some(({ when }) => when === undefined)).toBe(true);
    expect(rules.some(({ inEveryCase }) => inEveryCase)).toBe(true);
  });

  it('decision tables with every form of cell', () => {
    const cells = paths
      .filter((path) => path.endsWith('.csv') && path.startsWith('tables/'))
      .flatMap((path) => (parseCsv(text(path)) as string[][]).slice(1).flat());
    for (const form of [/^yes$/, /^no$/, /^$/, /^\w[\w-]*, \w/, /^not /, /^[<>]/, /^not stated$/])
      expect(cells.filter((cell) => form.test(cell)).length, `${form}`).toBeGreaterThan(0);
  });

  it('an aircraft of every kind, known and coming changes, a new registration', () => {
    const { aircraft } = fleet;
    expect(new Set(aircraft.map(({ kind }) => kind))).toEqual(new Set(['aircraft', 'device']));
    const changes = aircraft.flatMap((each) => each.changes);
    expect(new Set(changes.map(({ option }) => option === 'registration'))).toEqual(new Set([true, false]));
    expect(text('aircraft.csv')).toMatch(/,\d{4}-\d\d-\d\d,\d{4}-\d\d-\d\d,/);
  });

  it('notes with every block: references with and without words, checked sentences, tables for all and for one', () => {
    const all = notes.join('\n');
    for (const form of [
      /\[[^\]]+\]\(ref:/,
      /\[\]\(ref:/,
      /:checked\[/,
      /::table\{of="[^"]+"\}/,
      /::table\{of="[^"]+" on="/,
    ])
      expect(form.test(all), `${form}`).toBe(true);
  });
});
