/**
 * Holds the state tables of a book to random flights of its aircraft: at each rest of the interpreter every table of every
 * item must have exactly one row for what stands there, with what the interpreter shows. It does not walk every case, and so
 * has no limit of size.
 */
import { byClass, byId, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { covers, holdingsOf } from '../../helpers/effectivity-words.ts';
import type { Wish } from '../../helpers/flights.ts';
import { seenCase, sharedValue, sharing } from '../../helpers/seen-cases.ts';
import { lies } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { type AttributeId, attributesOf, holdsFor, itemAddress } from './groups.ts';
import { outcomeWords } from './outcomes.ts';
import type { Pages } from './pages.ts';
import { type ReadTable, tablesIn } from './tables.ts';

interface Shown {
  readonly constant: string | undefined;
  readonly tables: readonly ReadTable[];
}

/** What a book tells of one aircraft, and how much of it has been seen to be so. */
export class FlownBook {
  readonly #oracle: Oracle;
  readonly #variables: readonly string[];
  readonly #shown: readonly (readonly [AttributeId, Shown])[];
  readonly #used = new Set<object>();

  /** `fit` is as the book has it; what flies may be one of the fits that it may be. */
  constructor(pages: Pages, oracle: Oracle, fit: Fit) {
    const { conditions, controls, items, sequences } = oracle.content;
    this.#oracle = oracle;
    const lamps = [...items.values()].flatMap(({ id, attributes }) =>
      [...attributes.values()].filter(({ lamp }) => lamp).map((lamp) => `${id}.${lamp.id}`),
    );
    this.#variables = [...conditions.keys(), ...controls.keys(), ...lamps, ...sequences.keys()];
    this.#shown = attributesOf(oracle).map((id) => [
      id,
      shownOn(pages.page(itemAddress(oracle, id.item)), oracle, id, fit),
    ]);
  }

  /** How many rows there are, and how many of them a case has lain in. */
  get rows(): { readonly all: number; readonly used: number } {
    const all = this.#shown.flatMap(([, { tables }]) => tables.flatMap(({ rows }) => rows));
    return { all: all.length, used: this.#used.size };
  }

  /** What would bring the flying fit into a row of a table, as far as inputs alone can. */
  wish(fit: Fit): Wish {
    const tables = this.#shown.flatMap(([, { tables }]) => tables);
    return (choose) => {
      const table = choose.pick(tables);
      const { readings } = choose.pick(table.rows);
      const wanted = readings.flatMap(([column, reading]) => {
        const names = sharing(this.#oracle, column);
        return (names.length > 0 ? names : [column]).flatMap((name): [string, string][] => {
          if (this.#oracle.content.sequences.has(name)) return [];
          const values = this.#oracle
            .valuesOn(fit, name)
            .filter((value) => reading(sharedValue(this.#oracle, name, value)));
          return values.length > 0 ? [[name, choose.pick(values)]] : [];
        });
      });
      return new Map(wanted);
    };
  }

  /** Faults of all tables in one full case of the flying fit. */
  judge(fit: Fit, given: Case): string[] {
    const seen = seenCase(this.#oracle, this.#variables, given);
    return this.#shown.flatMap(([id, shown]) => {
      const state = this.#oracle.state(fit, id.item, id.attribute, given);
      const wanted = outcomeWords(this.#oracle, id, { ways: [[state]], options: [] });
      const fault = this.#faultOf(shown, seen, wanted);
      return fault === undefined
        ? []
        : [`${id.item}.${id.attribute} on ${fit.id}: ${fault} for ${JSON.stringify(seen)}`];
    });
  }

  #faultOf({ constant, tables }: Shown, seen: Case, wanted: string): string | undefined {
    if (constant !== undefined) return says(constant, wanted) ? undefined : `"${constant}" instead of "${wanted}"`;
    // The abnormal table names every condition that can make a case of this item abnormal.
    const telling = tables.find(({ part }) => part === 'abnormal')?.columns ?? [];
    const own = Object.entries(seen).filter(([name]) => telling.includes(name));
    const part = this.#oracle.isNormal(Object.fromEntries(own)) ? 'normal' : 'abnormal';
    const rows = tables.filter((table) => table.part === part).flatMap((table) => table.rows);
    const found = rows.filter(({ readings }) => lies(seen, readings));
    const [row] = found;
    if (found.length !== 1 || !row) return `${found.length} rows of ${part} cases`;
    this.#used.add(row);
    return says(row.state, wanted) ? undefined : `"${row.state}" instead of "${wanted}"`;
  }
}

/** Whether words name a state: alone, or as one of several that it may be or that depend on an option. */
export function says(words: string, state: string): boolean {
  if (words === state) return true;
  const [several] = words.split(/: depends on | where it can happen/);
  const isOpen = words.startsWith('may be ') || several !== words;
  return isOpen && (several ?? '').split(/, | or /).some((each) => each.replace(/^may be /, '') === state);
}

function shownOn(page: Element, oracle: Oracle, id: AttributeId, fit: Fit): Shown {
  const section = byId(page, `${id.item}-${id.attribute}`);
  if (!section) throw new Error(`no section of ${id.item}.${id.attribute}`);
  const own = holdingsOf(oracle, [fit]);
  const groups = byClass(section, 'group').filter((group) => {
    const held = holdsFor(oracle, group);
    return own.every((time) => covers(held, time));
  });
  const [group] = groups;
  if (groups.length !== 1 || !group)
    throw new Error(`${groups.length} groups of ${id.item}.${id.attribute} for ${fit.id}`);
  const held = holdsFor(oracle, group);
  const fits = oracle.fits.filter((each) => holdingsOf(oracle, [each]).every((time) => covers(held, time)));
  const [constant] = byClass(group, 'constant');
  return {
    constant: constant && textOf(constant),
    tables: byTag(group, 'table').length > 0 ? tablesIn(group, oracle, fits) : [],
  };
}
