/** Where the units of lights stand on the airframe. What cannot be drawn is reported and left out. */
import { NAMED_SPOTS, sideOf } from './airframe.ts';
import type { Context } from './context.ts';
import type { Mounting, Sector, Spot } from './fleet.ts';
import { type Entry, entryOf, itemsUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

/** The list under `spots` of a light that names no lamps. */
export function readMountings({ key, value }: Entry, context: Context): Mounting[] {
  const spots = entryOf(value, 'spots');
  if (!spots) return [];
  const fault =
    scalarUnder(value, 'kind')?.written !== 'light' ? 'kind' : entryOf(value, 'lamps') ? 'lamps' : undefined;
  if (fault) {
    context.diagnostics.report('SL318', { item: key, fault }, spots.keyPlace);
    return [];
  }
  return itemsUnder(value, 'spots').flatMap((node) => readMounting(node, context) ?? []);
}

/** What `spot`, `at`, `side` and `sector` under a node say, or a scalar that names a spot. */
export function readMounting(node: YamlNode, context: Context): Mounting | undefined {
  const { diagnostics } = context;
  const entry = entryOf(node, 'spot');
  const sectorEntry = entryOf(node, 'sector');
  const from = node.kind === 'scalar' ? node : entry?.value;
  if (!from || (from.kind === 'scalar' && from.value === null)) {
    if (sectorEntry) diagnostics.report('SL329', { fault: 'alone' }, sectorEntry.keyPlace);
    return undefined;
  }
  const named = from.kind === 'scalar' ? NAMED_SPOTS.get(from.written) : undefined;
  const spot = named?.spot ?? readSpot(from, context);
  const sector = sectorEntry && readSector(sectorEntry, context);
  if (!spot || (sectorEntry && !sector)) return undefined;
  const at = scalarUnder(node, 'at')?.written ?? named?.words;
  if (at === undefined) {
    diagnostics.report('SL329', { fault: 'words' }, entry?.keyPlace ?? from.place);
    return undefined;
  }
  const side = sideOf(spot);
  const said = scalarUnder(node, 'side');
  if (said && said.written !== side) {
    const lies = side === 'centre' ? 'in the centre' : `on the ${side}`;
    diagnostics.report('SL329', { fault: 'side', side: said.written, spot: lies }, said.place);
    return undefined;
  }
  return { at, side, spot, ...(sector ? { sector } : {}) };
}

function readSpot(node: YamlNode, context: Context): Spot | undefined {
  const along = numberUnder(node, 'along', 0, 100, context);
  const across = numberUnder(node, 'across', -100, 100, context);
  const above = numberUnder(node, 'above', 0, 100, context);
  if (along === undefined || across === undefined || above === undefined) return undefined;
  return { along, across, above };
}

function readSector({ value, keyPlace }: Entry, context: Context): Sector | undefined {
  const from = numberUnder(value, 'from', 0, 360, context);
  const to = numberUnder(value, 'to', 0, 360, context);
  if (from === undefined || to === undefined) return undefined;
  // 360 is where 0 is, but from 0 to 360 is all round.
  if (from !== to && !(from === 360 && to === 0)) return { from, to };
  context.diagnostics.report('SL329', { fault: 'sector' }, keyPlace);
  return undefined;
}

/** Undefined without a number, which the shape has told of, and after a report. */
function numberUnder(node: YamlNode, name: string, from: number, to: number, context: Context): number | undefined {
  const scalar = scalarUnder(node, name);
  if (typeof scalar?.value !== 'number') return undefined;
  if (scalar.value >= from && scalar.value <= to) return scalar.value;
  context.diagnostics.report('SL329', { fault: 'range', name, value: scalar.written, from, to }, scalar.place);
  return undefined;
}
