/** Lights, signs, annunciators and messages, with the rules of their attributes. */
import type { Place } from '../diagnostics/index.ts';
import { type Context, reportSameWords, reportUnsayable } from './context.ts';
import type { Attribute, HitPolicy, Item, ItemKind, Rule, State } from './fleet.ts';
import { hasSoundLamps, LAMP, readLamp } from './read-lamps.ts';
import { readLegends } from './read-legends.ts';
import {
  DISPLAY,
  type HoldBack,
  heldBack,
  messageRules,
  NOT_SHOWN,
  readClass,
  readHoldBack,
  SHOWN,
} from './read-messages.ts';
import { readMountings } from './read-mountings.ts';
import { readRules } from './read-rules.ts';
import { readStates } from './read-states.ts';
import type { Checked } from './schema-check.ts';
import { readSupply } from './supply.ts';
import { nounOf, spacedWords } from './words.ts';
import { type Entry, entriesUnder, entryOf, itemsUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

export interface DeclaredItem {
  readonly entry: Entry;
  readonly section: 'items' | 'messages';
  readonly panel: string;
  /** Without lamps. */
  readonly attributes: readonly DeclaredAttribute[];
}

interface DeclaredAttribute {
  readonly id: string;
  readonly title: string;
  readonly states: readonly State[];
  /** Where states, policy and rules stand. */
  readonly node: YamlNode;
  readonly place: Place;
}

/** Makes an item known to expressions. Nothing after a report; what refers to it is then not reported again. */
export function declareItem(
  entry: Entry,
  section: DeclaredItem['section'],
  panel: string,
  shape: Checked<unknown>,
  context: Context,
): DeclaredItem[] {
  const kind = section === 'messages' ? 'message' : 'item';
  const fresh = context.names.declare(entry.key, kind, entry.keyPlace, entry.value);
  const sound = fresh && shape.sound(section, entry.key) && hasOneForm(entry, section, context);
  const attributes = sound ? (section === 'messages' ? [messageAttribute(entry)] : itemAttributes(entry)) : [];
  if (!sound || !hasSoundLamps(entry, attributes, context)) {
    context.names.break(entry.key);
    return [];
  }
  const lamps = entriesUnder(entry.value, 'lamps').map(({ key }) => key);
  const driven = attributes.find(({ id }) => id === LAMP)?.states.map((state) => state.id) ?? [];
  const states = [
    ...attributes.map(({ id, states: each }) => [id, each.map((state) => state.id)] as const),
    ...lamps.map((id) => [id, driven] as const),
  ];
  context.bring({ kind: 'item', id: entry.key, attributes: new Map(states), ...(lamps.length > 0 ? { lamps } : {}) });
  return [{ entry, section, panel, attributes }];
}

/** Exactly one of the ways to give rules. Reports also what is said of rules that stand elsewhere. */
function hasOneForm({ key, keyPlace, value }: Entry, section: DeclaredItem['section'], context: Context): boolean {
  const forms = section === 'messages' ? (['when', 'rules'] as const) : (['rules', 'attributes'] as const);
  const given = forms.filter((form) => entryOf(value, form) !== undefined);
  const [only] = given;
  if (only !== undefined && given.length === 1) {
    const idle = only === 'rules' ? [] : ['states', 'policy'].map((name) => entryOf(value, name));
    for (const entry of idle.filter((each) => each !== undefined)) {
      context.diagnostics.report('SL396', { key: entry.key, beside: only as 'when' | 'attributes' }, entry.keyPlace);
    }
    return true;
  }
  const place = given.length > 1 ? (entryOf(value, given[1] ?? '')?.keyPlace ?? keyPlace) : keyPlace;
  context.diagnostics.report('SL322', { item: key, forms, given }, place);
  return false;
}

function messageAttribute({ value, keyPlace }: Entry): DeclaredAttribute {
  const states = [SHOWN, NOT_SHOWN].map(
    (id): State => ({ id, title: spacedWords(id), glyph: 'none', place: keyPlace }),
  );
  const place = entryOf(value, 'when')?.keyPlace ?? entryOf(value, 'rules')?.keyPlace ?? keyPlace;
  return { id: DISPLAY, title: DISPLAY, states, node: value, place };
}

function itemAttributes({ value, keyPlace }: Entry): DeclaredAttribute[] {
  const rules = entryOf(value, 'rules');
  if (rules)
    return [{ id: LAMP, title: LAMP, states: readStates(value, keyPlace), node: value, place: rules.keyPlace }];
  return entriesUnder(value, 'attributes').map((entry) => ({
    id: entry.key,
    title: scalarUnder(entry.value, 'title')?.written ?? spacedWords(entry.key),
    states: readStates(entry.value, entry.keyPlace),
    node: entry.value,
    place: entry.keyPlace,
  }));
}

/** Reads what depends on the names of all files. Undefined after a report. */
export function readItem(declared: DeclaredItem, context: Context): Item | undefined {
  const { entry, section, panel } = declared;
  const { key, keyPlace, value: node } = entry;
  const defined = context.defined(key, keyPlace, node);
  const fitted = context.fitted(node);
  const stations = readStations(node, context);
  const control = controlUnder(node, context) ?? stations[0];
  const holdBack = section === 'messages' ? readHoldBack(entry, context) : FREE;
  const attributes = declared.attributes.map((attribute) => {
    const hasOwn = attribute.node !== node && scalarUnder(attribute.node, 'control') !== undefined;
    const own = hasOwn ? controlUnder(attribute.node, context) : control;
    return readAttribute(attribute, entry, own, holdBack ?? FREE, context);
  });
  const told = [...entriesUnder(node, 'attributes'), ...entriesUnder(node, 'lamps')];
  reportUnsayable(told, context.diagnostics);
  reportSameWords(told, 'title', spacedWords, context.diagnostics);
  const driven = attributes.find((attribute) => attribute?.id === LAMP);
  const lamps = entriesUnder(node, 'lamps').map((lamp) =>
    readLamp(lamp, key, driven?.states ?? [], driven?.control, context),
  );
  const supply = readSupply(node, context);
  const legends = readLegends(node, context);
  const read = [...attributes, ...lamps];
  if (!fitted.ok || !legends.ok || !holdBack || read.includes(undefined)) return undefined;
  const message = section === 'messages' ? readClass(node, context) : undefined;
  const legend = scalarUnder(node, section === 'messages' ? 'text' : 'legend')?.written;
  const colour = message ? message.colour : scalarUnder(node, 'colour')?.written;
  const zone = scalarUnder(node, 'zone')?.written;
  return {
    ...defined,
    panel,
    kind: message ? 'message' : (scalarUnder(node, 'kind')?.written as ItemKind),
    ...(zone === undefined ? {} : { zone }),
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    noun: scalarUnder(node, 'noun')?.written ?? nounOf(defined.title),
    plural: scalarUnder(node, 'plural')?.value === true,
    ...(colour === undefined ? {} : { colour }),
    ...(legend === undefined ? {} : { legend }),
    ...(message ? { messageClass: message.messageClass } : {}),
    legends: legends.legends,
    stations: stations.length > 1 ? stations : [],
    mountings: readMountings(entry, context),
    ...holdBack,
    supply,
    attributes: read.filter((attribute) => attribute !== undefined),
  };
}

/** What nothing holds back. */
const FREE: HoldBack = { inhibit: [], suppressedBy: [] };

function controlUnder(node: YamlNode, context: Context): string | undefined {
  const control = scalarUnder(node, 'control');
  if (!control) return undefined;
  return context.names.resolve(control.written, ['control'], control.place) ? control.written : undefined;
}

/** The controls under `stations`; `control` must be one of them where both are given. */
function readStations(node: YamlNode, context: Context): string[] {
  const nodes = itemsUnder(node, 'stations').filter((each) => each.kind === 'scalar');
  const stations = nodes.flatMap(({ written, place }) =>
    context.names.resolve(written, ['control'], place) ? [written] : [],
  );
  const control = scalarUnder(node, 'control');
  if (control && nodes.length > 0 && !nodes.some(({ written }) => written === control.written)) {
    context.diagnostics.report('SL375', { control: control.written, stations }, control.place);
  }
  return [...new Set(stations)];
}

function readAttribute(
  { id, title, states, node, place }: DeclaredAttribute,
  entry: Entry,
  control: string | undefined,
  holdBack: HoldBack,
  context: Context,
): Attribute | undefined {
  reportUnsayable(entriesUnder(node, 'states'), context.diagnostics);
  reportSameWords(entriesUnder(node, 'states'), 'title', spacedWords, context.diagnostics);
  const written = (scalarUnder(node, 'policy')?.written as HitPolicy | undefined) ?? 'any';
  const held = id === DISPLAY ? heldBack(node) : [];
  const rules: Rule[] | undefined = entryOf(node, 'when')
    ? messageRules(entry, holdBack, context)
    : readRules(node, { item: entry.key, states }, context)?.toSpliced(0, 0, ...held);
  if (!rules) return undefined;
  // What holds a message back stands above its rules.
  const policy = holdBack.inhibit.length + holdBack.suppressedBy.length > 0 ? 'first' : written;
  return { id, title, ...(control === undefined ? {} : { control }), states, policy, rules, place };
}
