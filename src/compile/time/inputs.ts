/** The inputs of a run: controls, conditions, detectors and lamps, by the ids that timelines use. */
import { compareDecimals } from '../../language/index.ts';
import type { Detector, DetectorOrder } from '../../model/index.ts';
import { detectorCuts } from '../cells.ts';
import type { Compiled } from '../compile.ts';
import type { SettledFit } from '../fits.ts';
import { positionsOf } from '../positions.ts';

/** What sequences need of the compiled fleet to run. */
export type Base = Pick<Compiled, 'fleet' | 'space' | 'diagrams' | 'outcomes' | 'expressions'>;

/** The same, and what a timeline shows besides. */
export type Ground = Base & Pick<Compiled, 'fits' | 'behaviours'>;

/** Values by id: positions, values of conditions, numbers as decimals, `yes` and `no`, `failed` and `serviceable`. */
export type Inputs = ReadonlyMap<string, string>;

/**
 * What stands before anything is set: conditions at their normal value, or else the first; numbers at the lowest; controls in
 * the first position that the aircraft has, that is not abnormal and that they don't spring back from; detectors not tripped, lamps serviceable.
 */
export function initialInputs({ fleet }: Base, fit: SettledFit): Inputs {
  const inputs = new Map<string, string>();
  for (const { id, normal, values, number } of fleet.conditions) {
    inputs.set(id, number?.from ?? normal ?? values?.[0]?.id ?? '');
  }
  for (const control of fleet.controls) {
    const positions = positionsOf(control, fit).flatMap((index) => control.positions[index] ?? []);
    const resting = positions.filter(({ returns }) => !returns);
    const first = resting.find(({ abnormal }) => !abnormal) ?? resting[0] ?? positions[0];
    if (first) inputs.set(control.id, first.id);
  }
  for (const { id } of fleet.detectors) inputs.set(id, 'no');
  for (const { id, attributes } of fleet.items) {
    for (const { id: lamp, lamp: isLamp } of attributes) if (isLamp) inputs.set(`${id}.${lamp}`, 'serviceable');
  }
  return inputs;
}

export interface Answers {
  readonly inputs: Inputs;
  /** Detectors that would have to answer otherwise than they are set, with the order that says so, if one does. */
  readonly impossible: readonly { readonly detector: Detector; readonly order?: DetectorOrder }[];
}

/** The inputs with the answers that detectors must give: outside of its tolerance the number decides, then the order. */
export function answered({ fleet }: Base, inputs: Inputs): Answers {
  const answers = new Map(inputs);
  const certain = new Set<string>();
  const impossible: { detector: Detector; order?: DetectorOrder }[] = [];
  for (const detector of fleet.detectors) {
    const sure = certainAnswer(detector, fleet.conditions, inputs);
    if (sure === undefined) continue;
    certain.add(detector.id);
    if (inputs.get(detector.id) !== sure) impossible.push({ detector });
    answers.set(detector.id, sure);
  }
  for (const order of fleet.detectorOrders) {
    const trips = (id: string): boolean => answers.get(id) === 'yes';
    for (const [index, id] of order.detectors.entries()) {
      const detector = fleet.detectors.find((each) => each.id === id);
      const later = order.detectors.slice(index + 1).filter(trips);
      if (!detector || trips(id) || later.length === 0) continue;
      // Either this one trips too, or, where its number keeps it from it, the later ones don't.
      if (!certain.has(id)) {
        answers.set(id, 'yes');
        impossible.push({ detector, order });
        continue;
      }
      for (const each of fleet.detectors.filter((one) => later.includes(one.id) && !certain.has(one.id))) {
        answers.set(each.id, 'no');
        impossible.push({ detector: each, order });
      }
    }
  }
  return { inputs: answers, impossible };
}

/** What a detector must answer at the present number; undefined within its tolerance. */
function certainAnswer(
  detector: Detector,
  conditions: Ground['fleet']['conditions'],
  inputs: Inputs,
): 'yes' | 'no' | undefined {
  const number = conditions.find(({ id }) => id === detector.number)?.number;
  const value = inputs.get(detector.number);
  if (!number || value === undefined) throw new Error(`${detector.id} reads no number`);
  const [low, high] = detectorCuts(detector);
  const holds = (threshold: string): boolean => {
    const sign = compareDecimals(value, threshold);
    if (sign === 0) return detector.by.endsWith('=');
    return detector.by.startsWith('>') ? sign > 0 : sign < 0;
  };
  if (holds(low) && holds(high)) return 'yes';
  return holds(low) || holds(high) ? undefined : 'no';
}
