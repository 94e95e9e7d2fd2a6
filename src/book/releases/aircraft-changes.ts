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
    if (!there) return [{ aircraft, ...NEW }];
    const pair = both.find(({ serial }) => serial === aircraft.serial);
    const renamed: Row[] =
      there.registration === aircraft.registration
        ? []
        : [
            {
              ...{ aircraft, what: [text('Registration')], before: there.registration, now: aircraft.registration },
              since: madeChange(aircraft, 'registration')?.date,
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
          since: madeChange(aircraft, option.id)?.date,
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
        ...{ aircraft: [[text(registration)]], ...GONE },
      }),
    );
  return [...together(changes), ...gone];
}

const [IN, OUT] = ['in this book', 'not in this book'];
const NEW = { what: [text('Aircraft')], before: OUT, now: IN, because: [] } as const;
const GONE = { ...NEW, before: IN, now: OUT } as const;

type Row = Omit<AircraftChange, 'aircraft'> & { readonly aircraft: Aircraft; readonly since?: string | undefined };

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

/** By which document, and whether the earlier revision told of it. */
function becauseOf({ fleet }: Compiled, change: Change | undefined, isTold: boolean): Inline[] {
  const document = change?.document === undefined ? [] : documentWords(fleet, change.document);
  const told = isTold ? [text('told of in the earlier revision')] : [];
  return [...document, ...(document.length > 0 && isTold ? [text('; ')] : []), ...told];
}

/** The same change of several aircraft at once, each with its day. */
function together(rows: readonly Row[]): AircraftChange[] {
  const alike = Map.groupBy(rows, ({ aircraft: _, since: __, ...row }) => JSON.stringify(row));
  return [...alike.values()].map((some) => {
    const [{ aircraft: _, since: __, ...row }] = some as [Row];
    return {
      ...row,
      aircraft: some.map(({ aircraft, since }) => [
        link(aircraftAddress(aircraft), aircraft.registration),
        ...(since === undefined ? [] : [text(` since ${since}`)]),
      ]),
    };
  });
}
