/** Stores of a sequence: levels that drain and fill, such as batteries. */
import { nearestName } from '../diagnostics/index.ts';
import { compareDecimals, parseDecimal } from '../language/index.ts';
import type { Context } from './context.ts';
import type { Mode, Store } from './fleet.ts';
import { type Entry, entriesUnder, itemsUnder, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

export interface DeclaredStore {
  readonly entry: Entry;
  readonly capacity: string;
}

/** Levels may be named as finely as this, or as the capacity is. */
const LEAST_PLACES = 6;

/** Makes the stores known to guards; those without a sound capacity are left out after a report. */
export function declareStores(sequence: YamlNode, sound: boolean, context: Context): DeclaredStore[] {
  return entriesUnder(sequence, 'stores').flatMap((entry): DeclaredStore[] => {
    const { key, keyPlace, value } = entry;
    const fresh = context.names.declare(key, 'store', keyPlace, value);
    const capacity = sound ? scalarUnder(value, 'capacity') : undefined;
    if (!fresh || !capacity || !isLevel(capacity, entry, undefined, context)) {
      context.names.break(key);
      return [];
    }
    const places = Math.max(capacity.written.split('.')[1]?.length ?? 0, LEAST_PLACES);
    const unit = scalarUnder(value, 'unit')?.written ?? '';
    const step = `0.${'0'.repeat(places - 1)}1`;
    context.bring({ kind: 'store', id: key, unit, from: '0', to: capacity.written, step });
    return [{ entry, capacity: capacity.written }];
  });
}

/** Reads what depends on the names of all files. Undefined after a report. */
export function readStore({ entry, capacity }: DeclaredStore, context: Context): Store | undefined {
  const { key, keyPlace, value: node } = entry;
  const start = scalarUnder(node, 'start');
  const startIsSound = start !== undefined && isLevel(start, entry, capacity, context);
  const nodes = (['fills', 'drains'] as const).flatMap((kind) =>
    itemsUnder(node, kind).map((flow) => ({ kind, flow })),
  );
  const flows = nodes.flatMap(({ kind, flow }): Store['flows'] => {
    const [when, rate] = [scalarUnder(flow, 'when'), scalarUnder(flow, 'per-minute')];
    const expression = when && context.expression(when);
    const rateIsSound = rate !== undefined && isRate(rate, key, context);
    return expression && rateIsSound ? [{ kind, when: expression, perMinute: rate.written, place: flow.place }] : [];
  });
  if (!startIsSound || flows.length < nodes.length) return undefined;
  return {
    ...context.defined(key, keyPlace, node),
    unit: scalarUnder(node, 'unit')?.written ?? '',
    capacity,
    start: start.written,
    flows,
  };
}

/** A level under `sets` of a mode. Undefined after a report. */
export function readLevel(
  { key, keyPlace, value }: Entry,
  stores: readonly DeclaredStore[],
  context: Context,
): Mode['sets'][number] | undefined {
  if (context.names.isBroken(key)) return undefined;
  const store = stores.find(({ entry }) => entry.key === key);
  if (!store) {
    if (context.names.former.report(key, keyPlace)) return undefined;
    const known = stores.map(({ entry }) => entry.key);
    context.diagnostics.report('SL386', { store: key, known, nearest: nearestName(key, known) }, keyPlace);
    return undefined;
  }
  if (value.kind !== 'scalar' || !isLevel(value, store.entry, store.capacity, context)) return undefined;
  return { store: key, level: value.written, place: value.place };
}

/** Reports what is no level of the store: no number, below zero, above its capacity. The capacity itself is above zero. */
function isLevel(scalar: ScalarNode, store: Entry, capacity: string | undefined, context: Context): boolean {
  const { written, place } = scalar;
  if (!parseDecimal(written)) {
    context.diagnostics.report('SL330', { text: written }, place);
    return false;
  }
  const sign = compareDecimals(written, '0');
  const fits = capacity === undefined ? sign > 0 : sign >= 0 && compareDecimals(written, capacity) <= 0;
  if (fits) return true;
  const unit = scalarUnder(store.value, 'unit')?.written ?? '';
  context.diagnostics.report('SL384', { store: store.key, level: written, capacity, unit }, place);
  return false;
}

function isRate({ written, place }: ScalarNode, store: string, context: Context): boolean {
  if (!parseDecimal(written)) {
    context.diagnostics.report('SL330', { text: written }, place);
    return false;
  }
  if (compareDecimals(written, '0') > 0) return true;
  context.diagnostics.report('SL385', { store, rate: written }, place);
  return false;
}
