/** What a text asks the book to put in: differences, lists of aircraft, lists of changes. */
import type { LeafDirective } from 'mdast-util-directive';
import type { SourceFile } from '../diagnostics/index.ts';
import { type Context, OPTIONS_ALONE } from './context.ts';
import type { Aircraft, Quote } from './fleet.ts';
import { attributeSource, placeOf } from './markdown-places.ts';
import type { NameKind } from './names.ts';
import type { ScalarNode } from './yaml-source.ts';

/** What each block says in its braces. */
const PARTS = { difference: ['of', 'on', 'from'], aircraft: ['with'], changes: ['by'] } as const;
const COMPARED: readonly NameKind[] = ['panel', 'control', 'item', 'message', 'supply'];

type QuoteName = keyof typeof PARTS;

export function isQuote(name: string): name is QuoteName {
  return Object.hasOwn(PARTS, name);
}

/** Tells a block from all others, by its name and what stands in its braces. */
export function quoteKey(name: string, attributes: Readonly<Record<string, string | null | undefined>>): string {
  const parts = isQuote(name) ? PARTS[name].map((part) => attributes[part] ?? '') : [];
  return [name, ...parts].join('|');
}

/** Whether a document has ordered, or orders, a change of an aircraft. */
export function isChangedBy({ made, changes }: Aircraft, document: string): boolean {
  return [...made, ...changes].some((change) => change.document === document);
}

/** What is asked of the text around a block. */
interface Around {
  /** Reports what is none of the known parts, and gives those of them that were meant, it seems. */
  readonly misspelt: (known: readonly string[]) => readonly (string | undefined)[];
  /** Whether an aircraft is called so. Reports those that are not. */
  readonly registration: (on: ScalarNode) => boolean;
  /** Whether a document orders some change of an aircraft. */
  readonly orders: (document: string) => boolean;
}

/** Undefined after a report, or where something that it names is broken itself. */
export function readQuote(
  file: SourceFile,
  node: LeafDirective,
  context: Context,
  { misspelt, registration, orders }: Around,
): Quote | undefined {
  const { diagnostics, names } = context;
  const name = node.name as QuoteName;
  const parts: readonly string[] = PARTS[name];
  const meant = misspelt(parts);
  const given = (part: string): ScalarNode | undefined => attributeSource(file, node, part);
  const lacking = parts.filter((part) => !given(part) && !meant.includes(part));
  for (const lacks of lacking) diagnostics.report('SL524', { name, lacks }, placeOf(file, node));
  const key = quoteKey(name, node.attributes ?? {});
  const [of, on, from, by] = [given('of'), given('on'), given('from'), given('by')];
  const condition = given('with');
  switch (name) {
    case 'difference': {
      const known = [on, from].map((each) => each === undefined || registration(each)).every(Boolean);
      if (!of || !names.resolve(of.written, COMPARED, of.place) || !on || !from || !known) return undefined;
      if (on.written === from.written) {
        diagnostics.report('SL526', { registration: on.written }, from.place);
        return undefined;
      }
      return { kind: name, key, of: of.written, on: on.written, from: from.written };
    }
    case 'aircraft': {
      const expression = condition && context.expression(condition, OPTIONS_ALONE);
      return expression && { kind: name, key, with: expression };
    }
    case 'changes':
      if (!by) return undefined;
      if (!context.reportUnknownDocument(by.written, by.place) && !orders(by.written))
        diagnostics.report('SL527', { document: by.written }, by.place);
      return { kind: name, key, by: by.written };
  }
}
