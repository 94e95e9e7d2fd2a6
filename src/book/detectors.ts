/** Detectors on a number: where they trip, who listens to them, and which comes first. */
import { type Compiled, detectorCuts, formatNumber } from '../compile/index.ts';
import { compareDecimals } from '../language/index.ts';
import { type Condition, type Detector, type Fleet, overridesOf, withSmallInitial } from '../model/index.ts';
import { detectorAnchor } from './addresses.ts';
import type { DetectorView, Listed } from './book.ts';
import { citations, listedItem } from './links.ts';
import { listedReadersInTime } from './links-time.ts';
import { namedIn } from './mentions.ts';

export function detectorViews({ fleet }: Compiled, condition: Condition): DetectorView[] {
  return fleet.detectors
    .filter(({ number }) => number === condition.id)
    .map((detector) => ({
      id: detectorAnchor(detector),
      title: detector.title,
      ...(detector.about === undefined ? {} : { about: detector.about }),
      trips: trips(detector, condition.number?.unit ?? ''),
      says: [detector.says, detector.saysNot],
      readBy: readBy(fleet, detector),
      citations: citations(fleet, [detector]),
    }));
}

/** "Whenever the second detector is tripped, so is the first." */
export function detectorOrder({ fleet }: Compiled, condition: Condition): string[] {
  const own = (id: string): Detector | undefined =>
    fleet.detectors.find((detector) => detector.id === id && detector.number === condition.id);
  return fleet.detectorOrders.flatMap(({ detectors }) =>
    detectors.flatMap((id, at) => {
      const [first, second] = [own(id), own(detectors[at + 1] ?? '')];
      return first && second
        ? [`Whenever the ${withSmallInitial(second.title)} is tripped, so is the ${withSmallInitial(first.title)}.`]
        : [];
    }),
  );
}

/** "Trips above 10,000 ft, with a tolerance of 300 ft: certainly not at 9,700 ft or below, certainly above 10,300 ft, …" */
export function trips(detector: Detector, unit: string): string {
  const { by, value, tolerance } = detector;
  const [low, high] = detectorCuts(detector);
  const say = (decimal: string): string => `${formatNumber(decimal)} ${unit}`;
  const where = (decimal: string): string => {
    if (by === '>') return `above ${say(decimal)}`;
    if (by === '>=') return `at ${say(decimal)} or above`;
    return by === '<' ? `below ${say(decimal)}` : `at ${say(decimal)} or below`;
  };
  const whereNot = (decimal: string): string => {
    if (by === '>') return `at ${say(decimal)} or below`;
    if (by === '>=') return `below ${say(decimal)}`;
    return by === '<' ? `at ${say(decimal)} or above` : `above ${say(decimal)}`;
  };
  if (compareDecimals(tolerance, '0') === 0) return `Trips ${where(value)}.`;
  const upwards = by === '>' || by === '>=';
  const [never, surely] = upwards ? [low, high] : [high, low];
  return (
    `Trips ${where(value)}, with a tolerance of ${say(tolerance)}: certainly not ${whereNot(never)}, certainly ` +
    `${where(surely)}; between, it may have tripped or not, at a point that stays the same on one aircraft.`
  );
}

function readBy(fleet: Fleet, { id }: Detector): Listed[] {
  const names = (expressions: Parameters<typeof namedIn>[1]): boolean =>
    namedIn(fleet, expressions).some((mention) => mention.kind === 'detector' && mention.id === id);
  const items = fleet.items
    .filter((item) =>
      item.attributes.some((attribute) =>
        names([
          ...attribute.rules.flatMap(({ when }) => when ?? []),
          ...overridesOf(fleet.overrides, item, attribute).map(({ when }) => when),
        ]),
      ),
    )
    .map(listedItem);
  return [...items, ...listedReadersInTime(fleet, id)];
}
