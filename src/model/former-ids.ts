/**
 * Ids that things had in earlier releases. They are not used for anything else, so that old links and old sheets never
 * mean something new, and whoever still writes one is told the new id.
 */
import type { Diagnostic, Diagnostics, Place } from '../diagnostics/index.ts';
import { type Entry, itemsUnder, type ScalarNode, type YamlNode } from './yaml-source.ts';

interface Renamed {
  readonly id: string;
  /** Where the former id stands. */
  readonly place: Place;
}

export class FormerIds {
  readonly #diagnostics: Diagnostics;
  readonly #definitions = new Map<string, Renamed>();
  /** By the id of an option or control: what its values were called. */
  readonly #values = new Map<string, Map<string, Renamed>>();

  constructor(diagnostics: Diagnostics) {
    this.#diagnostics = diagnostics;
  }

  /** Keeps what the definition was called. Reports what another one was called too. */
  keep(id: string, node: YamlNode): void {
    this.#add(this.#definitions, id, node);
  }

  /** Keeps what the values of an option, or the positions of a control, were called. Reports what is still in use. */
  keepValues(owner: string, entries: readonly Entry[]): void {
    const values = new Map<string, Renamed>();
    for (const { key, value } of entries) this.#add(values, key, value);
    for (const [former, { place }] of values) {
      const other = entries.find(({ key }) => key === former);
      if (other) this.#reportReuse(former, place, other.keyPlace);
    }
    this.#values.set(owner, values);
  }

  #add(to: Map<string, Renamed>, id: string, node: YamlNode): void {
    for (const { written, place } of formerNodes(node)) {
      const other = to.get(written);
      if (other) this.#reportReuse(written, place, other.place);
      else to.set(written, { id, place });
    }
  }

  /** Reports the former ids that are in use; `placeOf` gives where an id is defined. */
  reportReused(placeOf: (id: string) => Place | undefined): void {
    for (const [former, { place }] of this.#definitions) {
      const other = placeOf(former);
      if (other) this.#reportReuse(former, place, other);
    }
  }

  #reportReuse(former: string, place: Place, other: Place): void {
    this.#diagnostics.report('SL357', { id: former }, place, [{ place: other, label: 'the other one' }]);
  }

  /** The present id of what was called so. */
  current(id: string): string | undefined {
    return this.#definitions.get(id)?.id;
  }

  /** True, after a report, if a definition was called so. */
  report(id: string, place: Place): boolean {
    return this.#reportFormer(id, this.current(id), place);
  }

  /** True, after a report, if a value of the option or control was called so. */
  reportValue(owner: string, value: string, place: Place): boolean {
    return this.#reportFormer(value, this.#values.get(owner)?.get(value)?.id, place);
  }

  #reportFormer(former: string, id: string | undefined, place: Place): boolean {
    if (id === undefined) return false;
    this.#diagnostics.report('SL358', { former, id }, place);
    return true;
  }

  /** Passes on what was found in an expression, with the new id where an unknown name or value is a former one. */
  pass(found: Diagnostics, to: Diagnostics): void {
    for (const each of found.all) {
      if (!this.#isFormer(each)) to.report(each.code, each.facts as never, each.place, each.related);
    }
  }

  #isFormer({ code, facts, place }: Diagnostic): boolean {
    if (place === undefined) return false;
    if (code === 'SL204') return this.report((facts as { name: string }).name, place);
    const { name, value } = facts as { name: string; value: string };
    return code === 'SL205' && this.reportValue(name, value, place);
  }
}

/** What a definition, value or position was called, for the Fleet. */
export function formerlyOf(node: YamlNode): { readonly formerly?: readonly string[] } {
  const formerly = formerNodes(node).map(({ written }) => written);
  return formerly.length > 0 ? { formerly } : {};
}

function formerNodes(node: YamlNode): ScalarNode[] {
  return itemsUnder(node, 'formerly').filter((each) => each.kind === 'scalar');
}
