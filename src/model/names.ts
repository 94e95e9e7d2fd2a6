/**
 * The ids of the content folder: unique across it, each with its kind and place. An id whose definition is broken
 * stays known as broken, so that what refers to it isn't reported a second time.
 */

import type { Diagnostics, Place, SourceFile } from '../diagnostics/index.ts';
import { nearestName } from '../diagnostics/index.ts';
import { isReservedWord } from '../language/index.ts';
import { FormerIds } from './former-ids.ts';
import { latchOf } from './words.ts';
import type { YamlNode } from './yaml-source.ts';

export type NameKind =
  | 'panel'
  | 'place'
  | 'option'
  | 'condition'
  | 'signal'
  | 'control'
  | 'item'
  | 'message'
  | 'supply'
  | 'override'
  | 'detector'
  | 'sequence'
  | 'store'
  | 'sound'
  | 'timeline'
  | 'term'
  | 'procedure'
  | 'sheet'
  | 'practice';

interface Declared {
  readonly kind: NameKind;
  readonly place: Place;
}

/** What a name of each kind is, in words. */
export const KIND_WORDS: Readonly<Record<NameKind, string>> = {
  panel: 'a panel',
  place: 'a place of a panel',
  option: 'an option',
  condition: 'a condition',
  signal: 'a signal',
  control: 'a control',
  item: 'a light, sign or annunciator',
  message: 'a message',
  supply: 'a supply',
  override: 'an override',
  detector: 'a detector',
  sequence: 'a sequence',
  store: 'a store',
  sound: 'a sound',
  timeline: 'a timeline',
  term: 'a term of the glossary',
  procedure: 'a procedure',
  sheet: 'a sheet',
  practice: 'a practice set',
};

/** Kinds of definition that have a page of their own. */
export const PAGED: readonly NameKind[] = [
  'panel',
  'option',
  'condition',
  'control',
  'item',
  'message',
  'supply',
  'sequence',
  'sound',
  'procedure',
  'sheet',
];

/** Those, and what has a place on a page. */
export const REFERABLE: readonly NameKind[] = [...PAGED, 'place', 'detector', 'signal', 'term'];

export class Names {
  readonly #declared = new Map<string, Declared>();
  readonly #broken = new Set<string>();
  /** What definitions, option values and positions were called. */
  readonly former: FormerIds;
  readonly #diagnostics: Diagnostics;
  #unknownIsBroken = false;

  constructor(diagnostics: Diagnostics) {
    this.#diagnostics = diagnostics;
    this.former = new FormerIds(diagnostics);
  }

  /**
   * False, after a report, when the id is taken or is a word of the expression language. `node` is the definition, whose
   * former ids are kept.
   */
  declare(id: string, kind: NameKind, place: Place, node: YamlNode): boolean {
    this.former.keep(id, node);
    const first = this.#declared.get(id);
    if (first !== undefined) {
      this.#diagnostics.report('SL302', { id }, place, [{ place: first.place, label: 'first given here' }]);
      return false;
    }
    this.#declared.set(id, { kind, place });
    if (!isReservedWord(id)) return true;
    this.#diagnostics.report('SL303', { id }, place);
    this.#broken.add(id);
    return false;
  }

  /** Marks an id whose definition can't be used. If it is a message, its latch is not there either. */
  break(id: string): void {
    this.#broken.add(id);
    this.#broken.add(latchOf(id));
  }

  /** Marks whatever may be an id in a file that can't be read at all. */
  breakAllIn(file: SourceFile): void {
    for (const [, id] of file.text.matchAll(/([A-Za-z][A-Za-z0-9-]*)["']?\s*:/g)) this.break(id ?? '');
  }

  /** Says that definitions are missing altogether: any id that is not known may be one of them. */
  breakUnknown(): void {
    this.#unknownIsBroken = true;
  }

  isBroken(id: string): boolean {
    return this.#broken.has(id) || (this.#unknownIsBroken && !this.#declared.has(id));
  }

  /** True if an expression's text names a broken id, or may name one. */
  mentionsBroken(text: string): boolean {
    return this.#unknownIsBroken || [...text.matchAll(/[A-Za-z][A-Za-z0-9-]*/g)].some(([id]) => this.#broken.has(id));
  }

  /** The ids of some kinds, in the order of their declaration. */
  ofKinds(kinds: readonly NameKind[]): string[] {
    return [...this.#declared].filter(([, { kind }]) => kinds.includes(kind)).map(([id]) => id);
  }

  kindOf(id: string): NameKind | undefined {
    return this.#declared.get(id)?.kind;
  }

  /** Reports the ids that are in use although something else was called so. To be called when all are declared. */
  reportFormer(): void {
    this.former.reportReused((id) => this.#declared.get(id)?.place);
  }

  /**
   * True if the id names something of one of the kinds. Reports an unknown id with the nearest known one, and one of
   * another kind. Broken ids are neither usable nor reported.
   */
  resolve(id: string, kinds: readonly NameKind[], place: Place): boolean {
    if (this.isBroken(id)) return false;
    const declared = this.#declared.get(id);
    const wanted = kinds.map((kind) => KIND_WORDS[kind]).join(' or ');
    if (declared === undefined) {
      if (this.former.report(id, place)) return false;
      const nearest = nearestName(id, this.ofKinds(kinds));
      this.#diagnostics.report('SL304', { id, wanted, ...(nearest === undefined ? {} : { nearest }) }, place);
      return false;
    }
    if (kinds.includes(declared.kind)) return true;
    const related = [{ place: declared.place, label: 'defined here' }];
    this.#diagnostics.report('SL305', { id, found: KIND_WORDS[declared.kind], wanted }, place, related);
    return false;
  }
}
