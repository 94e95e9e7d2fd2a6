/** The lamps of a light: attributes with rules of their own, made from what the light says and what each lamp needs. */
import type { Place } from '../diagnostics/index.ts';
import { type Expression, isLampWord } from '../language/index.ts';
import type { Context } from './context.ts';
import type { Attribute, Lamp, Rule, State } from './fleet.ts';
import { readMounting } from './read-mountings.ts';
import { readRules } from './read-rules.ts';
import { isLost, readFeeds } from './supply.ts';
import { spacedWords } from './words.ts';
import { type Entry, entriesUnder, entryOf, scalarUnder } from './yaml-source.ts';

/** The attribute of a light that its lamps follow. */
export const LAMP = 'lamp';

const DARK = 'dark';

/** Whether a light can have the lamps that it names. `attributes` are its own, with their states. */
export function hasSoundLamps(
  { key, value }: Entry,
  attributes: readonly { readonly id: string; readonly states: readonly State[] }[],
  context: Context,
): boolean {
  const lamps = entriesUnder(value, 'lamps');
  if (lamps.length === 0) return true;
  const place = entryOf(value, 'lamps')?.keyPlace;
  const wrong = (fault: 'kind' | 'attribute' | 'dark' | 'word', lamp?: string): false => {
    context.diagnostics.report('SL366', { item: key, fault, lamp }, place);
    return false;
  };
  if (scalarUnder(value, 'kind')?.written !== 'light') return wrong('kind');
  const driven = attributes.find(({ id }) => id === LAMP);
  if (!driven) return wrong('attribute');
  if (!driven.states.some(({ id }) => id === DARK)) return wrong('dark');
  const word = driven.states.find(({ id }) => isLampWord(id));
  if (word) return wrong('word', word.id);
  const taken = lamps.filter(({ key: id }) => attributes.some((attribute) => attribute.id === id));
  for (const { key: id, keyPlace } of taken) {
    context.diagnostics.report('SL366', { item: key, fault: 'name', lamp: id }, keyPlace);
  }
  return taken.length === 0;
}

/** Reads one lamp. Undefined after a report. `states` are those of the light's attribute `lamp`. */
export function readLamp(
  entry: Entry,
  item: string,
  states: readonly State[],
  control: string | undefined,
  context: Context,
): Attribute | undefined {
  const { key, keyPlace: place, value: node } = entry;
  const feeds = readFeeds(node, context);
  const whenNode = scalarUnder(node, 'when');
  const when = whenNode && context.expression(whenNode);
  const own = entryOf(node, 'rules') ? readRules(node, { item, states }, context) : following(item, states, place);
  if (!feeds || (whenNode && !when) || !own) return undefined;
  const needs: Expression[] = [
    { op: 'among', of: { kind: 'lamp', id: item, attribute: key }, values: ['failed'], place },
    ...feeds.map((feed) => isLost(feed.id, feed.place, context)),
    ...(when ? [{ op: 'not', arg: when, place: when.place } as const] : []),
  ];
  const [at, side, colour] = ['at', 'side', 'colour'].map((name) => scalarUnder(node, name)?.written);
  const mounting = readMounting(node, context);
  const where = { at: at ?? mounting?.at, side: (side as Lamp['side']) ?? mounting?.side };
  return {
    id: key,
    title: scalarUnder(node, 'title')?.written ?? spacedWords(key),
    lamp: {
      ...(where.at === undefined ? {} : { at: where.at }),
      ...(where.side === undefined ? {} : { side: where.side }),
      ...(mounting ? { mounting } : {}),
      ...(colour === undefined ? {} : { colour }),
      supply: feeds.map(({ id }) => id),
    },
    ...(control === undefined ? {} : { control }),
    states,
    policy: 'first',
    rules: [...needs.map((need): Rule => ({ when: need, then: DARK, place })), ...own],
    place,
  };
}

/** As the light itself is driven. */
function following(item: string, states: readonly State[], place: Place): Rule[] {
  const of = { kind: 'item', id: item, attribute: LAMP } as const;
  return [
    ...states
      .filter(({ id }) => id !== DARK)
      .map(({ id }): Rule => ({ when: { op: 'among', of, values: [id], place }, then: id, place })),
    { then: DARK, place },
  ];
}
