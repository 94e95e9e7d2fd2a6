/** timelines.yaml: worked examples, inputs that change at given times on one aircraft. */
import { nearestName, type SourceFile } from '../diagnostics/index.ts';
import { compareDecimals, ownAttribute } from '../language/index.ts';
import type { Context } from './context.ts';
import { type Aircraft, type Fleet, type Timeline, UNKNOWN } from './fleet.ts';
import { holdsOnFit } from './possible-fits.ts';
import { readInput } from './read-inputs.ts';
import { timelinesSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import {
  type Entry,
  entriesUnder,
  itemsUnder,
  readYaml,
  type ScalarNode,
  scalarUnder,
  type YamlNode,
} from './yaml-source.ts';

/** What timelines are read against. `aircraft` is undefined where some could not be read, so that none is missed. */
export interface TimelineSurroundings extends Pick<Fleet, 'controls' | 'items' | 'sequences'> {
  readonly aircraft: readonly Aircraft[] | undefined;
}

/** Declares the timelines at once and gives a reader for each, to be called when everything else is read. */
export function declareTimelines(
  file: SourceFile | undefined,
  context: Context,
): { readonly id: string; readonly read: (around: TimelineSurroundings) => Timeline | undefined }[] {
  const { diagnostics, names } = context;
  const root = file && readYaml(file, diagnostics);
  if (!file || !root) {
    if (file) names.breakAllIn(file);
    return [];
  }
  const shape = checkShape(timelinesSchema, root, diagnostics);
  return (root.kind === 'map' ? root.entries : []).flatMap((entry) => {
    const fresh = names.declare(entry.key, 'timeline', entry.keyPlace, entry.value);
    if (fresh && shape.sound(entry.key)) {
      return [{ id: entry.key, read: (around: TimelineSurroundings) => readTimeline(entry, around, context) }];
    }
    names.break(entry.key);
    return [];
  });
}

function readTimeline(
  { key, keyPlace, value: node }: Entry,
  around: TimelineSurroundings,
  context: Context,
): Timeline | undefined {
  const defined = context.defined(key, keyPlace, node);
  const aircraft = readAircraft(node, around, context);
  const times = readTimes(node, context);
  const showNodes = itemsUnder(node, 'shows').filter((each) => each.kind === 'scalar');
  const shows = showNodes.flatMap((each) => readShown(each, aircraft, around, context) ?? []);
  const steps = itemsUnder(node, 'steps').map((step) => {
    const entries = entriesUnder(step, 'set');
    const sets = entries.flatMap((entry) => readInput(entry, aircraft, around.controls, context) ?? []);
    return { step, sets, whole: sets.length === entries.length };
  });
  const expectNodes = itemsUnder(node, 'expect');
  const expects = expectNodes.flatMap((each, index) => {
    const holds = scalarUnder(each, 'holds');
    const expression = holds && context.expression(holds);
    return expression ? [{ at: times?.expects[index] ?? '', holds: expression, place: holds.place }] : [];
  });
  const whole = shows.length === showNodes.length && expects.length === expectNodes.length;
  if (!aircraft || !times || !whole || steps.some((step) => !step.whole)) return undefined;
  return {
    ...defined,
    on: aircraft.serial,
    shows,
    steps: steps.map(({ step, sets }, index) => ({ at: times.steps[index] ?? '', sets, place: step.place })),
    until: times.until,
    expects,
  };
}

/** The aircraft under `on`, of which every option must be known. Undefined after a report. */
function readAircraft(node: YamlNode, { aircraft }: TimelineSurroundings, context: Context): Aircraft | undefined {
  const on = scalarUnder(node, 'on');
  if (!aircraft || !on) return undefined;
  const found = aircraft.find(({ serial }) => serial === on.written);
  if (!found) {
    const serials = aircraft.map(({ serial }) => serial);
    const facts = { serial: on.written, nearest: nearestName(on.written, serials) };
    context.diagnostics.report('SL391', facts, on.place);
    return undefined;
  }
  const options = [...found.fit].filter(([, value]) => value === UNKNOWN).map(([id]) => id);
  if (options.length === 0) return found;
  context.diagnostics.report('SL392', { aircraft: found.registration, options }, on.place);
  return undefined;
}

interface Times {
  readonly steps: readonly string[];
  readonly until: string;
  readonly expects: readonly string[];
}

/** All times of a timeline in seconds; undefined after a report of one that cannot be read or stands in the wrong place. */
function readTimes(node: YamlNode, context: Context): Times | undefined {
  let sound = true;
  const report = (fault: 'first' | 'rising' | 'until' | 'expect' | 'tolerance', { place }: ScalarNode): void => {
    sound = false;
    context.diagnostics.report('SL390', { fault }, place);
  };
  const timeOf = (scalar: ScalarNode | undefined): string | undefined => {
    if (scalar && /^0+(\.0+)?\s*(s|min|h)$/.test(scalar.written)) return '0';
    const duration = scalar && context.duration(scalar);
    if (!duration) sound = false;
    else if (duration.tolerance !== undefined) report('tolerance', scalar);
    return duration?.seconds;
  };
  let last: string | undefined;
  const steps = itemsUnder(node, 'steps').map((step, index) => {
    const scalar = scalarUnder(step, 'at') as ScalarNode;
    const at = timeOf(scalar);
    if (at === undefined) return '';
    if (index === 0 && compareDecimals(at, '0') !== 0) report('first', scalar);
    else if (last !== undefined && compareDecimals(at, last) <= 0) report('rising', scalar);
    last = at;
    return at;
  });
  const untilScalar = scalarUnder(node, 'until') as ScalarNode;
  const until = timeOf(untilScalar);
  const ended = until !== undefined && last !== undefined && compareDecimals(until, last) < 0;
  if (ended) report('until', untilScalar);
  const expects = itemsUnder(node, 'expect').map((each) => {
    const scalar = scalarUnder(each, 'at') as ScalarNode;
    const at = timeOf(scalar);
    if (!ended && at !== undefined && until !== undefined && compareDecimals(at, until) > 0) report('expect', scalar);
    return at ?? '';
  });
  return sound && until !== undefined ? { steps, until, expects } : undefined;
}

/** What a row of the timeline shows: a sequence, or an attribute of an item. Undefined after a report. */
function readShown(
  { written, place }: ScalarNode,
  aircraft: Aircraft | undefined,
  { items, sequences }: TimelineSurroundings,
  context: Context,
): Timeline['shows'][number] | undefined {
  const [id = '', part] = written.split('.');
  if (!context.names.resolve(id, ['sequence', 'item', 'message', 'supply'], place)) return undefined;
  const declared = context.declaration(id);
  const fitted = [...items, ...sequences].find((each) => each.id === id)?.fitted;
  if (fitted && aircraft && holdsOnFit(fitted, aircraft.fit) === false) {
    context.diagnostics.report('SL395', { name: id, aircraft: aircraft.registration }, place);
    return undefined;
  }
  if (declared?.kind !== 'item') {
    if (part === undefined) return { id, place };
    context.diagnostics.report('SL213', { name: id, part }, place);
    return undefined;
  }
  const known = [...declared.attributes.keys()];
  const attribute = part ?? ownAttribute(declared);
  if (attribute === undefined) context.diagnostics.report('SL215', { item: id, known }, place);
  else if (known.includes(attribute)) return { id, attribute, place };
  else {
    const nearest = nearestName(attribute, known);
    context.diagnostics.report('SL214', { item: id, attribute, known, nearest }, place);
  }
  return undefined;
}
