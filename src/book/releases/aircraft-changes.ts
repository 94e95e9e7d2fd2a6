/** How aircraft are otherwise than in an earlier revision: modified, renamed, new, gone, or to be changed later. */
import type { Compiled, Fit } from '../../compile/index.ts';
import { type Aircraft, type Change, UNKNOWN } from '../../model/index.ts';
import { aircraftAddress, optionAddress } from '../addresses.ts';
import type { Inline } from '../book.ts';
import type { AircraftChange } from '../book-changes.ts';
import { link, text } from '../cells.ts';
import { documentWords } from '../documents.ts';
import { optionValue } from '../fits.ts';
import type { ComparedReleases } from './compared-releases.ts';

export function aircraftChanges(
  compiled: Compiled,
  { release, fleet, aircraft: both }: ComparedReleases,
): AircraftChange[] {
  const { comparison } = release;
  const changes = compiled.fleet.aircraft.flatMap((aircraft): Row[] => {
    const there = comparison.aircraft.find(({ serial }) => serial === aircraft.serial);
    if (!there) return [{ aircraft, what: [text('In the book')], before: 'no', now: 'yes', because: [] }];
    const pair = both.find(({ serial }) => serial === aircraft.serial);
    const renamed: Row[] =
      there.registration === aircraft.registration
        ? []
        : [
            {
              ...{ aircraft, what: [text('Registration')], before: there.registration, now: aircraft.registration },
              because: becauseOf(compiled, madeChange(aircraft, 'registration'), false),
            },
          ];
    const known = fleet.fleet.options.filter(({ id }) => comparison.options.some((option) => option.id === id));
    const modified = known.flatMap((option): Row[] => {
      const defined = compiled.fleet.options.find(({ id }) => id === option.id);
      if (!pair || !defined || pair.before.options.get(option.id) === pair.now.options.get(option.id)) return [];
      const isTold = wasTold(release, aircraft, option.id, pair.now, compiled.fleet.book.date);
      return [
        {
          ...{ aircraft, what: [link(optionAddress(defined), defined.title)] },
          ...{ before: optionValue(option, pair.before), now: optionValue(option, pair.now) },
          because: becauseOf(compiled, madeChange(aircraft, option.id), isTold),
        },
      ];
    });
    return [...renamed, ...modified];
  });
  const gone = comparison.aircraft
    .filter(({ serial }) => !compiled.fleet.aircraft.some((one) => one.serial === serial))
    .map(
      ({ registration }): AircraftChange => ({
        ...{ aircraft: [text(registration)], what: [text('In the book')], before: 'yes', now: 'no', because: [] },
      }),
    );
  return [...together(changes), ...gone];
}

type Row = Omit<AircraftChange, 'aircraft'> & { readonly aircraft: Aircraft };

/** The latest change of an option that is made already. */
function madeChange({ made }: Aircraft, option: string): Change | undefined {
  return made.findLast((change) => change.option === option);
}

/** Whether the release told of the change beforehand: then the aircraft had that value on the present date. */
function wasTold(
  { comparison }: ComparedReleases['release'],
  { serial }: Aircraft,
  option: string,
  now: Fit,
  today: string,
): boolean {
  const at = comparison.options.findIndex(({ id }) => id === option);
  const value = comparison.options[at]?.values.findIndex(({ id }) => id === now.options.get(option));
  return comparison.fits.some(
    ({ options, holders }) =>
      options[at] === value &&
      now.options.get(option) !== UNKNOWN &&
      holders.some(
        ([of, from, until]) =>
          comparison.aircraft[of]?.serial === serial &&
          from !== '' &&
          from <= today &&
          (until === '' || today <= until),
      ),
  );
}

function becauseOf({ fleet }: Compiled, change: Change | undefined, isTold: boolean): Inline[] {
  const told = isTold ? [text('; the earlier revision told of it')] : [];
  if (!change) return [];
  const document = change.document === undefined ? [] : [text(', '), ...documentWords(fleet, change.document)];
  return [text(`since ${change.date}`), ...document, ...told];
}

/** The same change of several aircraft at once. */
function together(rows: readonly Row[]): AircraftChange[] {
  const alike = Map.groupBy(rows, ({ aircraft: _, because: __, ...row }) => JSON.stringify(row));
  return [...alike.values()].flatMap((some) => {
    const byCause = Map.groupBy(some, ({ because }) => JSON.stringify(because));
    return [...byCause.values()].map((same) => ({
      ...(same[0] as Row),
      aircraft: same.flatMap(({ aircraft }, at) => [
        ...(at === 0 ? [] : [text(', ')]),
        link(aircraftAddress(aircraft), aircraft.registration),
      ]),
    }));
  });
}
