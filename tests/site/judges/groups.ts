/** The fit groups of an attribute: as the page shows them, and as the oracle finds them by comparing every case. */
import { byClass, type Element, textOf } from '../../helpers/dom.ts';
import { type Holding, readEffectivity } from '../../helpers/effectivity-words.ts';
import { seenCases, sharedName } from '../../helpers/seen-cases.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { outcomeOf, outcomeWords } from './outcomes.ts';

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
  const kind = content.items.get(item)?.kind ?? '';
  return `${
    new Map([
      ['message', 'messages'],
      ['supply', 'supplies'],
    ]).get(kind) ?? 'lights'
  }/${item}.html`;
}

/** "Logo lights", or "Landing light: lamp" where several things can be seen of the item, its single lamps apart. */
export function titleOf({ content }: Oracle, { item, attribute }: AttributeId): string {
  const found = content.items.get(item);
  const own = found?.attributes.get(attribute);
  if (!found || !own) throw new Error(`no attribute ${item}.${attribute}`);
  const whole = [...found.attributes.values()].filter(({ lamp }) => !lamp);
  return whole.length > 1 || own.lamp ? `${found.title}: ${own.title}` : found.title;
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

/** The aircraft that a block of a page says that it holds for. */
export function holdsFor(oracle: Oracle, block: Element): Holding[] {
  const [line] = byClass(block, 'holds');
  if (!line) throw new Error('no effectivity line');
  const [summary] = line.tagName === 'details' ? line.childNodes.filter((each) => 'tagName' in each) : [line];
  if (!summary) throw new Error('an empty effectivity line');
  return readEffectivity(oracle, textOf(summary as Element));
}

const cases = new WeakMap<Oracle, Map<string, readonly Case[]>>();

/** The cases of an attribute on a fit, as readers see them. They are found once: several pages tell of them. */
export function casesOf(oracle: Oracle, { item, attribute }: AttributeId, fit: Fit): readonly Case[] {
  const known = cases.get(oracle) ?? new Map<string, readonly Case[]>();
  cases.set(oracle, known);
  const key = [item, attribute, fit.id].join(' ');
  const found = known.get(key) ?? seenCases(oracle, fit, oracle.variables(item, attribute));
  known.set(key, found);
  return found;
}

/**
 * Whether a case is normal for the attribute: all that matters on this fit and can be abnormal has its normal value, a control
 * `apart` left out, of whose positions something is said one by one.
 */
export function isNormalFor(
  oracle: Oracle,
  { item, attribute }: AttributeId,
  fit: Fit,
  apart?: string,
): (given: Case) => boolean {
  const mattering = new Set(oracle.ownVariables(item, attribute, [fit]).map((name) => sharedName(oracle, name)));
  if (apart !== undefined) mattering.delete(sharedName(oracle, apart));
  return (given) => oracle.isNormal(given, mattering);
}

/** The words for what the rules make of a case. */
export function stateTitle(oracle: Oracle, id: AttributeId, fit: Fit, given: Case): string {
  return outcomeWords(oracle, id, outcomeOf(oracle, id, fit, given));
}

/** Whether it is a lamp that on every fit, in normal cases, does as its light does. */
export function followsItsLight(oracle: Oracle, id: AttributeId): boolean {
  const attributes = oracle.content.items.get(id.item)?.attributes;
  const light = [...(attributes?.values() ?? [])].find(({ lamp }) => !lamp);
  if (!attributes?.get(id.attribute)?.lamp || !light) return false;
  const whole = { item: id.item, attribute: light.id };
  const variables = [...new Set([id, whole].flatMap(({ item, attribute }) => oracle.variables(item, attribute)))];
  return oracle.fits.every((fit) => {
    const [lampIsNormal, lightIsNormal] = [isNormalFor(oracle, id, fit), isNormalFor(oracle, whole, fit)];
    return seenCases(oracle, fit, variables).every(
      (given) =>
        !lampIsNormal(given) ||
        !lightIsNormal(given) ||
        stateTitle(oracle, id, fit, given) === stateTitle(oracle, whole, fit, given),
    );
  });
}

/**
 * What stands on a control's page: what it, or a control that it counts as, drives, and what it is one of several stations
 * for; messages apart, and lamps that only follow their light.
 */
export function drivenBy(oracle: Oracle, control: string): AttributeId[] {
  const name = sharedName(oracle, control);
  const isOurs = (other: string | undefined): boolean => other !== undefined && sharedName(oracle, other) === name;
  return attributesOf(oracle).filter((id) => {
    const item = oracle.content.items.get(id.item);
    const attribute = item?.attributes.get(id.attribute);
    if (!item || !attribute || item.kind === 'message') return false;
    const isStation = !attribute.lamp && item.stations.includes(attribute.control ?? '') && item.stations.some(isOurs);
    return (isOurs(attribute.control) || isStation) && !followsItsLight(oracle, id);
  });
}
