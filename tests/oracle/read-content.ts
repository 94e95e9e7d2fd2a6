/** The oracle's own reading of a content folder: nothing is checked that the oracle doesn't need. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type {
  ConditionText,
  ContentText,
  ControlText,
  DetectorText,
  ItemText,
  OptionText,
  OverrideText,
  SequenceText,
} from './content.ts';
import { sum } from './decimal.ts';
import { readAircraft } from './read-aircraft.ts';
import { readItem, readMessage, readSupply } from './read-items.ts';
import { latchOf, readProcedure, readSequence, readSound, readTimeline } from './read-time.ts';
import { filesIn, listOf, mapOf, type Raw, spaced, yaml } from './read-yaml.ts';

function checkedSentences(markdown: string): { sentence: string; holds: string }[] {
  return [...markdown.matchAll(/:checked\[([^\]]*)\]\{[^}]*holds="([^"]*)"[^}]*\}/g)].map((found) => ({
    sentence: found[1]!.replace(/\s+/g, ' '),
    holds: found[2]!,
  }));
}

function option(id: string, raw: Raw): OptionText {
  const constraint = (value: Raw): string => {
    const excludes = value.excludes === undefined ? 'always' : `not (${value.excludes})`;
    return `(${value.requires ?? 'always'}) and (${excludes})`;
  };
  return {
    id,
    title: raw.title,
    values: mapOf(raw.values, (value, words) => words.title ?? spaced(value)),
    permitted: mapOf(raw.values, (_, words) => constraint(words)),
  };
}

function condition(id: string, raw: Raw): ConditionText {
  return {
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
    values: mapOf(raw.values, (value, words) => ({ title: words.title ?? spaced(value), says: words.says ?? '' })),
  };
}

function detector(id: string, raw: Raw): DetectorText {
  const found = /^\s*(\S+?)\s*([<>]=?)\s*(-?\d+(?:\.\d+)?)/.exec(raw.trips);
  if (!found) throw new Error(`not a threshold: ${raw.trips}`);
  const [, number = '', by = '', value = ''] = found;
  const tolerance = String(raw.tolerance ?? 0);
  return {
    id,
    title: raw.title,
    number,
    by,
    value,
    low: sum(value, tolerance, -1),
    high: sum(value, tolerance),
    says: raw.says ?? '',
    saysNot: raw['says-not'] ?? '',
  };
}

function control(panel: string, id: string, raw: Raw): ControlText {
  return {
    id,
    panel,
    title: raw.title,
    form: raw.form,
    fitted: raw.fitted ?? 'always',
    place: raw.place,
    counterpart: raw.counterpart,
    positions: mapOf(raw.positions, (position, value) => ({
      legend: String(value.legend ?? position),
      legends: (value.legends ?? []).map((one: Raw) => ({ when: one.when, legend: String(one.legend) })),
      fitted: value.fitted ?? 'always',
      returns: value.returns === undefined ? undefined : String(value.returns),
      abnormal: value.abnormal ?? false,
      as: value.as === undefined ? undefined : String(value.as),
    })),
  };
}

function override(raw: Raw): OverrideText {
  return {
    id: raw.id,
    title: raw.title,
    scope: raw.scope ?? {},
    attribute: raw.attribute ?? 'lamp',
    when: raw.when,
    state: String(raw.then),
    quiet: raw.quiet ?? false,
    query: raw.query,
  };
}

/** A message's latch. Without `through-inhibit`, what is held back does not raise it. */
function latchOfMessage(
  item: ItemText,
  raised: string,
  { reset, wins, 'through-inhibit': through }: Raw,
): SequenceText {
  const held = item.inhibit.map((signal) => ` and not (${signal})`).join('');
  const names = {
    id: item.latch,
    title: `${item.title} (latch)`,
    noun: `the latch of ${item.noun}`,
    panel: item.panel,
    fitted: item.fitted,
  };
  return latchOf(names, through ? raised : `${raised}${held}`, reset, wins ?? 'set');
}

interface Panels {
  readonly supplies: ItemText[];
  readonly items: ItemText[];
  readonly hidden: ItemText[];
  readonly sequences: SequenceText[];
}

function readPanels(folder: string, panels: readonly Raw[], conditions: ReadonlyMap<string, ConditionText>): Panels {
  const all: Panels = { supplies: [], items: [], hidden: [], sequences: [] };
  const titles = new Map(panels.flatMap((raw) => [...mapOf(raw.supplies, (_, { title }) => String(title))]));
  for (const raw of panels) {
    const panel: string = raw.panel;
    const around = { folder, panel, conditions, supplies: titles };
    all.supplies.push(...mapOf(raw.supplies, (id, one) => readSupply(around, id, one)).values());
    all.items.push(...mapOf(raw.items, (id, one) => readItem(around, id, one)).values());
    all.sequences.push(...mapOf(raw.sequences, (id, one) => readSequence(panel, id, one)).values());
    for (const [id, one] of mapOf(raw.latches, (_, value) => value))
      all.sequences.push(latchOf({ ...one, id, panel }, one.set, one.reset, one.wins ?? 'set'));
    for (const [id, one] of mapOf(raw.messages, (_, value) => value)) {
      const { item, raised, hidden } = readMessage(around, id, one);
      all.items.push(item);
      if (hidden) all.hidden.push(hidden);
      if (item.latch) all.sequences.push(latchOfMessage(item, raised, one.latched));
    }
  }
  return all;
}

const byId = <T extends { readonly id: string }>(all: readonly T[]): Map<string, T> =>
  new Map(all.map((one) => [one.id, one]));

/** Reads a content folder. Throws where the folder is not sound: `check` has its own tests. */
export function readContent(folder: string): ContentText {
  const facts = yaml(folder, 'conditions.yaml') ?? {};
  const book = yaml(folder, 'book.yaml');
  const conditions = mapOf(facts.conditions, condition);
  const panels = filesIn(join(folder, 'panels'), '.yaml').map((name) => yaml(join(folder, 'panels'), name));
  const { supplies, items, hidden, sequences } = readPanels(folder, panels, conditions);
  const texts = ['notes', 'tours', 'notices'].flatMap((kind) =>
    filesIn(join(folder, kind), '.md').map((name) => readFileSync(join(folder, kind, name), 'utf8')),
  );
  const claims: Raw[] = yaml(folder, 'claims.yaml') ?? [];
  const overrides: Raw[] = yaml(folder, 'overrides.yaml') ?? [];
  return {
    book,
    options: mapOf(yaml(folder, 'options.yaml'), option),
    aircraft: readAircraft(folder, book.date),
    conditions,
    detectors: mapOf(facts.detectors, detector),
    inOrder: (facts['in-order'] ?? []).map(listOf),
    never: (facts.never ?? []).map((raw: Raw) => (typeof raw === 'string' ? raw : raw.when)),
    signals: mapOf(yaml(folder, 'signals.yaml'), (_, raw) => raw.when),
    panels: new Map(panels.map((raw) => [raw.panel, raw.title])),
    places: new Map(panels.flatMap((raw) => [...mapOf(raw.places, (id, one) => one.title ?? spaced(id))])),
    controls: byId(
      panels.flatMap((raw) => [...mapOf(raw.controls, (id, one) => control(raw.panel, id, one)).values()]),
    ),
    items: byId([...supplies, ...items]),
    hidden: byId(hidden),
    overrides: overrides.map(override),
    sounds: byId(panels.flatMap((raw) => [...mapOf(raw.sounds, (id, one) => readSound(raw.panel, id, one)).values()])),
    sequences: byId(sequences),
    timelines: mapOf(yaml(folder, 'timelines.yaml'), readTimeline),
    procedures: new Map(
      filesIn(join(folder, 'procedures'), '.yaml').map((name) => {
        const read = readProcedure(yaml(join(folder, 'procedures'), name));
        return [read.id, read];
      }),
    ),
    queries: mapOf(yaml(folder, 'queries.yaml'), (_, raw) => ({
      title: raw.title,
      isOpen: raw.answered === undefined,
    })),
    glossary: mapOf(yaml(folder, 'glossary.yaml'), (_, raw) => ({
      title: raw.title,
      meaning: raw.meaning.trim().replace(/\s+/g, ' '),
      also: raw.also ?? [],
      see: raw.see ?? [],
    })),
    claims: [
      ...claims.map((raw) => ({ sentence: raw.sentence, holds: raw.holds })),
      ...texts.flatMap(checkedSentences),
    ],
  };
}
