/** The fit groups of an attribute: as the page shows them, and as the oracle finds them by comparing every case. */
import { byClass, type Element, textOf } from '../../helpers/dom.ts';
import { readEffectivity } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';

export interface AttributeId {
  readonly item: string;
  readonly attribute: string;
}

/** Every attribute of every item, in the authors' order. */
export function attributesOf({ content }: Oracle): AttributeId[] {
  return [...content.items.values()].flatMap(({ id, attributes }) =>
    [...attributes.keys()].map((attribute) => ({ item: id, attribute })),
  );
}

export function itemAddress({ content }: Oracle, item: string): string {
  return `${content.items.get(item)?.kind === 'message' ? 'messages' : 'lights'}/${item}.html`;
}

/** Classes of fits that are alike on the attribute, in the order of the fleet, those that lack the item last. */
export function groupsByOracle(oracle: Oracle, { item, attribute }: AttributeId): Fit[][] {
  const groups: Fit[][] = [];
  for (const fit of oracle.fits) {
    const group = groups.find(([first]) => first && oracle.alike(item, attribute, first, fit));
    if (group) group.push(fit);
    else groups.push([fit]);
  }
  const has = (group: readonly Fit[]): boolean => group.every((fit) => oracle.isFitted(fit, item));
  return [...groups.filter(has), ...groups.filter((group) => !has(group))];
}

/** The registrations of a group of fits, in the order of the fleet. */
export function registrationsOf(oracle: Oracle, fits: readonly Fit[]): string[] {
  return oracle.aircraft.filter(({ fit }) => fits.includes(fit)).map(({ registration }) => registration);
}

/** The aircraft that a block of a page says that it holds for. */
export function holdsFor(oracle: Oracle, block: Element): string[] {
  const [line] = byClass(block, 'holds');
  if (!line) throw new Error('no effectivity line');
  const [summary] = line.tagName === 'details' ? line.childNodes.filter((each) => 'tagName' in each) : [line];
  if (!summary) throw new Error('an empty effectivity line');
  return readEffectivity(oracle, textOf(summary as Element));
}

/** Whether a case is normal for the attribute: every condition that matters on this fit has its normal value. */
export function isNormalFor(oracle: Oracle, { item, attribute }: AttributeId, fit: Fit): (given: Case) => boolean {
  const mattering = oracle.ownVariables(item, attribute, [fit]);
  return (given) =>
    oracle.isNormal(Object.fromEntries(Object.entries(given).filter(([name]) => mattering.includes(name))));
}

/** The words for what the rules make of a case. */
export function stateTitle(oracle: Oracle, { item, attribute }: AttributeId, fit: Fit, given: Case): string {
  const state = oracle.state(fit, item, attribute, given);
  if (state === 'not-fitted') return 'not fitted';
  if (typeof state !== 'string') throw new Error(`${item}.${attribute} has no state in ${JSON.stringify(given)}`);
  return oracle.content.items.get(item)?.attributes.get(attribute)?.states.get(state)?.title ?? state;
}
