/** What differs on one panel, in short. */
import { withSmallInitial } from '../model/index.ts';
import type { Address, Inline } from './book.ts';
import type { ControlDifference, PanelDifferences } from './book-differences.ts';
import { link, plain, separate, text } from './cells.ts';
import { before, type Names } from './names.ts';
import { THESE } from './shared-differences.ts';

/** A panel in short: what is not fitted, looks otherwise, is only possible on one, and which items differ, by verdict. */
export function inShort(
  { looks, notFitted, lone, differences }: PanelDifferences,
  address: Address,
  names: Names,
): Inline[][] {
  const { here, there } = names;
  const said = new Map<string, Inline[][]>();
  const say = (verdict: string, ...what: Inline[][]): void => {
    const lead = verdict === 'Differs' ? 'What differs' : verdict.replace(` on ${THESE}`, ' here');
    said.set(lead, [...(said.get(lead) ?? []), ...what]);
  };
  const lacking = ({ here: ours }: ControlDifference): string => (plain(ours) === 'Not fitted' ? here : there);
  const isMissing = (one: ControlDifference): boolean =>
    [one.here, one.baseline].some((each) => plain(each) === 'Not fitted');
  for (const one of looks.filter(isMissing))
    say(`Not fitted ${before(names)} ${lacking(one)}`, [link(one.control.to, one.control.title)]);
  for (const { verdict, items } of notFitted) say(verdict, ...items.map(({ to, title }) => [link(to, title)]));
  for (const { control } of looks.filter((one) => !isMissing(one)))
    say('Looks otherwise', [link(control.to, control.title)]);
  for (const { verdict, title, id } of lone) say(verdict, [link(address, withSmallInitial(plain(title)), id)]);
  for (const [verdict, some] of Map.groupBy(differences, (each) => each.verdict)) {
    const byItem = Map.groupBy(some, ({ item }) => item.to);
    // A light stands for its lamps.
    say(verdict, ...[...byItem.values()].map(([first]) => [link(address, first?.item.title ?? '', first?.id)]));
  }
  return [...said].map(([lead, what]) => [text(`${lead}: `), ...separate(what, 'and'), text('.')]);
}
