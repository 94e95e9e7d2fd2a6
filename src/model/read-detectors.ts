/** Detectors: named thresholds on numbers, with a tolerance; and those of them that trip in a declared order. */
import { addDecimals, compareDecimals, isOnStep, parseDecimal, subtractDecimals } from '../language/index.ts';
import { type Context, reportSameWords } from './context.ts';
import type { Detector, DetectorOrder } from './fleet.ts';
import { reportUnphrased } from './phrases.ts';
import { readDetectorOrders } from './read-detector-orders.ts';
import type { Checked } from './schema-check.ts';
import { type Entry, entriesUnder, itemsUnder, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

/** Detectors whose names are declared; the rest is read when all numbers are known. */
export interface DeclaredDetectors {
  readonly ids: readonly string[];
  readonly read: () => readonly Detector[];
  /** `whole` is false where an order cannot be used. */
  readonly orders: (detectors: readonly Detector[]) => {
    readonly orders: readonly DetectorOrder[];
    readonly whole: boolean;
  };
}

export function declareDetectors(root: YamlNode, shape: Checked<unknown>, context: Context): DeclaredDetectors {
  const entries = entriesUnder(root, 'detectors').filter((entry) => {
    const fresh = context.names.declare(entry.key, 'detector', entry.keyPlace, entry.value);
    const sound = fresh && shape.sound('detectors', entry.key);
    if (sound) context.bring({ kind: 'detector', id: entry.key });
    else context.names.break(entry.key);
    return sound;
  });
  for (const key of ['says', 'says-not']) {
    reportSameWords(entries, key, (id) => id, context.diagnostics);
    for (const { value } of entries) reportUnphrased(scalarUnder(value, key), context.diagnostics);
  }
  return {
    ids: entries.map(({ key }) => key),
    read: () => entries.flatMap((entry) => readDetector(entry, context) ?? []),
    orders: (detectors) => {
      const nodes = itemsUnder(root, 'in-order');
      const sound = nodes.filter((_, at) => shape.sound('in-order', at));
      const orders = readDetectorOrders(sound, detectors, context);
      return { orders, whole: orders.length === nodes.length && shape.sound('in-order') };
    },
  };
}

function readDetector({ key, keyPlace, value: node }: Entry, context: Context): Detector | undefined {
  const { diagnostics } = context;
  const [trips, tolerance] = ['trips', 'tolerance'].map((name) => scalarUnder(node, name)) as [ScalarNode, ScalarNode];
  const expression = context.expression(trips, { kinds: ['number'], why: 'A detector watches one number.' });
  if (!expression) return undefined;
  if (expression.op !== 'compare' || expression.by === '=') {
    diagnostics.report('SL360', { detector: key }, trips.place);
    return undefined;
  }
  const number = context.declaration(expression.condition);
  if (number?.kind !== 'number') throw new Error(`${expression.condition} is no number`);
  const wrong = (fault: 'number' | 'step' | 'range'): undefined => {
    const { from, to, step, unit } = number;
    const facts = { fault, tolerance: tolerance.written, value: expression.value, from, to, step, unit };
    diagnostics.report('SL361', facts, tolerance.place);
    return undefined;
  };
  const decimal = parseDecimal(tolerance.written);
  if (!decimal || decimal.digits < 0n) return wrong('number');
  const ends = [
    subtractDecimals(expression.value, tolerance.written),
    addDecimals(expression.value, tolerance.written),
  ];
  if (!ends.every((end) => isOnStep(end, number.from, number.step))) return wrong('step');
  const inside = (end: string): boolean =>
    compareDecimals(end, number.from) >= 0 && compareDecimals(end, number.to) <= 0;
  if (!ends.every(inside)) return wrong('range');
  return {
    ...context.defined(key, keyPlace, node),
    number: expression.condition,
    by: expression.by,
    value: expression.value,
    tolerance: tolerance.written,
    says: scalarUnder(node, 'says')?.written ?? '',
    saysNot: scalarUnder(node, 'says-not')?.written ?? '',
  };
}
