/** Words about names, for the diagnostics of the checker. */
import type { Declaration } from './expression.ts';
import { LAMP_WORDS } from './words.ts';

type ItemDeclaration = Extract<Declaration, { kind: 'item' }>;

/** Kinds of names in words, with their article. */
export const KIND_WORDS: Readonly<Record<Declaration['kind'], string>> = {
  option: 'an option',
  condition: 'a condition',
  number: 'a number',
  control: 'a control',
  item: 'an item',
  signal: 'a signal',
  detector: 'a detector',
  sequence: 'a sequence',
  store: 'a store',
};

/** What a name can be said to be. */
export interface Sayable {
  readonly values: readonly string[];
  /** Words that stand for several of the values. */
  readonly groups?: ReadonlyMap<string, readonly string[]>;
  /** Whether it is a lamp, which can also be failed or serviceable. */
  readonly lamp?: boolean;
}

/** All words that may follow "is". */
export function wordsOf({ values, groups, lamp }: Sayable): readonly string[] {
  const further = [...(groups?.keys() ?? []), ...(lamp ? LAMP_WORDS : [])];
  return [...values, ...further.filter((word) => !values.includes(word))];
}

/** The attribute that an item's id stands for by itself; undefined where a dot is needed. */
export function ownAttribute(item: ItemDeclaration): string | undefined {
  if (item.lamps && item.lamps.length > 0) return 'lamp';
  const [first] = item.attributes.keys();
  return item.attributes.size === 1 ? first : undefined;
}

/** What an attribute of an item can be said to be; undefined where the item has none of that id. */
export function attributeOf(item: ItemDeclaration, attribute: string): Sayable | undefined {
  const values = item.attributes.get(attribute);
  if (!values) return undefined;
  return { values, ...(item.groups ? { groups: item.groups } : {}), lamp: item.lamps?.includes(attribute) ?? false };
}

/** A comparison that an author could write of a name, with the attribute or value `wanted` if it has that one. */
export function exampleOf(declared: Exclude<Declaration, { kind: 'signal' | 'detector' }>, wanted?: string): string {
  if ('unit' in declared) {
    return `${declared.id} > ${declared.from} ${declared.unit}`;
  }
  const own = declared.kind === 'item' ? ownAttribute(declared) : undefined;
  const attributes = declared.kind === 'item' ? [...declared.attributes] : [];
  const [attribute, states] =
    declared.kind === 'item'
      ? (attributes.find(([id]) => id === wanted) ?? attributes[0] ?? ['', []])
      : ['', declared.values];
  const dotted = declared.kind === 'item' && attribute !== own ? `.${attribute}` : '';
  const value = states.find((state) => state === wanted) ?? states[0] ?? '';
  return `${declared.id}${dotted} is ${value}`;
}
