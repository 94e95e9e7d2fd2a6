/** Which rows of a state table say something else than the last revision did, of aircraft that are fitted as they were then. */
import { type Behaviour, type Formed, type Group, IMPOSSIBLE } from '../../compile/index.ts';
import type { Node, StateTable, TableRow } from '../../logic/index.ts';
import type { Before, ComparedReleases } from './compared-releases.ts';

/** By row of a group's table. */
export type ChangedRows = (behaviour: Behaviour, group: Group, table: StateTable) => readonly boolean[];

/**
 * A row has changed where a case of it that could happen in both revisions was otherwise, or where none of its cases could
 * happen. What an aircraft does otherwise because it was modified is told on the page of changes; its table is no other.
 */
export function changedRows(compared: ComparedReleases): ChangedRows {
  const { fleet, aircraft, present } = compared;
  const { diagrams } = fleet;
  const formed = new Map(fleet.behaviours.map((each) => [nameOf(each), each]));
  const alike = aircraft.filter((one) => isFittedAlike(compared, one));
  return (behaviour, group, table) => {
    const there = formed.get(nameOf(behaviour));
    const own = alike.filter(({ now }) => group.fits.some(({ index }) => index === now.index));
    const pairs = new Map(own.map((one) => [`${one.before.index} ${one.now.index}`, one]));
    const forms = there ? [...pairs.values()].map((one) => formsOf(there, one)) : [];
    const differing = forms.filter(([before, now]) => before !== now);
    if (differing.length === 0) return table.rows.map(() => false);
    return table.rows.map((row) => {
      const cases = caseNode(table, row);
      return differing.some(([before, now]) => isOtherwise(before, now, cases));
    });
  };

  function caseNode({ columns }: StateTable, { cells }: TableRow): Node {
    const literals = columns.flatMap((level, at) => {
      const own = cells[at];
      const into = present.get(level);
      if (own === undefined || !into) return [];
      const values = into.values.flatMap((value, here) => (own.includes(value) ? [here] : []));
      return [diagrams.literal(into.level, values)];
    });
    return diagrams.and(...literals);
  }

  function isOtherwise(before: Node, now: Node, cases: Node): boolean {
    const both = diagrams.apply('otherwise', before, now, (then, today) => {
      if (today === IMPOSSIBLE) return NOT_NOW;
      if (then === IMPOSSIBLE) return NOT_THEN;
      return then === today ? SAME : OTHERWISE;
    });
    const found = diagrams.terminals(diagrams.ite(cases, both, diagrams.terminal(NOT_NOW)));
    return found.includes(OTHERWISE) || (found.includes(NOT_THEN) && !found.includes(SAME));
  }
}

const [NOT_NOW, NOT_THEN, SAME, OTHERWISE] = [0, 1, 2, 3] as const;

function nameOf({ item, attribute }: Pick<Formed, 'item' | 'attribute'>): string {
  return `${item.id}.${attribute.id}`;
}

function formsOf({ forms }: Formed, { before, now }: Before): readonly [Node, Node] {
  return [forms[before.index] as Node, forms[now.index] as Node];
}

/** Options that only one of the revisions has say nothing of an aircraft. */
function isFittedAlike({ release, fleet }: ComparedReleases, { before, now }: Before): boolean {
  const known = new Set(release.comparison.options.map(({ id }) => id));
  return fleet.fleet.options.every(
    ({ id }) => !known.has(id) || !now.options.has(id) || before.options.get(id) === now.options.get(id),
  );
}
