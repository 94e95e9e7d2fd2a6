/** Messages: class and colour, what holds them back, what takes their place, and how they latch. */
import type { Expression } from '../language/index.ts';
import { defaultColour, isColourAllowed } from './alerting-colours.ts';
import type { Context } from './context.ts';
import type { Item, MessageClass, Rule, Sequence } from './fleet.ts';
import { LATCH_MODES, latch } from './read-latches.ts';
import type { DeclaredSequence } from './read-sequences.ts';
import { latchOf } from './words.ts';
import { type Entry, entryOf, itemsUnder, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

/** The one attribute of a message, and its states. */
export const DISPLAY = 'display';
export const SHOWN = 'shown';
export const NOT_SHOWN = 'not-shown';

/** The class and the colour that goes with it. */
export function readClass(node: YamlNode, context: Context): { messageClass: MessageClass; colour?: string } {
  const messageClass = scalarUnder(node, 'class')?.written as MessageClass;
  const stated = scalarUnder(node, 'colour');
  if (stated && !isColourAllowed(messageClass, stated.written)) {
    context.diagnostics.report('SL327', { class: messageClass, colour: stated.written }, stated.place);
  }
  const colour = stated?.written ?? defaultColour(messageClass);
  return { messageClass, ...(colour === undefined ? {} : { colour }) };
}

export type HoldBack = Pick<Item, 'inhibit' | 'suppressedBy' | 'latch'>;

/** What keeps a raised message from being shown. Undefined after a report: without it, the message would be misjudged. */
export function readHoldBack({ key, value: node }: Entry, context: Context): HoldBack | undefined {
  let sound = true;
  const named = (under: string, kind: 'signal' | 'message'): string[] =>
    scalars(node, under).map(({ written, place }) => {
      if (written === key) context.diagnostics.report('SL372', { message: key }, place);
      if (written === key || !context.names.resolve(written, [kind], place)) sound = false;
      return written;
    });
  const [inhibit, suppressedBy] = [named('inhibit', 'signal'), named('suppressed-by', 'message')];
  const latched = entryOf(node, 'latched') !== undefined;
  // A latch without "when" was reported where it was declared.
  if (!sound || (latched && !entryOf(node, 'when'))) return undefined;
  return {
    inhibit,
    suppressedBy,
    ...(latched ? { latch: latchOf(key) } : {}),
  };
}

/** The rules of a message with `when`, and what holds it back in front of them. Undefined after a report. */
export function messageRules({ value: node }: Entry, holdBack: HoldBack, context: Context): Rule[] | undefined {
  const when = entryOf(node, 'when');
  if (when?.value.kind !== 'scalar') return undefined;
  const { place } = when.value;
  const raised: Expression | undefined =
    holdBack.latch === undefined
      ? context.expression(when.value)
      : { op: 'among', of: { kind: 'sequence', id: holdBack.latch }, values: ['set'], place };
  if (!raised) return undefined;
  return [...heldBack(node), { when: raised, then: SHOWN, place }, { then: NOT_SHOWN, place: when.keyPlace }];
}

/** The rules that hold a message back: each inhibition, and each message that takes its place. */
export function heldBack(node: YamlNode): Rule[] {
  const rule = ({ place }: ScalarNode, when: Expression): Rule => ({ when, then: NOT_SHOWN, place });
  return [
    ...scalars(node, 'inhibit').map((each) => rule(each, { op: 'signal', id: each.written, place: each.place })),
    ...scalars(node, 'suppressed-by').map((each) => {
      const of = { kind: 'item', id: each.written, attribute: DISPLAY } as const;
      return rule(each, { op: 'among', of, values: [SHOWN], place: each.place });
    }),
  ];
}

function scalars(node: YamlNode, key: string): ScalarNode[] {
  return itemsUnder(node, key).filter((each) => each.kind === 'scalar');
}

/** Declares the latch of a message, where it has one; nothing after a report. */
export function declareMessageLatch(entry: Entry, panel: string, context: Context): DeclaredSequence[] {
  const latched = entryOf(entry.value, 'latched');
  if (!latched) return [];
  const id = latchOf(entry.key);
  const hasWhen = entryOf(entry.value, 'when') !== undefined;
  if (!hasWhen) context.diagnostics.report('SL371', { message: entry.key }, latched.keyPlace);
  const fresh = context.names.declare(id, 'sequence', latched.keyPlace, latched.value);
  if (!hasWhen || !fresh) {
    context.names.break(id);
    return [];
  }
  context.bring({ kind: 'sequence', id, values: LATCH_MODES });
  return [{ id, read: () => readMessageLatch(entry, latched, panel, context) }];
}

function readMessageLatch(entry: Entry, latched: Entry, panel: string, context: Context): Sequence | undefined {
  const { key, value: node } = entry;
  const [whenNode, resetNode] = [scalarUnder(node, 'when'), scalarUnder(latched.value, 'reset')];
  const when = whenNode && context.expression(whenNode);
  const reset = resetNode && context.expression(resetNode);
  const fitted = context.fitted(node);
  if (!when || !reset || !fitted.ok) return undefined;
  const through = scalarUnder(latched.value, 'through-inhibit')?.value === true;
  const inhibitions = scalars(node, 'inhibit')
    .filter(({ written }) => context.names.kindOf(written) === 'signal')
    .map(({ written, place }): Expression => ({ op: 'not', arg: { op: 'signal', id: written, place }, place }));
  const set: Expression =
    through || inhibitions.length === 0 ? when : { op: 'and', args: [when, ...inhibitions], place: when.place };
  const message = scalarUnder(node, 'title')?.written ?? key;
  const title = `${message} (latch)`;
  const noun = `the latch of the message ${message}`;
  return {
    id: latchOf(key),
    title,
    panel,
    place: latched.keyPlace,
    noun,
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    ...latch({
      noun,
      set,
      reset,
      wins: scalarUnder(latched.value, 'wins')?.written === 'reset' ? 'reset' : 'set',
      place: latched.keyPlace,
    }),
  };
}
