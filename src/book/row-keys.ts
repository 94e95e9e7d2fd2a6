/** What the address of a table's row ends in: the ids of its values, so that it stays when a title or a legend changes. */
import { absentValue, type Meaning, valueIds, valuesTitle } from '../compile/index.ts';

/** "OFF-AUTO_any_lost" for the cells of one row, undefined where a column does not matter; what does not matter at the end is left out. */
export function rowKey(cells: readonly (readonly number[] | undefined)[], meanings: readonly Meaning[]): string {
  const parts = cells.map((values, column) => cellKey(meanings[column] as Meaning, values));
  const last = parts.findLastIndex((part) => part !== ANY);
  return last === -1 ? ANY : parts.slice(0, last + 1).join('_');
}

const ANY = 'any';

function cellKey(meaning: Meaning, values: readonly number[] | undefined): string {
  if (values === undefined) return ANY;
  // Numbers are cut where rules cut them: their cells have no ids, but their limits do not change with a title.
  if (meaning.kind === 'number' || meaning.kind === 'store') return slug(valuesTitle(meaning, values));
  const ids = valueIds(meaning);
  const absent = meaning.kind === 'control' || meaning.kind === 'sequence' ? absentValue(meaning) : undefined;
  return values.map((value) => (value === absent ? 'not-fitted' : (ids[value] ?? ''))).join('-');
}

/** Letters, digits and single hyphens. */
export function slug(words: string): string {
  return words
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
}
