/** What expected tables call things, for the oracle. */
import { type Case, compares, type Oracle, type Outcome } from '../oracle/index.ts';

/** "item.attribute", or an item with one attribute, or with one called "lamp". */
export function attributeCalled({ content }: Oracle, name: string): [item: string, attribute: string] {
  const [id = '', attribute] = name.split('.');
  const own = [...content.items.get(id)!.attributes.keys()];
  return [id, attribute ?? (own.length === 1 ? own[0]! : 'lamp')];
}

/** Whether a cell of a column is about the case. */
export function matches({ content }: Oracle, given: Case, column: string, cell: string): boolean {
  if (cell === '-') return true;
  if (content.conditions.get(column)?.number) {
    return cell.split('&').every((part) => {
      const [, by = '', value = ''] = /^\s*(<=|>=|<|>|=)\s*(-?[\d.]+)/.exec(part) ?? [];
      return compares(given[column] ?? '', by, value);
    });
  }
  const words = cell.split('/').map((word) => word.trim());
  return words.includes(given[column] ?? counterpartValue(content, given, column) ?? 'absent');
}

/** What the position of the counterpart that is fitted in place of a control is called in the control's column. */
function counterpartValue({ controls }: Oracle['content'], given: Case, column: string): string | undefined {
  for (const [id, control] of controls) {
    const value = given[id];
    if (value === undefined) continue;
    if (control.counterpart === column) return control.positions.get(value)?.as ?? value;
    if (controls.get(column)?.counterpart !== id) continue;
    const same = [...controls.get(column)!.positions].find(([, { as }]) => as === value);
    return same?.[0] ?? value;
  }
  return undefined;
}

/** An outcome as tables write it. */
export function textOf(outcome: Outcome | 'not-fitted'): string {
  if (outcome === 'not-fitted') return 'not fitted';
  if (typeof outcome === 'string') return outcome;
  return 'notStated' in outcome ? `not stated ${outcome.notStated}` : JSON.stringify(outcome);
}
