/** What an expression reads, as the author wrote it: names, through signals and items down to what can be set. */
import type { ContentText, ItemText, OverrideText } from './content.ts';
import { type Algebra, read } from './expression.ts';

/** A name, with the number that it is compared with where it is a number, a store or a detector's number. */
export interface Mention {
  readonly name: string;
  readonly threshold: string | undefined;
}

/** The variable that says whether a lamp works. */
export const lampVariable = (item: string, attribute: string): string => `${item}.${attribute}`;

/** Messages, sounds and sequences read what is `quiet`: items as if quiet overrides did not exist. */
interface Reading {
  readonly content: ContentText;
  readonly open: ReadonlySet<string>;
  readonly quiet: boolean;
  /** Whether a detector stands for its number too. */
  readonly numbers: boolean;
}

/**
 * Every condition, control, detector, lamp, sequence, store and option that `text` reads, signals and items followed.
 * Repeats are left in. A detector is followed by its number.
 */
export function mentions(content: ContentText, text: string, quiet = false, numbers = true): readonly Mention[] {
  return read(text, mentionAlgebra({ content, open: new Set(), quiet, numbers }));
}

/** The same for all rules of one attribute of an item. */
export function mentionsOfAttribute(content: ContentText, itemId: string, attributeId: string): readonly Mention[] {
  return ofAttribute({ content, open: new Set(), quiet: false, numbers: true }, itemId, attributeId);
}

/** An item of a panel, or one that only latches read. */
export function itemOf(content: ContentText, id: string): ItemText | undefined {
  return content.items.get(id) ?? content.hidden.get(id);
}

/** The overrides that touch an attribute of an item, the highest first. */
export function overridesOf(content: ContentText, item: ItemText, attributeId: string): readonly OverrideText[] {
  return content.overrides.filter(({ scope, attribute, state }) => {
    const fits = (part: readonly string[] | undefined, own: string | undefined): boolean =>
      part === undefined || (own !== undefined && part.includes(own));
    const inScope =
      fits(scope.kinds, item.kind) &&
      fits(scope.panels, item.panel) &&
      fits(scope.zones, item.zone) &&
      fits(scope.items, item.id) &&
      !scope.except?.includes(item.id);
    return inScope && attribute === attributeId && item.attributes.get(attributeId)?.states.has(state) === true;
  });
}

function ofAttribute(reading: Reading, itemId: string, attributeId: string | undefined): Mention[] {
  const { content } = reading;
  const item = itemOf(content, itemId);
  const attribute = item?.attributes.get(attributeId ?? [...item.attributes.keys()][0]!);
  if (!item || !attribute) throw new Error(`no such attribute: ${itemId}.${attributeId}`);
  const key = `${itemId}.${attribute.id}${reading.quiet ? ' quietly' : ''}`;
  if (reading.open.has(key)) throw new Error(`${key} reads itself`);
  const inner = { ...reading, open: new Set([...reading.open, key]) };
  const own = item.kind === 'message' ? { ...inner, quiet: true } : inner;
  const above = overridesOf(content, item, attribute.id).filter(({ quiet }) => !(quiet && reading.quiet));
  return [
    ...above.flatMap(({ when }) => read(when, mentionAlgebra(inner))),
    ...attribute.before.flatMap(({ when }) => read(when, mentionAlgebra(own))),
    ...attribute.rules.flatMap(({ when }) => (when === undefined ? [] : read(when, mentionAlgebra(own)))),
    ...(attribute.drivenBy === undefined ? [] : ofAttribute(own, itemId, attribute.drivenBy)),
  ];
}

/** Whether the values are about a lamp's working, not about what it shows. */
export function asksForFailure(item: ItemText | undefined, attribute: string | undefined, values: readonly string[]) {
  return (
    attribute !== undefined &&
    item?.attributes.get(attribute)?.lamp !== undefined &&
    values.some((value) => value === 'failed' || value === 'serviceable')
  );
}

/** The attributes of an item that are lamps. */
export function lampsOf(item: ItemText | undefined): readonly string[] {
  return [...(item?.attributes.values() ?? [])].filter(({ lamp }) => lamp !== undefined).map(({ id }) => id);
}

function mentionAlgebra(reading: Reading): Algebra<Mention[]> {
  const { content } = reading;
  const both = (a: Mention[], b: Mention[]): Mention[] => [...a, ...b];
  const among = (name: string, attribute: string | undefined, values: readonly string[]): Mention[] => {
    const item = itemOf(content, name);
    if (asksForFailure(item, attribute, values))
      return [{ name: lampVariable(name, attribute!), threshold: undefined }];
    return item ? ofAttribute(reading, name, attribute) : [{ name, threshold: undefined }];
  };
  return {
    constant: () => [],
    not: (a) => a,
    and: both,
    or: both,
    implies: both,
    among,
    compare: (name, _, threshold) => [{ name, threshold }],
    fitted: () => [],
    signal: (name) => {
      const detector = content.detectors.get(name);
      const own = { name, threshold: undefined };
      if (detector && !reading.numbers) return [own];
      if (detector)
        return [
          own,
          ...[detector.low, detector.value, detector.high].map((at) => ({ name: detector.number, threshold: at })),
        ];
      const text = content.signals.get(name);
      if (text === undefined) throw new Error(`no such signal: ${name}`);
      return read(text, mentionAlgebra(reading));
    },
    lamps: (_, name, values) => lampsOf(itemOf(content, name)).flatMap((lamp) => among(name, lamp, values)),
  };
}
