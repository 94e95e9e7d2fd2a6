/** Work that ends in a message instead of running on: every item, claim and stage has its share of the whole. */
import type { Diagnostics } from '../diagnostics/index.ts';
import { type Expression, referencesOf } from '../language/index.ts';
import { type Diagrams, LimitError, type Share } from '../logic/index.ts';
import type { Attribute, Item } from '../model/index.ts';

/** Of one attribute of an item or one claim: thousands of times what the largest of a real book needs. */
export const PIECE: Share = { nodes: 1_000_000, steps: 20_000_000 };
/** Of what comes before all items: which cases can happen, which modes can be. */
export const STAGE: Share = { nodes: 2_000_000, steps: 100_000_000 };

/** Where the work was when it met a limit, outside of any item. */
export type Stage = 'inputs' | 'modes' | 'claims' | 'procedures';

interface Around {
  readonly diagrams: Diagrams;
  readonly diagnostics: Diagnostics;
}

/**
 * Does a piece of the work on an item, which has its share of the whole; undefined, and reported once, where that is not
 * enough. Where the whole is used up the `LimitError` goes on.
 */
export function withinLimit<T>(item: Item, attribute: Attribute, around: Around, work: () => T): T | undefined {
  try {
    return around.diagrams.within(PIECE, work);
  } catch (error) {
    if (!(error instanceof LimitError)) throw error;
    const facts = {
      item: item.title,
      attribute: item.attributes.length > 1 ? attribute.title : '',
      limit: limitText(error),
      whole: error.whole,
      variables: variablesOf(attribute.rules.flatMap(({ when }) => when ?? [])),
    };
    const told = around.diagnostics.all.some(({ code, place }) => code === 'SL405' && place === attribute.place);
    if (!told) around.diagnostics.report('SL405', facts, attribute.place);
    if (error.whole) throw error;
    return undefined;
  }
}

/** The names that expressions read, as they stand there. */
export function variablesOf(expressions: readonly Expression[]): string {
  return [...new Set(expressions.flatMap(referencesOf).map(({ id }) => id))].join(', ');
}

/** "2,000,000 nodes". */
export function limitText({ limit, resource }: LimitError): string {
  return `${limit.toLocaleString('en')} ${resource}`;
}
