/** Controls of a panel: where they are fitted, their positions and legends, and what they count as. */
import { nearestName } from '../diagnostics/index.ts';
import { type Context, reportUnsayable } from './context.ts';
import type { Control, PanelPlace, Position } from './fleet.ts';
import { formerlyOf } from './former-ids.ts';
import { readLegends } from './read-legends.ts';
import { reportSameTitles } from './same-titles.ts';
import type { Checked } from './schema-check.ts';
import { type Entry, entriesUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

export interface DeclaredControl {
  readonly entry: Entry;
  readonly panel: string;
}

/** Makes the controls of a panel known to expressions; those that cannot be used are left out after a report. */
export function declareControls(
  root: YamlNode,
  panel: string,
  shape: Checked<unknown>,
  context: Context,
): DeclaredControl[] {
  const entries = entriesUnder(root, 'controls');
  reportSameTitles(entries, 'controls of this panel', context.diagnostics);
  return entries.flatMap((entry): DeclaredControl[] => {
    const fresh = context.names.declare(entry.key, 'control', entry.keyPlace, entry.value);
    const positions = entriesUnder(entry.value, 'positions');
    if (!fresh || !shape.sound('controls', entry.key) || !hasPositions(entry, positions, context)) {
      context.names.break(entry.key);
      return [];
    }
    context.names.former.keepValues(entry.key, positions);
    const held = positions.filter(({ value }) => scalarUnder(value, 'returns')).map(({ key }) => key);
    const values = positions.map(({ key }) => key);
    const released = values.filter((id) => !held.includes(id));
    const groups = held.length > 0 ? { groups: new Map(Object.entries({ held, released })) } : {};
    context.bring({ kind: 'control', id: entry.key, values, ...groups });
    return [{ entry, panel }];
  });
}

function hasPositions({ key, keyPlace }: Entry, positions: readonly Entry[], context: Context): boolean {
  if (positions.length > 0) return true;
  context.diagnostics.report('SL331', { control: key }, keyPlace);
  return false;
}

/** What is known of all panels when controls are read. */
export interface Around {
  readonly controls: readonly DeclaredControl[];
  readonly places: readonly PanelPlace[];
}

/** Reads what depends on the names of all files. Undefined after a report. */
export function readControl(declared: DeclaredControl, around: Around, context: Context): Control | undefined {
  const { entry, panel } = declared;
  const { key, keyPlace, value: node } = entry;
  const own = context.fitted(node);
  const entries = entriesUnder(node, 'positions');
  reportUnsayable(entries, context.diagnostics);
  reportTakenWords(entries, context);
  const positions = entries.map((each) => readPosition(each, key, entries, context));
  const named = readCounterpart(declared, around, context);
  const counterpart = isMatched(declared, named, context) ? named?.entry.key : undefined;
  const at = readPlace(declared, around, context);
  const row = scalarUnder(node, 'row');
  if (!own.ok || positions.includes(undefined)) return undefined;
  return {
    ...context.defined(key, keyPlace, node),
    panel,
    form: scalarUnder(node, 'form')?.written ?? '',
    ...(own.fitted ? { fitted: own.fitted } : {}),
    positions: positions
      .filter((position) => position !== undefined)
      .map(({ as, ...position }) => (as === undefined || counterpart === undefined ? position : { ...position, as })),
    ...(at === undefined ? {} : { at }),
    guarded: scalarUnder(node, 'guarded')?.value === true,
    ...(row ? { row: row.written } : {}),
    ...(counterpart === undefined ? {} : { counterpart }),
  };
}

/** Reports positions called as it is said that a control stands in one that springs back, or does not. */
function reportTakenWords(entries: readonly Entry[], { diagnostics }: Context): void {
  if (!entries.some(({ value }) => scalarUnder(value, 'returns'))) return;
  for (const { key, keyPlace } of entries) {
    if (key === 'held' || key === 'released') diagnostics.report('SL377', { word: key }, keyPlace);
  }
}

function readPosition(
  { key, keyPlace, value: node }: Entry,
  control: string,
  all: readonly Entry[],
  context: Context,
): Position | undefined {
  const fitted = context.fitted(node);
  const { legends, ok } = readLegends(node, context);
  const returns = readReturn(key, node, control, all, context);
  const as = scalarUnder(node, 'as');
  if (!fitted.ok || !ok) return undefined;
  return {
    id: key,
    legend: scalarUnder(node, 'legend')?.written ?? key,
    legends,
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    ...(returns === undefined ? {} : { returns }),
    abnormal: isAbnormal(node),
    ...(as ? { as: as.written } : {}),
    ...formerlyOf(node),
    place: keyPlace,
  };
}

function isAbnormal(position: YamlNode): boolean {
  return scalarUnder(position, 'abnormal')?.value === true;
}

/** The position under `returns`, in which the control stays. Undefined without one and after a report. */
function readReturn(
  position: string,
  node: YamlNode,
  control: string,
  all: readonly Entry[],
  { diagnostics, names }: Context,
): string | undefined {
  const scalar = scalarUnder(node, 'returns');
  if (!scalar) return undefined;
  const { written: to, place } = scalar;
  const known = all.map(({ key }) => key);
  const target = all.find(({ key }) => key === to);
  if (to === position) diagnostics.report('SL352', { position, to, known, fault: 'itself' }, place);
  else if (target === undefined) {
    if (names.former.reportValue(control, to, place)) return undefined;
    diagnostics.report('SL352', { position, to, known, fault: 'unknown', nearest: nearestName(to, known) }, place);
  } else if (scalarUnder(target.value, 'returns')) {
    diagnostics.report('SL352', { position, to, known, fault: 'returns' }, place);
  } else return to;
  return undefined;
}

/** The place under `place`, which must be one of the control's own panel. */
function readPlace({ entry, panel }: DeclaredControl, { places }: Around, context: Context): string | undefined {
  const scalar = scalarUnder(entry.value, 'place');
  if (!scalar || !context.names.resolve(scalar.written, ['place'], scalar.place)) return undefined;
  const place = places.find(({ id }) => id === scalar.written);
  if (!place || place.panel === panel) return place?.id;
  const related = [{ place: place.place, label: 'defined here' }];
  const facts = { control: entry.key, place: place.id, panel: place.panel };
  context.diagnostics.report('SL351', facts, scalar.place, related);
  return undefined;
}

/** The control under `counterpart`, which must have none itself. */
function readCounterpart(
  { entry }: DeclaredControl,
  { controls }: Around,
  context: Context,
): DeclaredControl | undefined {
  const scalar = scalarUnder(entry.value, 'counterpart');
  if (!scalar || !context.names.resolve(scalar.written, ['control'], scalar.place)) return undefined;
  const counterpart = controls.find((each) => each.entry.key === scalar.written);
  const further = scalarUnder(counterpart?.entry.value, 'counterpart')?.written;
  if (counterpart?.entry !== entry && further === undefined) return counterpart;
  const of = counterpart?.entry === entry ? undefined : further;
  context.diagnostics.report('SL354', { control: entry.key, counterpart: scalar.written, of }, scalar.place);
  return undefined;
}

/** Whether each `as` names a position of the counterpart, and no two the same one. Reports what doesn't. */
function isMatched({ entry }: DeclaredControl, counterpart: DeclaredControl | undefined, context: Context): boolean {
  const { diagnostics, names } = context;
  // What is wrong with a counterpart is reported there.
  if (counterpart === undefined && scalarUnder(entry.value, 'counterpart')) return false;
  const first = new Map<string, YamlNode['place']>();
  const known = entriesUnder(counterpart?.entry.value, 'positions').map(({ key }) => key);
  let sound = true;
  for (const { key, keyPlace, value } of entriesUnder(entry.value, 'positions')) {
    const as = scalarUnder(value, 'as');
    if (!as) continue;
    const facts = { position: key, as: as.written, counterpart: counterpart?.entry.key, known };
    const other = first.get(as.written);
    first.set(as.written, as.place);
    if (known.includes(as.written) && other === undefined) {
      const same = entriesUnder(counterpart?.entry.value, 'positions').find((each) => each.key === as.written);
      if (!same || isAbnormal(same.value) === isAbnormal(value)) continue;
      const related = [{ place: same.keyPlace, label: 'the same position' }];
      diagnostics.report('SL312', { fault: 'as', position: key, as: as.written }, keyPlace, related);
      continue;
    }
    sound = false;
    if (counterpart === undefined) diagnostics.report('SL353', { ...facts, fault: 'alone' }, as.place);
    else if (other) {
      diagnostics.report('SL353', { ...facts, fault: 'twice' }, as.place, [{ place: other, label: 'the other one' }]);
    } else if (!names.former.reportValue(counterpart.entry.key, as.written, as.place)) {
      diagnostics.report('SL353', { ...facts, fault: 'unknown', nearest: nearestName(as.written, known) }, as.place);
    }
  }
  return sound;
}
