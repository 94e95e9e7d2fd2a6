/** Words about names, for the diagnostics of the checker. */
import type { Declaration } from './expression.ts';
import { ownAttribute } from './said.ts';

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
