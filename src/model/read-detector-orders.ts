/** Orders in which detectors trip: none of them before the one that stands before it. */
import type { Facts } from '../diagnostics/index.ts';
import { addDecimals, subtractDecimals, thresholdCut } from '../language/index.ts';
import type { Context } from './context.ts';
import type { Detector, DetectorOrder, NumberRange } from './fleet.ts';
import type { YamlNode } from './yaml-source.ts';

/** Reads the lists one after the other. One that cannot hold together with those before it is left out after a report. */
export function readDetectorOrders(
  nodes: readonly YamlNode[],
  detectors: readonly Detector[],
  context: Context,
): DetectorOrder[] {
  const orders: DetectorOrder[] = [];
  for (const node of nodes) {
    const scalars = node.kind === 'list' ? node.items.filter((each) => each.kind === 'scalar') : [];
    const known = scalars.filter(({ written, place }) => context.names.resolve(written, ['detector'], place));
    const list = known.flatMap(({ written }) => detectors.filter(({ id }) => id === written));
    // What is left out has been reported.
    if (list.length < scalars.length) continue;
    const faults = list.map((_, at) => faultAt(at, list, orders, detectors, context));
    const at = faults.findIndex((fault) => fault !== undefined);
    const fault = faults[at];
    if (fault) context.diagnostics.report('SL362', fault, known[at]?.place);
    else orders.push({ detectors: list.map(({ id }) => id), place: node.place });
  }
  return orders;
}

/** What is wrong with the detector at one place of a list, given those that stand before it and the other lists. */
function faultAt(
  at: number,
  list: readonly Detector[],
  others: readonly DetectorOrder[],
  detectors: readonly Detector[],
  context: Context,
): Facts<'SL362'> | undefined {
  const [first, previous, here] = [list[0], list[at - 1], list[at]];
  if (!first || !previous || !here) return undefined;
  const detector = here.id;
  if (here.number !== first.number || here.by.charAt(0) !== first.by.charAt(0))
    return { fault: 'unlike', detector, other: first.id };
  if (list.indexOf(here) < at) return { fault: 'repeated', detector, other: previous.id };
  const lists = [...others.map((order) => order.detectors), list.slice(0, at).map(({ id }) => id)];
  const backwards = lists.map((each) => each.toReversed());
  const before = reachedFrom(previous.id, backwards);
  if (before.has(detector)) return { fault: 'circle', detector, other: previous.id };
  const number = context.declaration(here.number);
  if (number?.kind !== 'number') throw new Error(`${here.number} is no number`);
  const after = reachedFrom(detector, lists);
  const earlier = detectors.filter(({ id }) => before.has(id));
  const later = detectors.filter(({ id }) => after.has(id));
  for (const late of later) {
    const early = earlier.find((each) => comesFirst(late, each, number));
    if (early) return { fault: 'against', detector: late.id, other: early.id };
  }
  return undefined;
}

/** The detector and all that the lists put behind it, directly or through others. */
function reachedFrom(detector: string, lists: readonly (readonly string[])[]): ReadonlySet<string> {
  const reached = new Set([detector]);
  for (const each of reached) {
    for (const list of lists) {
      if (list.includes(each)) for (const next of list.slice(list.indexOf(each) + 1)) reached.add(next);
    }
  }
  return reached;
}

/** Whether at some value of the number `one` has certainly tripped and `other` certainly not. */
function comesFirst(one: Detector, other: Detector, number: NumberRange): boolean {
  const { surely } = reachesOf(one, number);
  const { perhaps } = reachesOf(other, number);
  return surely !== undefined && (!perhaps || surely[0] < perhaps[0] || surely[1] > perhaps[1]);
}

/** The steps of the number at which a detector has certainly tripped, and at which it may have. */
function reachesOf({ by, value, tolerance }: Detector, number: NumberRange) {
  const ends = [addDecimals(value, tolerance), subtractDecimals(value, tolerance)] as const;
  // What rises trips last at the upper end, what falls at the lower one.
  const [last, first] = by.startsWith('>') ? ends : ([ends[1], ends[0]] as const);
  return { surely: thresholdCut(number, by, last), perhaps: thresholdCut(number, by, first) };
}
