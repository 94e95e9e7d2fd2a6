/** The page of a condition: its values in words, its detectors, and what reads it. */
import type { Compiled } from '../../compile/index.ts';
import { formatNumber } from '../../compile/index.ts';
import type { Condition, NumberRange } from '../../model/index.ts';
import { conditionAddress } from '../addresses.ts';
import type { ConditionPage } from '../book.ts';
import { detectorOrder, detectorViews } from '../detectors.ts';
import { citations, definedBase, itemsReading, listedItem } from '../links.ts';
import { listedReadersInTime } from '../links-time.ts';
import { trailTo } from '../trail.ts';

export function conditionPage(compiled: Compiled, condition: Condition): ConditionPage {
  const { fleet } = compiled;
  const { number } = condition;
  return {
    kind: 'condition',
    address: conditionAddress(condition),
    title: condition.title,
    trail: trailTo(),
    ...definedBase(fleet, condition),
    citations: citations(fleet, [condition]),
    values: valueViews(condition),
    ...(number ? { range: rangeWords(number) } : {}),
    detectors: detectorViews(compiled, condition),
    order: detectorOrder(compiled, condition),
    readBy: [...itemsReading(compiled, condition.id).map(listedItem), ...listedReadersInTime(fleet, condition.id)],
  };
}

export function valueViews({ values = [], normal }: Condition): ConditionPage['values'] {
  return values.map(({ id, title, says }) => ({ id, title, says, normal: id === normal }));
}

/** "0 to 400 kt in steps of 1 kt". */
export function rangeWords({ from, to, step, unit }: NumberRange): string {
  return `${formatNumber(from)} to ${formatNumber(to)} ${unit} in steps of ${formatNumber(step)} ${unit}`;
}
