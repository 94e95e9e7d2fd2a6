/** A small content with whatever items can say, and words for the rules that are read. */
import { print } from '../../src/language/index.ts';
import type { Attribute, Fleet, Item } from '../../src/model/index.ts';
import { filesOf, read, SMALL } from './small-content.ts';

const QUERIES = `Q-1:
  title: Lamp on the second bus
  question: What does the lamp do?
  to: Owner of D-1
  asked: 2026-06-01
Q-2:
  title: Lamp at speed
  question: Does it go out?
  to: Owner of D-1
  asked: 2026-06-01
  answered: { date: 2026-07-02, answer: It does not., source: { document: D-1, paragraph: "3", revision: B } }
`;
const CONDITIONS = (SMALL['conditions.yaml'] ?? '').replace(
  'never:\n',
  `  bus-b:
    title: Bus B
    normal: powered
    values:
      powered: { title: powered, says: with bus B powered }
      lost: { title: lost, says: with bus B lost }
  gear:
    title: Gear
    values:
      up: { title: up, says: with the gear up }
      down: { title: down, says: with the gear down }
never:
`,
);

/** Reads the small content with more of sections of the panel, and with other files. */
export function readItems(
  more: { readonly items?: string; readonly messages?: string; readonly after?: string },
  files: Readonly<Record<string, string>> = {},
): ReturnType<typeof read> {
  const panel = (SMALL['panels/roof.yaml'] ?? '').replace('messages:\n', `${more.items ?? ''}messages:\n`);
  return read(
    filesOf({
      'conditions.yaml': CONDITIONS,
      'panels/roof.yaml': `${panel}${more.messages ?? ''}${more.after ?? ''}`,
      ...files,
    }),
  );
}

/** The file of queries with an open one, Q-1, and an answered one, Q-2. */
export const ASKED = { 'queries.yaml': QUERIES };

export function itemOf(fleet: Fleet | undefined, id: string): Item {
  const item = fleet?.items.find((each) => each.id === id);
  if (!item) throw new Error(`there is no ${id}`);
  return item;
}

/** Rules as "when → then", with the query where there is one. */
export function rulesOf({ rules }: Pick<Attribute, 'rules'>): string[] {
  return rules.map(
    ({ when, then, query }) => `${when ? print(when) : 'otherwise'} → ${then}${query === undefined ? '' : ` ${query}`}`,
  );
}
