/** The oracle's own reading of a content folder: plain data, nothing checked that the oracle doesn't need. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import { parse as parseYaml } from 'yaml';
import type { Steps } from './decimal.ts';

export interface ConditionText {
  readonly id: string;
  readonly title: string;
  readonly noun: string | undefined;
  readonly normal: string | undefined;
  readonly number: (Steps & { readonly unit: string }) | undefined;
  /** Value id to its words. Empty for a number. */
  readonly values: ReadonlyMap<string, { readonly title: string; readonly says: string }>;
}
export interface OptionText {
  readonly id: string;
  readonly title: string;
  readonly values: ReadonlyMap<string, string>;
}
export interface ControlText {
  readonly id: string;
  readonly panel: string;
  readonly title: string;
  readonly form: string;
  readonly fitted: string;
  readonly positions: ReadonlyMap<string, { readonly legend: string; readonly fitted: string }>;
}
export interface AttributeText {
  readonly id: string;
  readonly title: string;
  /** The attribute's own control, or else the item's. */
  readonly control: string | undefined;
  readonly policy: 'any' | 'unique' | 'first';
  readonly states: ReadonlyMap<string, { readonly title: string; readonly glyph: string | undefined }>;
  /** `when` is undefined on `otherwise`. */
  readonly rules: readonly { readonly when: string | undefined; readonly state: string }[];
}
export interface ItemText {
  readonly id: string;
  readonly panel: string;
  readonly kind: string;
  readonly title: string;
  readonly noun: string;
  readonly plural: boolean;
  readonly fitted: string;
  readonly control: string | undefined;
  readonly colour: string | undefined;
  readonly legend: string | undefined;
  readonly messageClass: string | undefined;
  readonly supply: readonly string[];
  readonly attributes: ReadonlyMap<string, AttributeText>;
}
export interface ContentText {
  readonly book: { readonly operator: string; readonly type: string; readonly date: string; readonly baseline: string };
  readonly options: ReadonlyMap<string, OptionText>;
  readonly aircraft: readonly {
    readonly serial: string;
    readonly registration: string;
    readonly from: string;
    readonly to: string;
    readonly options: Readonly<Record<string, string>>;
  }[];
  readonly conditions: ReadonlyMap<string, ConditionText>;
  readonly never: readonly string[];
  readonly signals: ReadonlyMap<string, string>;
  readonly panels: ReadonlyMap<string, string>;
  readonly controls: ReadonlyMap<string, ControlText>;
  readonly items: ReadonlyMap<string, ItemText>;
  /** From claims.yaml and from checked sentences in notes, in that order. */
  readonly claims: readonly { readonly sentence: string; readonly holds: string }[];
}

// biome-ignore lint/suspicious/noExplicitAny: raw YAML
type Raw = any;

function yaml(folder: string, name: string): Raw {
  const path = join(folder, name);
  // Without a schema for dates: 2026-10-01 stays text.
  return existsSync(path) ? parseYaml(readFileSync(path, 'utf8'), { schema: 'core' }) : undefined;
}

function map<T>(raw: Raw, make: (id: string, value: Raw) => T): Map<string, T> {
  return new Map(Object.entries(raw ?? {}).map(([id, value]) => [id, make(id, value ?? {})]));
}

function filesIn(folder: string, ending: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending))
    .sort()
    .map((name) => join(folder, name));
}

const spaced = (id: string): string => id.replaceAll('-', ' ');

function rulesOf(raw: Raw): AttributeText['rules'] {
  if (raw.rules === undefined)
    return [
      { when: raw.when, state: 'shown' },
      { when: undefined, state: 'not-shown' },
    ];
  return raw.rules.map((rule: Raw) =>
    rule.otherwise === undefined ? { when: rule.when, state: rule.then } : { when: undefined, state: rule.otherwise },
  );
}

function attribute(id: string, raw: Raw, states: Raw, control?: string): AttributeText {
  return {
    id,
    title: raw.title ?? spaced(id),
    control: raw.control ?? control,
    policy: raw.policy ?? 'any',
    states: map(raw.states ?? states ?? { dark: {}, lit: {} }, (state, value) => ({
      title: value.title ?? spaced(state),
      glyph: value.glyph ?? (['dark', 'lit', 'flashing'].includes(state) ? state : undefined),
    })),
    rules: rulesOf(raw),
  };
}

/** "Logo lights" becomes "logo lights"; legends and abbreviations stay in capitals. */
function withSmallInitial(title: string): string {
  const [first = '', second = ''] = title;
  return second === second.toUpperCase() ? title : first.toLowerCase() + title.slice(1);
}

function item(panel: string, id: string, raw: Raw, kind: string): ItemText {
  const message = kind === 'message';
  const attributes = message
    ? new Map([['display', attribute('display', { ...raw, title: undefined }, { shown: {}, 'not-shown': {} })]])
    : raw.attributes
      ? map(raw.attributes, (name, value) => attribute(name, value, undefined, raw.control))
      : new Map([['lamp', attribute('lamp', { ...raw, title: undefined }, undefined)]]);
  return {
    id,
    panel,
    kind,
    title: raw.title,
    noun: raw.noun ?? `the ${withSmallInitial(raw.title)}`,
    plural: raw.plural ?? false,
    fitted: raw.fitted ?? 'always',
    control: raw.control,
    colour: raw.colour,
    legend: raw.legend ?? raw.text,
    messageClass: raw.class,
    supply: raw.supply ?? [],
    attributes,
  };
}

function checkedSentences(markdown: string): { sentence: string; holds: string }[] {
  return [...markdown.matchAll(/:checked\[([^\]]*)\]\{[^}]*holds="([^"]*)"[^}]*\}/g)].map((found) => ({
    sentence: found[1]!.replace(/\s+/g, ' '),
    holds: found[2]!,
  }));
}

/** Reads a content folder. Throws where the folder is not sound: `check` has its own tests. */
export function readContent(folder: string): ContentText {
  const conditions = yaml(folder, 'conditions.yaml') ?? {};
  const panels = filesIn(join(folder, 'panels'), '.yaml').map((path) => parseYaml(readFileSync(path, 'utf8')) as Raw);
  const rows: Record<string, string>[] = parseCsv(readFileSync(join(folder, 'aircraft.csv'), 'utf8'), {
    columns: true,
    skip_empty_lines: true,
    trim: true,
    bom: true,
  });
  const claims: Raw[] = yaml(folder, 'claims.yaml') ?? [];
  return {
    book: yaml(folder, 'book.yaml'),
    options: map(yaml(folder, 'options.yaml'), (id, raw) => ({
      id,
      title: raw.title,
      values: map(raw.values, (value, words) => words.title ?? spaced(value)),
    })),
    aircraft: rows.map(({ serial = '', registration = '', from = '', to = '', ...options }) => ({
      serial,
      registration,
      from,
      to,
      options,
    })),
    conditions: map(conditions.conditions, (id, raw) => ({
      id,
      title: raw.title,
      noun: raw.noun,
      normal: raw.normal,
      number: raw.number && {
        unit: raw.number.unit,
        from: String(raw.number.from),
        to: String(raw.number.to),
        step: String(raw.number.step),
      },
      values: map(raw.values, (value, words) => ({ title: words.title ?? spaced(value), says: words.says ?? '' })),
    })),
    never: (conditions.never ?? []).map((raw: Raw) => (typeof raw === 'string' ? raw : raw.when)),
    signals: map(yaml(folder, 'signals.yaml'), (_, raw) => raw.when),
    panels: new Map(panels.map((raw) => [raw.panel, raw.title])),
    controls: new Map(
      panels.flatMap((panel) => [
        ...map(panel.controls, (id, raw) => ({
          id,
          panel: panel.panel as string,
          title: raw.title as string,
          form: raw.form as string,
          fitted: (raw.fitted ?? 'always') as string,
          positions: map(raw.positions, (position, value) => ({
            legend: value.legend ?? position,
            fitted: value.fitted ?? 'always',
          })),
        })),
      ]),
    ),
    items: new Map(
      panels.flatMap((panel) => [
        ...map(panel.items, (id, raw) => item(panel.panel, id, raw, raw.kind)),
        ...map(panel.messages, (id, raw) => item(panel.panel, id, raw, 'message')),
      ]),
    ),
    claims: [
      ...claims.map((raw) => ({ sentence: raw.sentence, holds: raw.holds })),
      ...filesIn(join(folder, 'notes'), '.md').flatMap((path) => checkedSentences(readFileSync(path, 'utf8'))),
    ],
  };
}
