/**
 * Several things that are seen at once, against brute force: an interpreter that shares nothing with the compiler looks for one case
 * that shows them all, with one answer of each detector.
 */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Book, makeBook, plain, readExplorer, SeenTogether } from '../../src/book/index.ts';
import { narrow, readSeen, type Seeing, seenOn } from '../../src/islands/parts/narrow.ts';
import { chooser, random } from '../compile/random-numbers.ts';
import { compiledFiles, compiledFolder } from '../helpers/compiled-folder.ts';
import { smallFleet } from '../helpers/content.ts';
import { type Fit, loadOracle, type Oracle } from '../oracle/index.ts';

/** The most cases that one pair of things is looked for in. */
const MOST_CASES = 10_000;
const PAIRS = 150;

/** A reader's copy. */
function togetherOf({ comparison, explorer }: Book): SeenTogether {
  if (!comparison || !explorer) throw new Error('the book has nothing to follow');
  return new SeenTogether(
    readExplorer(...(JSON.parse(JSON.stringify([comparison, explorer])) as [never, never])).explorer.fleet,
  );
}

describe.each([
  ['a small fleet', smallFleet, 5],
  ['a book with every kind of thing', join(import.meta.dirname, 'every-kind'), 1],
])('%s', (_, folder, leastApart) => {
  const book = makeBook(compiledFolder(folder));
  const oracle = loadOracle(folder);
  const together = togetherOf(book);
  const { comparison, seen } = book;
  const attributes = (comparison?.items ?? []).flatMap(({ id, attributes: own }) =>
    own.map((each) => [id, each.id] as const),
  );
  const fits = (comparison?.settled ?? []).map((places) => {
    const values = places.map((place, at) => comparison?.options[at]?.values[place]?.id);
    const fit = oracle.fits
      .flatMap((each) => oracle.candidates(each))
      .find(({ options }) => (comparison?.options ?? []).every(({ id }, at) => options[id] === values[at]));
    if (!fit) throw new Error(`no fit is ${values.join()}`);
    return fit;
  });
  const seeings: Seeing[] = Object.entries(seen.choices).flatMap(([sight, choices]) =>
    Object.entries(choices).flatMap(([choice, { parts }]) => (parts.length === 0 ? [] : [{ sight, choice }])),
  );

  it('shows two things at once exactly where one case has both', () => {
    const { pick } = chooser(random(20_261_126));
    const tally = { asked: 0, can: 0, apart: 0 };
    for (let at = 0; at < PAIRS; at += 1) {
      const pair = [pick(seeings), pick(seeings)];
      // One thing is seen one way.
      if (pair[0]?.sight === pair[1]?.sight) continue;
      const on = seenOn(seen, pair);
      for (const [settled, fit] of fits.entries()) {
        const parts = on.map((each) =>
          (each(settled) ?? []).map(
            ({ attribute, state }) => [...(attributes[attribute] as readonly [string, string]), state] as const,
          ),
        );
        const expected = oneCase(oracle, fit, parts);
        if (expected === undefined) continue;
        const alone = on.every((each) => together.can(settled, [each]));
        expect(together.can(settled, on), `${JSON.stringify(pair)} on ${fit.id}`).toBe(expected);
        tally.asked += 1;
        tally.can += expected ? 1 : 0;
        tally.apart += alone && !expected ? 1 : 0;
      }
    }
    expect(tally.asked).toBeGreaterThan(PAIRS);
    expect(tally.can).toBeGreaterThan(PAIRS / 10);
    expect(tally.apart).toBeGreaterThan(leastApart);
  });
});

/** Whether some case shows a part of each; undefined where there are too many to look at. */
function oneCase(
  oracle: Oracle,
  fit: Fit,
  seen: readonly (readonly (readonly [string, string, string])[])[],
): boolean | undefined {
  if (seen.some((parts) => parts.length === 0)) return false;
  const variables = seen.flat().flatMap(([item, attribute]) => oracle.extendedVariables(item, attribute));
  let looked = 0;
  for (const given of oracle.cases(fit, [...new Set(variables)])) {
    looked += 1;
    if (looked > MOST_CASES) return undefined;
    const at = oracle.meaning.at(fit, given);
    const isSo = ([item, attribute, state]: readonly [string, string, string]): boolean => {
      const outcome = oracle.meaning.outcome(item, attribute, at);
      // Nobody knows: it may be.
      return typeof outcome === 'string' ? outcome === state : true;
    };
    if (seen.every((parts) => parts.some(isSo))) return true;
  }
  return false;
}

describe('one case', () => {
  const files = {
    'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
    'options.yaml': 'kit:\n  title: Kit\n  values: { none: {}, extra: {} }\n',
    'aircraft.csv': 'serial,registration,from,to,kit\n1,QQ-ONE,2020-01-01,,none\n2,QQ-TWO,2020-01-01,,extra\n',
    'conditions.yaml': `conditions:
  bus:
    title: Bus
    normal: powered
    values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } }
  height:
    title: Height
    number: { unit: ft, from: 0, to: 20000, step: 100 }
detectors:
  high:
    title: High detector
    trips: height > 10000 ft
    tolerance: 500
    says: with the high detector tripped
    says-not: with the high detector not tripped
`,
    'panels/p.yaml': `panel: p
title: Panel
controls:
  check:
    title: Check button
    form: push-button
    positions: { OUT: {}, IN: { returns: OUT, abnormal: true } }
  sw:
    title: Switch
    form: toggle
    positions: { OFF: {}, ON: {} }
items:
  above:
    kind: annunciator
    title: ABOVE annunciator
    legend: ABOVE
    policy: first
    rules: [{ when: check is IN, then: lit }, { when: bus is powered and high, then: lit }, { otherwise: dark }]
  below:
    kind: annunciator
    title: BELOW annunciator
    legend: BELOW
    policy: first
    rules: [{ when: check is IN, then: lit }, { when: bus is powered and not high, then: lit }, { otherwise: dark }]
  on:
    kind: annunciator
    title: ON annunciator
    legend: "ON"
    fitted: kit is extra
    policy: first
    rules: [{ when: check is IN, then: lit }, { when: sw is ON, then: lit }, { otherwise: dark }]
`,
  };
  const book = makeBook(compiledFiles(files));
  const together = togetherOf(book);
  const said = (words: string): string[] => {
    const seen = readSeen(words);
    const { periods } = narrow(book.seen, seen, '2026-01-01', together);
    const on = seenOn(book.seen, seen);
    return periods.flatMap(({ registration, fit }) =>
      together
        .views(together.form(fit, on), [fit])
        .map(
          ({ part, alternatives, more }) =>
            `${registration} ${part}: ${alternatives.map(plain).join('; ')}${more ? '; more' : ''}`,
        ),
    );
  };

  it('has one answer of a detector, which lights one of two legends but never both', () => {
    expect(said('legend-above:lit')).toEqual([
      'QQ-ONE normal: with the height above 9,500 ft',
      'QQ-ONE abnormal: with the check button at IN',
      'QQ-TWO normal: with the height above 9,500 ft',
      'QQ-TWO abnormal: with the check button at IN',
    ]);
    expect(said('legend-above:lit,legend-below:lit')).toEqual([
      'QQ-ONE abnormal: with the check button at IN',
      'QQ-TWO abnormal: with the check button at IN',
    ]);
  });

  it('tells normal cases first, and of the others what they have in common', () => {
    expect(said('legend-above:dark,legend-below:dark')).toEqual([
      'QQ-ONE abnormal: with the check button at OUT and the bus lost',
      'QQ-TWO abnormal: with the check button at OUT and the bus lost',
    ]);
    expect(said('legend-above:lit,legend-on:lit')).toEqual([
      'QQ-TWO normal: with the switch at ON and the height above 9,500 ft',
      'QQ-TWO abnormal: with the check button at IN',
    ]);
  });

  it('is looked for on those aircraft alone that have it', () => {
    expect(said('legend-on:dark,legend-below:dark')).toEqual([
      'QQ-TWO normal: with the switch at OFF and the height above 9,500 ft',
      'QQ-TWO abnormal: with the check button at OUT, the switch at OFF and the bus lost',
    ]);
    expect(said('legend-on:lit,legend-on:dark')).toEqual(said('legend-on:dark'));
  });
});
