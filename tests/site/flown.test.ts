/** The built demo book tells of every aircraft what an interpreter of the authors' rules shows while it flies. */
import { expect, inject, it } from 'vitest';
import { flight } from '../helpers/flights.ts';
import { PATIENCE, trials } from '../helpers/trials.ts';
import { type Fit, loadOracle } from '../oracle/index.ts';
import { FlownBook } from './judges/flown.ts';
import { changed, type Pages, pagesIn } from './judges/pages.ts';
import { judgeWalkRounds } from './judges/walk-round.ts';

const MOMENTS = trials({ short: 200, long: 10_000 });

const oracle = loadOracle('content');
const pages = pagesIn(inject('demoSite'));

/** Flies one fit, or what it may be, and holds the book to what is seen. */
function fly(book: Pages, fit: Fit, seed: number) {
  const flown = new FlownBook(book, oracle, fit);
  const faults = oracle
    .candidates(fit)
    .flatMap((one, nth) =>
      flight(oracle, one, seed + nth, MOMENTS, flown.wish(one)).flatMap((given) => flown.judge(one, given)),
    );
  return { faults, rows: flown.rows };
}

const seen = { all: 0, used: 0 };
it.each(oracle.fits.map((fit, at) => [fit.id, fit, 100 * at] as const))(
  '%s',
  (_, fit, seed) => {
    const { faults, rows } = fly(pages, fit, seed);
    expect(faults.slice(0, 5)).toEqual([]);
    seen.all += rows.all;
    seen.used += rows.used;
  },
  PATIENCE,
);

it('comes by most rows of the tables', () => {
  expect(seen.used / seen.all).toBeGreaterThan(0.5);
});

it('says on sheets of a walk-round what each lamp does in the stage that they are for', () => {
  expect(judgeWalkRounds(pages, oracle, 'content', ['40112', '40161', 'T-1'])).toEqual([]);
});

it.each([
  ['a state', 'lights/apu-ready.html', '</svg>lit<', '</svg>dark<'],
  ['a value', 'lights/apu-ready.html', '<span>running</span>', '<span>running or tripped</span>'],
  ['a message', 'messages/apu-trip.html', '>shown<', '>not shown<'],
] as const)('%s changed in %s is noticed', (_, address, from, to) => {
  const book = changed(pages, address, (html) => html.replaceAll(from, to));
  expect(fly(book, oracle.fits[0] as Fit, 1).faults).not.toEqual([]);
});
