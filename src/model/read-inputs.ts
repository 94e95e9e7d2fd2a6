/** What the steps of a timeline set: controls, conditions, detectors and failed lamps. */
import { nearestName } from '../diagnostics/index.ts';
import { compareDecimals, isOnStep, parseDecimal } from '../language/index.ts';
import type { Context } from './context.ts';
import type { Aircraft, Control, Timeline } from './fleet.ts';
import { KIND_WORDS } from './names.ts';
import { holdsOnFit } from './possible-fits.ts';
import type { Entry, ScalarNode } from './yaml-source.ts';

type Input = Timeline['steps'][number]['sets'][number];

/** One input that is set; undefined after a report. `aircraft` is undefined where it is not known. */
export function readInput(
  { key, keyPlace, value }: Entry,
  aircraft: Aircraft | undefined,
  controls: readonly Control[],
  context: Context,
): Input | undefined {
  const { diagnostics, names } = context;
  const [id = '', part] = key.split('.');
  if (value.kind !== 'scalar' || names.isBroken(id)) return undefined;
  const kind = names.kindOf(id);
  const declared = context.declaration(id);
  if (kind === undefined || declared === undefined) {
    if (!names.former.report(id, keyPlace)) {
      const known = names.ofKinds(['control', 'condition', 'detector']);
      diagnostics.report('SL304', { id, wanted: 'an input', nearest: nearestName(id, known) }, keyPlace);
    }
    return undefined;
  }
  const input = { id: key, value: value.written, place: value.place };
  if (declared.kind === 'item' && part !== undefined && declared.lamps?.includes(part)) {
    return isOneOf(value, key, ['failed', 'serviceable'], context) ? input : undefined;
  }
  if (part !== undefined && declared.kind !== 'item') {
    diagnostics.report('SL213', { name: id, part }, keyPlace);
    return undefined;
  }
  switch (declared.kind) {
    case 'condition':
      return isOneOf(value, id, declared.values, context) ? input : undefined;
    case 'detector':
      return isOneOf(value, id, ['yes', 'no'], context) ? input : undefined;
    case 'number': {
      const number = numberIn(value, declared, context);
      return number === undefined ? undefined : { ...input, value: number };
    }
    case 'control': {
      const control = controls.find((each) => each.id === id);
      if (!control) return undefined;
      if (aircraft && control.fitted && holdsOnFit(control.fitted, aircraft.fit) === false) {
        diagnostics.report('SL395', { name: id, aircraft: aircraft.registration }, keyPlace);
        return undefined;
      }
      const fitted = control.positions.filter(
        (position) => !aircraft || !position.fitted || holdsOnFit(position.fitted, aircraft.fit) !== false,
      );
      const known = fitted.map((position) => position.id);
      return isOneOf(value, id, known, context) ? input : undefined;
    }
    default:
      diagnostics.report('SL393', { name: key, kind: KIND_WORDS[kind] }, keyPlace);
      return undefined;
  }
}

function isOneOf({ written, place }: ScalarNode, name: string, known: readonly string[], context: Context): boolean {
  if (known.includes(written)) return true;
  if (context.names.former.reportValue(name, written, place)) return false;
  const facts = { name, value: written, known, nearest: nearestName(written, known) };
  context.diagnostics.report('SL394', facts, place);
  return false;
}

interface Range {
  readonly id: string;
  readonly unit: string;
  readonly from: string;
  readonly to: string;
  readonly step: string;
}

/** The decimal of a number with its unit, "95 %"; undefined after a report. */
function numberIn({ written, place }: ScalarNode, range: Range, context: Context): string | undefined {
  const { id, unit, from, to, step } = range;
  const [, number = '', found] = /^(-?[\d.]+)\s*(.*)$/.exec(written) ?? [];
  const within =
    parseDecimal(number) !== undefined &&
    found === unit &&
    compareDecimals(number, from) >= 0 &&
    compareDecimals(number, to) <= 0 &&
    isOnStep(number, from, step);
  if (within) return number;
  const known = [`from ${from} ${unit} to ${to} ${unit}, in steps of ${step}`];
  context.diagnostics.report('SL394', { name: id, value: written, known, nearest: undefined }, place);
  return undefined;
}
