/** What an expression reads, as the author wrote it: names, through signals and items down to what can be set. */
import type { ContentText } from './content.ts';
import { type Algebra, read } from './expression.ts';

/** Numbers that an expression compares a condition with. */
export interface Mention {
  readonly name: string;
  readonly threshold: string | undefined;
}

/** Every condition, control and option that `text` reads, signals and items followed. Repeats are left in. */
export function mentions(content: ContentText, text: string): readonly Mention[] {
  return read(text, mentionAlgebra(content, new Set()));
}

/** The same for all rules of one attribute of an item. */
export function mentionsOfAttribute(content: ContentText, itemId: string, attributeId: string): readonly Mention[] {
  return ofAttribute(content, itemId, attributeId, new Set());
}

function ofAttribute(
  content: ContentText,
  itemId: string,
  attributeId: string | undefined,
  open: Set<string>,
): Mention[] {
  const item = content.items.get(itemId);
  const attribute = item?.attributes.get(attributeId ?? [...item.attributes.keys()][0]!);
  if (!item || !attribute) throw new Error(`no such attribute: ${itemId}.${attributeId}`);
  const key = `${itemId}.${attribute.id}`;
  if (open.has(key)) throw new Error(`${key} reads itself`);
  const inner = new Set([...open, key]);
  return attribute.rules.flatMap((rule) =>
    rule.when === undefined ? [] : read(rule.when, mentionAlgebra(content, inner)),
  );
}

function mentionAlgebra(content: ContentText, open: Set<string>): Algebra<Mention[]> {
  const both = (a: Mention[], b: Mention[]): Mention[] => [...a, ...b];
  return {
    constant: () => [],
    not: (a) => a,
    and: both,
    or: both,
    implies: both,
    among: (name, attribute) =>
      content.items.has(name) ? ofAttribute(content, name, attribute, open) : [{ name, threshold: undefined }],
    compare: (name, _, threshold) => [{ name, threshold }],
    fitted: () => [],
    signal: (name) => {
      const text = content.signals.get(name);
      if (text === undefined) throw new Error(`no such signal: ${name}`);
      return read(text, mentionAlgebra(content, open));
    },
  };
}
