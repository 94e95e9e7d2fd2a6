/** Published figures as small contents with the outcomes that the publication gives. One folder each, beside this file. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Published {
  readonly name: string;
  /** The content folder. */
  readonly content: string;
  readonly expected: {
    /** The publication and paragraph. */
    readonly source: string;
    readonly note?: string;
    /** `item` is "item.attribute"; `state` may also be "not-fitted", "conflict" or "gap". */
    readonly vectors: readonly {
      aircraft: string;
      item: string;
      case: Readonly<Record<string, string>>;
      state: string;
    }[];
    /** An expression, and the aircraft on which it does not hold in every case. */
    readonly claims?: readonly { readonly holds: string; readonly fails: readonly string[] }[];
    /** Aircraft that are alike on an item stand in one group. */
    readonly alike?: readonly { readonly item: string; readonly groups: readonly (readonly string[])[] }[];
    /** In how many steps of a number the item has each state. */
    readonly counts?: readonly {
      aircraft: string;
      item: string;
      number: string;
      states: Readonly<Record<string, number>>;
    }[];
    /** What colours a message of a class may have. */
    readonly colours?: readonly { class: string; allowed?: readonly string[]; forbidden?: readonly string[] }[];
  };
}

/** All of them, by name. */
export function allPublished(): readonly Published[] {
  const folder = import.meta.dirname;
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name)
    .sort()
    .map((name) => ({
      name,
      content: join(folder, name, 'content'),
      expected: JSON.parse(readFileSync(join(folder, name, 'expected.json'), 'utf8')) as Published['expected'],
    }));
}
