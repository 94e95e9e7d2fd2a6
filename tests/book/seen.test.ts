/**
 * "From what I see" against brute force: an interpreter that shares nothing with the compiler walks every case of every fit,
 * and the aircraft that can show several things at once must be exactly those that it finds.
 */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Book, Observation } from '../../src/book/index.ts';
import { loadBook } from '../../src/cli/load-book.ts';
import { meaningOf, narrow, readSeen, type Seeing, written } from '../../src/islands/parts/narrow.ts';
import { chooser, random } from '../compile/random-numbers.ts';
import { smallFleet } from '../helpers/content.ts';
import { type Fit, loadOracle, type Oracle } from '../oracle/index.ts';
import { everyKind } from './every-kind.ts';

const observationsOf = ({ pages }: Book): readonly Observation[] =>
  pages.flatMap((page) =>
    page.kind === 'seen' ? page.parts.flatMap(({ groups }) => groups.flatMap((group) => group.observations)) : [],
  );
const seeingsOf = (book: Book): Seeing[] =>
  observationsOf(book).flatMap(({ id, choices }) => choices.map((choice) => ({ sight: id, choice: choice.id })));

/** What is there to be seen on a fit whose options are all known, as the page writes it. */
function shownOn(oracle: Oracle, fit: Fit, observations: readonly Observation[]): Set<string> {
  const shown = new Set<string>();
  const idOf = (kinds: readonly string[], title: string): string | undefined =>
    observations.find((one) => kinds.includes(one.kind) && one.title === title)?.id;
  for (const control of oracle.content.controls.values()) {
    const count = oracle.meaning.isFitted(fit, control.id) ? oracle.meaning.positionsOn(fit, control.id).length : 0;
    shown.add(`${idOf(['control'], control.title)}:${count}`);
  }
  for (const item of oracle.content.items.values()) {
    if (!['light', 'sign', 'annunciator'].includes(item.kind) || !oracle.meaning.isFitted(fit, item.id)) continue;
    const at = oracle.meaning.at(fit, {});
    const legend = item.legends.find(({ when }) => oracle.meaning.truths(when, at).has(true))?.legend ?? item.legend;
    for (const attribute of item.attributes.values()) {
      const glyphs = [...attribute.states].map(([id, { glyph }]) => glyph ?? (SHAPED.has(id) ? id : 'none'));
      if (glyphs.every((glyph) => glyph === 'none')) continue;
      const states = statesOf(oracle, fit, item.id, attribute.id);
      for (const state of states) {
        if (attribute.lamp) {
          if (legend !== undefined) continue;
          shown.add(`${idOf(['lamp'], `${item.title}, ${attribute.title}`)}:${state}`);
        } else if (legend === undefined) shown.add(`${idOf(['light'], item.title)}:${state}`);
        else {
          const id = idOf(['legend'], legend);
          shown.add(`${id}:${state}`);
          if (item.colour !== undefined) shown.add(`${id}:${state}-${item.colour}`);
        }
        const colour = attribute.lamp?.colour ?? item.colour;
        if (state === 'dark' || colour === undefined) continue;
        for (const each of colour.split(/, | and | or /)) shown.add(`colour-${each.replaceAll(' ', '-')}:lit`);
      }
    }
  }
  return shown;
}

const SHAPED = new Set(['dark', 'lit', 'flashing']);

/** Every state that some case leads to; all of them where some case is not stated. */
function statesOf(oracle: Oracle, fit: Fit, item: string, attribute: string): Set<string> {
  const states = new Set<string>();
  for (const given of oracle.cases(fit, oracle.extendedVariables(item, attribute))) {
    const outcome = oracle.meaning.outcome(item, attribute, oracle.meaning.at(fit, given));
    if (typeof outcome === 'string') states.add(outcome);
    else
      for (const state of oracle.content.items.get(item)?.attributes.get(attribute)?.states.keys() ?? [])
        states.add(state);
  }
  return states;
}

const small = ((): Book => {
  const { book } = loadBook(smallFleet, 'small-fleet');
  if (!book) throw new Error('the content is not sound');
  return book;
})();
const books: [string, Book, string][] = [
  ['a small fleet', small, smallFleet],
  ['a book with every kind of thing', everyKind, join(import.meta.dirname, 'every-kind')],
];

describe.each(books)('what is seen in %s', (_name, book, folder) => {
  const oracle = loadOracle(folder);
  const observations = observationsOf(book);
  const shown = new Map<Fit, Set<string>>();
  const isShown = (fit: Fit, seen: readonly Seeing[]): boolean => {
    const all = shown.get(fit) ?? shownOn(oracle, fit, observations);
    shown.set(fit, all);
    return seen.every((each) => all.has(written([each])));
  };
  const walked = (seen: readonly Seeing[], day: string): string[] =>
    oracle.aircraft
      .filter(({ course }) => {
        const fit = course.findLast(({ from }) => from === undefined || from <= day)?.fit as Fit;
        return oracle.candidates(fit).some((one) => isShown(one, seen));
      })
      .map(({ serial }) => serial);
  const narrowed = (seen: readonly Seeing[], day: string): string[] =>
    narrow(book.seen, seen, day).periods.map(({ serial }) => serial);
  const days = [book.frame.date, ...new Set(book.seen.periods.flatMap(({ from }) => from ?? []))];

  it('is everything that some aircraft shows in some case, and nothing else', () => {
    const listed = new Set(seeingsOf(book).map((each) => written([each])));
    for (const fit of oracle.fits.flatMap((each) => oracle.candidates(each))) {
      isShown(fit, []);
      for (const each of shown.get(fit) ?? []) {
        // The colour is said only where a legend has several.
        const plain = each.replace(/-[a-z]+$/, '');
        expect(
          listed.has(each) || listed.has(plain) || [...listed].some((one) => one.startsWith(`${each}-`)),
          each,
        ).toBe(true);
      }
    }
    for (const each of listed)
      expect(
        [...shown.values()].some((all) => all.has(each)),
        each,
      ).toBe(true);
  });

  it('leaves exactly the aircraft that can show it, on every day', () => {
    for (const day of days) {
      for (const each of seeingsOf(book)) {
        expect(narrowed([each], day), `${written([each])} on ${day}`).toEqual(walked([each], day));
      }
    }
  });

  it('leaves exactly the aircraft that can show several things together', () => {
    const choose = chooser(random(12));
    const all = seeingsOf(book);
    const counts = new Set<number>();
    for (let trial = 0; trial < 400; trial += 1) {
      const day = choose.some(days, 1)[0] as string;
      const seen = choose.some(all, 2 + (trial % 3));
      expect(narrowed(seen, day), `${written(seen)} on ${day}`).toEqual(walked(seen, day));
      counts.add(walked(seen, day).length);
    }
    expect(counts.size).toBeGreaterThan(3);
  });

  it('tells of each thing once for every fit that can show it', () => {
    let groups = 0;
    for (const each of seeingsOf(book)) {
      for (const thing of meaningOf(book.seen, each)?.things ?? []) {
        if (thing.groups.length === 0) continue;
        const on = thing.groups.flatMap(({ fits }) => book.seen.sets[fits] ?? []);
        const settled = new Set(book.seen.sets[thing.set]);
        const having = book.seen.periods.filter((period) =>
          (book.seen.sets[period.settled] ?? []).some((fit) => settled.has(fit)),
        );
        expect(on.toSorted(), written([each])).toEqual([...new Set(having.map(({ fit }) => fit))].toSorted());
        groups += thing.groups.length;
      }
    }
    expect(groups).toBeGreaterThan(10);
  });

  it('is read back from an address as it was written', () => {
    const seen = seeingsOf(book).filter(({ sight }, at, list) => list.findIndex((one) => one.sight === sight) === at);
    expect(readSeen(written(seen))).toEqual(seen);
    expect(readSeen('nonsense,,:,a:')).toEqual([]);
  });
});
