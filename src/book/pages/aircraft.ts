/** An aircraft's page: what is fitted, how it differs from the baseline, what changes, and where its tables stand. */
import { type Compiled, comparable, type Fit, fitOfAircraft, timeText } from '../../compile/index.ts';
import type { Aircraft, Change, Fleet } from '../../model/index.ts';
import { aircraftAddress, COMPARE, chosenAnchor, EXPLORER, itemAddress, optionAddress } from '../addresses.ts';
import { attributeTitle, constantState, groupAnchor } from '../attributes.ts';
import type { AircraftPage, ChangeView, LaterView } from '../book.ts';
import { link, text } from '../cells.ts';
import { differences } from '../differences.ts';
import { documentWords } from '../documents.ts';
import { effectivity } from '../effectivity.ts';
import { groupOf, optionValue } from '../fits.ts';
import { trailTo } from '../trail.ts';
import { hasPairs } from './compare.ts';
import { hasExplorer } from './explorer.ts';

export function aircraftPage(compiled: Compiled, aircraft: Aircraft): AircraftPage {
  const { fleet, fits } = compiled;
  const fit = fitOfAircraft(fits, aircraft.serial);
  const baseline = fitOfAircraft(fits, fleet.book.baseline);
  const names = { here: aircraft.registration, there: baselineOf(compiled).registration };
  return {
    kind: 'aircraft',
    address: aircraftAddress(aircraft),
    title: aircraft.registration,
    trail: trailTo(),
    device: aircraft.kind === 'device',
    registration: aircraft.registration,
    serial: aircraft.serial,
    baseline: aircraft.serial === fleet.book.baseline,
    fit: fleet.options.map((option) => ({
      option: { to: optionAddress(option), title: option.title },
      value: optionValue(option, fit),
      asBaseline: fit.options.get(option.id) === baseline.options.get(option.id),
    })),
    sameFit: effectivity(
      fleet,
      fit.holders.filter((holder) => holder.aircraft !== aircraft),
    ),
    ...(hasPairs(compiled)
      ? {
          compare: {
            to: COMPARE,
            anchor: chosenAnchor(aircraft.serial),
            title: `Compare ${aircraft.registration} with another`,
          },
        }
      : {}),
    ...(hasExplorer(compiled)
      ? {
          explorer: {
            to: EXPLORER,
            anchor: chosenAnchor(aircraft.serial),
            title: `Move the controls of ${aircraft.registration}`,
          },
        }
      : {}),
    items: items(compiled, fit),
    differences: differences(comparable(compiled), fit, baseline, names),
    changes: changesOf(fleet, aircraft),
    asOf: fleet.book.date,
    later: later(compiled, aircraft, fit),
  };
}

/** The aircraft that others are compared with. */
export function baselineOf({ fleet }: Compiled): Aircraft {
  const baseline = fleet.aircraft.find(({ serial }) => serial === fleet.book.baseline);
  if (!baseline) throw new Error('the baseline is not in service');
  return baseline;
}

function items(compiled: Compiled, fit: Fit): AircraftPage['items'] {
  return compiled.behaviours.map((behaviour) => {
    const group = groupOf(behaviour, fit);
    const state = constantState(compiled, behaviour, group);
    return {
      to: itemAddress(behaviour.item),
      title: attributeTitle(behaviour),
      anchor: groupAnchor(behaviour, group),
      ...(behaviour.attribute.lamp ? { lamp: `${behaviour.item.id}-${behaviour.attribute.id}` } : {}),
      ...(state ? { state } : {}),
    };
  });
}

/** What is known to change, each with the value before and after. */
export function changesOf(fleet: Fleet, aircraft: Aircraft): ChangeView[] {
  const standing = new Map([...aircraft.fit, [REGISTRATION, aircraft.registration]]);
  return aircraft.changes.map(({ date, option, value, document }): ChangeView => {
    const before = standing.get(option) ?? '';
    standing.set(option, value);
    const defined = fleet.options.find(({ id }) => id === option);
    const title = (id: string): string => defined?.values.find((each) => each.id === id)?.title ?? id;
    return {
      date,
      what: [defined ? link(optionAddress(defined), defined.title) : text('Registration')],
      before: title(before),
      after: title(value),
      ...(document === undefined ? {} : { document: documentWords(fleet, document) }),
    };
  });
}

const REGISTRATION: Change['option'] = 'registration';

/** Each fit that the aircraft will have, against the one of the book's date. */
function later(compiled: Compiled, aircraft: Aircraft, today: Fit): LaterView[] {
  const { fleet, fits } = compiled;
  return fits
    .flatMap((fit) =>
      fit.holders
        .filter((holder) => holder.aircraft === aircraft && holder.from !== undefined)
        .map((holder) => ({ fit, holder, from: holder.from ?? '' })),
    )
    .toSorted((a, b) => a.from.localeCompare(b.from))
    .map(({ fit, holder, from }) => {
      const names = {
        here: `${aircraft.registration} ${timeText(holder)}`,
        there: `${aircraft.registration} on ${fleet.book.date}`,
      };
      return {
        id: `from-${from}`,
        date: from,
        title: `F${timeText(holder).slice(1)}`,
        differences: differences(comparable(compiled), fit, today, names, (id) => `from-${from}-${id}`),
      };
    });
}
