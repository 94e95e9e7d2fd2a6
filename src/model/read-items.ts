/** Lights, signs, annunciators and messages, with the rules of their attributes. */
import { nearestName } from '../diagnostics/index.ts';
import { defaultColour, isColourAllowed } from './alerting-colours.ts';
import { type Context, reportSameWords } from './context.ts';
import type { Attribute, Glyph, HitPolicy, Item, ItemKind, MessageClass, Rule, State } from './fleet.ts';
import type { Checked } from './schema-check.ts';
import { nounOf, spacedWords } from './words.ts';
import { type Entry, entriesUnder, entryOf, itemsUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

export interface DeclaredItem {
  readonly entry: Entry;
  readonly section: 'items' | 'messages';
  readonly panel: string;
  readonly attributes: readonly DeclaredAttribute[];
}

interface DeclaredAttribute {
  readonly id: string;
  readonly title: string;
  readonly states: readonly State[];
  /** Where states, policy and rules stand. */
  readonly node: YamlNode;
  readonly place: Entry['keyPlace'];
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
  if (!fresh || !shape.sound(section, entry.key) || !hasOneForm(entry, section, context)) {
    context.names.break(entry.key);
    return [];
  }
  const attributes = section === 'messages' ? [messageAttribute(entry)] : itemAttributes(entry);
  const states = attributes.map(({ id, states: each }) => [id, each.map((state) => state.id)] as const);
  context.bring({ kind: 'item', id: entry.key, attributes: new Map(states) });
  return [{ entry, section, panel, attributes }];
}

/** Exactly one of the ways to give rules. */
function hasOneForm({ key, keyPlace, value }: Entry, section: DeclaredItem['section'], context: Context): boolean {
  const forms = section === 'messages' ? ['when', 'rules'] : ['rules', 'attributes'];
  const given = forms.filter((form) => entryOf(value, form) !== undefined);
  if (given.length === 1) return true;
  const place = given.length > 1 ? (entryOf(value, given[1] ?? '')?.keyPlace ?? keyPlace) : keyPlace;
  context.diagnostics.report('SL322', { item: key, forms, given }, place);
  return false;
}

function messageAttribute({ value, keyPlace }: Entry): DeclaredAttribute {
  const states = ['shown', 'not-shown'].map(
    (id): State => ({ id, title: spacedWords(id), glyph: 'none', place: keyPlace }),
  );
  const place = entryOf(value, 'when')?.keyPlace ?? entryOf(value, 'rules')?.keyPlace ?? keyPlace;
  return { id: 'display', title: 'display', states, node: value, place };
}

function itemAttributes({ value, keyPlace }: Entry): DeclaredAttribute[] {
  if (entryOf(value, 'rules')) {
    const place = entryOf(value, 'rules')?.keyPlace ?? keyPlace;
    return [{ id: 'lamp', title: 'lamp', states: readStates(value, keyPlace), node: value, place }];
  }
  return entriesUnder(value, 'attributes').map((entry) => ({
    id: entry.key,
    title: scalarUnder(entry.value, 'title')?.written ?? spacedWords(entry.key),
    states: readStates(entry.value, entry.keyPlace),
    node: entry.value,
    place: entry.keyPlace,
  }));
}

/** States with a glyph of their own. */
const GLYPHS: Readonly<Record<string, Glyph>> = { dark: 'dark', lit: 'lit', flashing: 'flashing' };

function readStates(node: YamlNode, place: Entry['keyPlace']): State[] {
  const given = entriesUnder(node, 'states');
  if (given.length === 0) return ['dark', 'lit'].map((id) => ({ id, title: id, glyph: GLYPHS[id] ?? 'none', place }));
  return given.map(({ key, keyPlace, value }) => ({
    id: key,
    title: scalarUnder(value, 'title')?.written ?? spacedWords(key),
    glyph: (scalarUnder(value, 'glyph')?.written as Glyph | undefined) ?? GLYPHS[key] ?? 'none',
    place: keyPlace,
  }));
}

/** Reads what depends on the names of all files. Undefined after a report. */
export function readItem(declared: DeclaredItem, context: Context): Item | undefined {
  const { entry, section, panel } = declared;
  const { key, keyPlace, value: node } = entry;
  const defined = context.defined(key, keyPlace, node);
  const fitted = context.fitted(node);
  const control = controlUnder(node, context);
  const attributes = declared.attributes.map((attribute) => {
    const hasOwn = attribute.node !== node && scalarUnder(attribute.node, 'control') !== undefined;
    return readAttribute(attribute, key, hasOwn ? controlUnder(attribute.node, context) : control, context);
  });
  const supply = readSupply(declared, context);
  if (!fitted.ok || attributes.includes(undefined)) return undefined;
  const message = section === 'messages' ? readMessage(node, context) : undefined;
  const legend = scalarUnder(node, section === 'messages' ? 'text' : 'legend')?.written;
  const colour = message ? message.colour : scalarUnder(node, 'colour')?.written;
  return {
    ...defined,
    panel,
    kind: message ? 'message' : (scalarUnder(node, 'kind')?.written as ItemKind),
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    noun: scalarUnder(node, 'noun')?.written ?? nounOf(defined.title),
    plural: scalarUnder(node, 'plural')?.value === true,
    ...(colour === undefined ? {} : { colour }),
    ...(legend === undefined ? {} : { legend }),
    ...(message ? { messageClass: message.messageClass } : {}),
    legends: [],
    stations: [],
    inhibit: [],
    suppressedBy: [],
    supply,
    attributes: attributes.filter((attribute) => attribute !== undefined),
  };
}

function readMessage(node: YamlNode, context: Context): { messageClass: MessageClass; colour?: string } {
  const messageClass = scalarUnder(node, 'class')?.written as MessageClass;
  const stated = scalarUnder(node, 'colour');
  if (stated && !isColourAllowed(messageClass, stated.written)) {
    context.diagnostics.report('SL327', { class: messageClass, colour: stated.written }, stated.place);
  }
  const colour = stated?.written ?? defaultColour(messageClass);
  return { messageClass, ...(colour === undefined ? {} : { colour }) };
}

function controlUnder(node: YamlNode, context: Context): string | undefined {
  const control = scalarUnder(node, 'control');
  if (!control) return undefined;
  return context.names.resolve(control.written, ['control'], control.place) ? control.written : undefined;
}

function readSupply({ entry }: DeclaredItem, context: Context): readonly string[] {
  return itemsUnder(entry.value, 'supply').flatMap((node) =>
    node.kind === 'scalar' && context.names.resolve(node.written, ['condition'], node.place) ? [node.written] : [],
  );
}

function readAttribute(
  declared: DeclaredAttribute,
  item: string,
  control: string | undefined,
  context: Context,
): Attribute | undefined {
  const { id, title, states, node, place } = declared;
  reportSameWords(entriesUnder(node, 'states'), 'title', spacedWords, context.diagnostics);
  const when = entryOf(node, 'when');
  const rules = when ? messageRules(when, context) : readRules(declared, item, context);
  if (!rules) return undefined;
  const policy = (scalarUnder(node, 'policy')?.written as HitPolicy | undefined) ?? 'any';
  return { id, title, ...(control === undefined ? {} : { control }), states, policy, rules, place };
}

/** `when:` of a message is short for two rules. */
function messageRules(when: Entry, context: Context): Rule[] | undefined {
  if (when.value.kind !== 'scalar') return undefined;
  const expression = context.expression(when.value);
  if (!expression) return undefined;
  return [
    { when: expression, then: 'shown', place: when.value.place },
    { then: 'not-shown', place: when.keyPlace },
  ];
}

function readRules(declared: DeclaredAttribute, item: string, context: Context): Rule[] | undefined {
  const nodes = itemsUnder(declared.node, 'rules');
  const rules = nodes.map((node, at) => readRule(node, at === nodes.length - 1, declared, item, context));
  const read = rules.filter((rule) => rule !== undefined);
  return read.length === nodes.length ? read : undefined;
}

function readRule(
  node: YamlNode,
  last: boolean,
  { states }: DeclaredAttribute,
  item: string,
  context: Context,
): Rule | undefined {
  const { diagnostics } = context;
  const [when, then, otherwise] = ['when', 'then', 'otherwise'].map((key) => scalarUnder(node, key));
  if (otherwise ? when || then : !when || !then) {
    diagnostics.report(
      'SL324',
      { given: [when && 'when', then && 'then', otherwise && 'otherwise'].filter((key) => key !== undefined) },
      node.place,
    );
    return undefined;
  }
  const state = (otherwise ?? then) as NonNullable<typeof then>;
  const expression = when && context.expression(when);
  const known = states.map(({ id }) => id);
  if (!known.includes(state.written)) {
    const facts = { item, state: state.written, known, nearest: nearestName(state.written, known) };
    diagnostics.report('SL325', facts, state.place);
    return undefined;
  }
  if (otherwise && !last) {
    const place = entryOf(node, 'otherwise')?.keyPlace ?? node.place;
    diagnostics.report('SL323', {}, place);
    return undefined;
  }
  if (when && !expression) return undefined;
  const source = context.citation(node);
  return {
    ...(expression ? { when: expression } : {}),
    then: state.written,
    place: node.place,
    ...(source ? { source } : {}),
  };
}
