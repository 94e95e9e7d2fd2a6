/** The oracle's own reading of items: what is short in the author's file is written out as rules. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import type { AttributeText, ConditionText, ItemText, LegendText, RuleText } from './content.ts';
import { listOf, mapOf, type Raw, spaced, withSmallInitial } from './read-yaml.ts';

/** What reading an item needs to know of the rest. */
export interface Around {
  readonly folder: string;
  readonly panel: string;
  readonly conditions: ReadonlyMap<string, ConditionText>;
  /** The titles of supplies, by id. */
  readonly supplies: ReadonlyMap<string, string>;
}

/** The text of "this feeder is dead": a supply is lost, or a condition has left its normal value. */
function lost({ conditions }: Around, feeder: string): string {
  const condition = conditions.get(feeder);
  return condition ? `${feeder} is not ${condition.normal}` : `${feeder} is lost`;
}

function fed({ conditions }: Around, feeder: string): string {
  return `${feeder} is ${conditions.get(feeder)?.normal ?? 'powered'}`;
}

function fromTable(folder: string, name: string): RuleText[] {
  const rows: string[][] = parseCsv(readFileSync(join(folder, 'tables', name), 'utf8'), {
    skip_empty_lines: true,
    trim: true,
    bom: true,
  });
  const [heads = [], ...lines] = rows;
  const then = heads.indexOf('then');
  return lines.map((cells) => {
    const parts = cells
      .slice(0, then)
      .flatMap((cell, at) => (/^-?$/.test(cell) ? [] : [`(${inCell(heads[at]!, cell)})`]));
    const query = cells[heads.indexOf('query')];
    return {
      when: parts.length > 0 ? parts.join(' and ') : undefined,
      state: cells[then]!,
      query: cells[then] === 'not stated' ? query : undefined,
      inEveryCase: false,
    };
  });
}

function inCell(name: string, cell: string): string {
  if (cell === 'yes') return name;
  if (cell === 'no') return `not ${name}`;
  if (/^[<>=]/.test(cell)) return `${name} ${cell}`;
  const negated = /^not\s/.test(cell);
  const values = negated ? cell.replace(/^not\s+/, '') : cell;
  return `${name} is ${negated ? 'not ' : ''}in (${values})`;
}

function rulesOf(raw: Raw, folder: string): RuleText[] {
  if (raw.rules === undefined && raw.when !== undefined)
    return [
      { when: raw.when, state: 'shown', query: undefined, inEveryCase: false },
      { when: undefined, state: 'not-shown', query: undefined, inEveryCase: false },
    ];
  if (raw.rules?.table !== undefined) return fromTable(folder, raw.rules.table);
  return raw.rules.map((rule: Raw) => ({
    when: rule.otherwise === undefined ? rule.when : undefined,
    state: String(rule.otherwise ?? rule.then),
    query: rule.query,
    inEveryCase: rule['in-every-case'] ?? false,
  }));
}

function attribute(id: string, raw: Raw, states: Raw, folder: string, control?: string): AttributeText {
  return {
    id,
    title: raw.title ?? spaced(id),
    control: raw.control ?? control,
    policy: raw.policy ?? 'any',
    states: mapOf(raw.states ?? states ?? { dark: {}, lit: {} }, (state, value) => ({
      title: value.title ?? spaced(state),
      glyph: value.glyph ?? (['dark', 'lit', 'flashing'].includes(state) ? state : undefined),
    })),
    before: [],
    drivenBy: undefined,
    lamp: undefined,
    rules: rulesOf(raw, folder),
  };
}

/** A lamp: dark when failed or unfed, otherwise by its own rules or as the light is driven. */
function lamp(around: Around, light: string, driven: AttributeText, id: string, raw: Raw): AttributeText {
  const supply = listOf(raw.supply);
  const dark = [`${light}.${id} is failed`, ...supply.map((feeder) => lost(around, feeder))];
  if (raw.when !== undefined) dark.push(`not (${raw.when})`);
  return {
    id,
    title: raw.title ?? spaced(id),
    control: driven.control,
    policy: raw.policy ?? 'any',
    states: driven.states,
    before: dark.map((when) => ({ when, state: 'dark' })),
    drivenBy: raw.rules === undefined ? driven.id : undefined,
    lamp: { at: raw.at, side: raw.side, colour: raw.colour, supply },
    rules: raw.rules === undefined ? [] : rulesOf(raw, around.folder),
  };
}

function legendsOf(raw: Raw): LegendText[] {
  return (raw.legends ?? []).map((one: Raw) => ({ when: one.when, legend: String(one.legend) }));
}

function named(around: Around, id: string, raw: Raw, kind: string): Omit<ItemText, 'attributes'> {
  return {
    id,
    panel: around.panel,
    kind,
    title: raw.title,
    noun: raw.noun ?? `the ${withSmallInitial(raw.title)}`,
    plural: raw.plural ?? false,
    fitted: raw.fitted ?? 'always',
    zone: raw.zone,
    control: raw.control,
    colour: raw.colour,
    legend: raw.legend ?? raw.text,
    legends: legendsOf(raw),
    stations: raw.stations ?? [],
    messageClass: raw.class,
    inhibit: raw.inhibit ?? [],
    suppressedBy: raw['suppressed-by'] ?? [],
    latch: raw.latched ? `${id}-latch` : undefined,
    supply: listOf(raw.supply),
  };
}

/** A light, sign or annunciator. */
export function readItem(around: Around, id: string, raw: Raw): ItemText {
  const { folder } = around;
  const control = raw.control ?? raw.stations?.[0];
  const attributes: Map<string, AttributeText> = raw.attributes
    ? mapOf(raw.attributes, (name, value) => attribute(name, value, undefined, folder, control))
    : new Map([['lamp', attribute('lamp', { ...raw, control, title: undefined }, raw.states, folder)]]);
  for (const [name, made] of mapOf(raw.lamps, (name, value) => lamp(around, id, attributes.get('lamp')!, name, value)))
    attributes.set(name, made);
  return { ...named(around, id, raw, raw.kind), attributes };
}

const SHOWN = { shown: {}, 'not-shown': {} };

/**
 * A message. `raised` is the text that says when something arises; where the message has rules in place of `when`, that
 * is an item of its own, read by nothing but the latch.
 */
export function readMessage(
  around: Around,
  id: string,
  raw: Raw,
): { item: ItemText; raised: string; hidden?: ItemText } {
  const own = attribute('display', { ...raw, title: undefined }, SHOWN, around.folder);
  const names = named(around, id, raw, 'message');
  const before = [
    ...names.inhibit.map((signal) => ({ when: signal, state: 'not-shown' })),
    ...names.suppressedBy.map((other) => ({ when: `${other} is shown`, state: 'not-shown' })),
  ];
  const latched: RuleText[] = rulesOf({ when: `${names.latch} is set` }, around.folder);
  const display = { ...own, before, rules: names.latch ? latched : own.rules };
  const item = { ...names, attributes: new Map([['display', display]]) };
  if (raw.rules === undefined) return { item, raised: `(${raw.when})` };
  const hidden = { ...names, id: `${id}#raised`, attributes: new Map([['display', own]]) };
  return { item, raised: `${hidden.id} is shown`, hidden };
}

/** A supply: the first feeder that can feeds it. */
export function readSupply(around: Around, id: string, raw: Raw): ItemText {
  const unless = raw.unless === undefined ? [] : [{ when: raw.unless as string, state: 'lost' }];
  const rules: RuleText[] = raw.fed.map((feed: Raw) => ({
    when: `${fed(around, feed.from)}${feed.when === undefined ? '' : ` and (${feed.when})`}`,
    state: `from-${feed.from}`,
    query: undefined,
    inEveryCase: false,
  }));
  rules.push({ when: undefined, state: 'lost', query: undefined, inEveryCase: false });
  const titleOf = (feeder: string): string =>
    around.supplies.get(feeder) ?? around.conditions.get(feeder)?.title ?? feeder;
  const feeders = raw.fed.map(({ from }: Raw) => [
    `from-${from}`,
    { title: `from ${withSmallInitial(titleOf(from))}` },
  ]);
  const source = attribute(
    'source',
    { states: Object.fromEntries([...feeders, ['lost', {}]]), rules: [] },
    {},
    around.folder,
  );
  return {
    ...named(around, id, raw, 'supply'),
    attributes: new Map([['source', { ...source, title: 'source', policy: 'first', before: unless, rules }]]),
  };
}
