/** What the pages of supplies say is seen when one is lost, against every case as the oracle judges it. */
import { describe, expect, test } from 'vitest';
import { plain } from '../../src/book/index.ts';
import { lies } from '../helpers/vocabulary.ts';
import { type Case, type Fit, loadOracle } from '../oracle/index.ts';
import { readPhrases } from '../site/judges/sentences.ts';
import { inTimeBook, inTimeFolder, pageAt } from './in-time.ts';

const { book, compiled } = inTimeBook();
const { fleet } = compiled;
const oracle = loadOracle(inTimeFolder);
const page = pageAt(book, 'supplies', 'supplies.html');

const NORMAL: Case = {
  'generator-1': 'on-line',
  'generator-2': 'on-line',
  battery: 'charged',
  'essential-fault': 'absent',
};
/** What each table of losses is about. */
const CAUSES: Readonly<Record<string, Case>> = {
  'generator 1 off line': { 'generator-1': 'off-line' },
  'generator 2 off line': { 'generator-2': 'off-line' },
  'the battery flat': { battery: 'flat' },
  'generator 1 off line and generator 2 off line': { 'generator-1': 'off-line', 'generator-2': 'off-line' },
  'an essential bus fault': { 'essential-fault': 'present' },
};
const SEQUENCES = [...oracle.content.sequences.values()];

/** Everything that decides in which modes sequences rest. */
const GUARDS = SEQUENCES.flatMap(({ transitions }) => transitions.flatMap(({ when }) => when ?? []));

/** The case after all transitions without delay, one by one, the first of the first sequence first. */
function settled(fit: Fit, given: Case): Case {
  for (const { id, transitions } of SEQUENCES) {
    const taken = transitions.find(
      ({ from, when, holds, after, since }) =>
        from.includes(given[id] ?? '') &&
        when !== undefined &&
        // Stores may stand at any level, so that nothing that reads one is taken at once.
        ![holds, after, since].some((delay) => delay !== undefined) &&
        !when.includes('starter') &&
        oracle.meaning.truths(when, oracle.meaning.at(fit, given)).has(true),
    );
    if (taken) return settled(fit, { ...given, [id]: taken.to });
  }
  return given;
}

/** The states that the oracle sees in a case. */
function statesIn(fit: Fit, item: string, attribute: string, given: Case): string {
  return oracle.behaviour(fit, item, attribute, given).outcomes.map(String).join('/');
}

/** Every normal case with what an attribute is in it and with the cause, as the oracle has them. */
function pairs(
  fit: Fit,
  item: string,
  attribute: string,
  cause: Case,
): { given: Case; before: string; then: string }[] {
  const own = oracle.variables(item, attribute);
  const moving = own.some((name) => oracle.content.sequences.has(name));
  const others = moving
    ? [...oracle.content.sequences.keys(), ...GUARDS.flatMap((text) => oracle.variablesOf(text))]
    : [];
  const names = [...new Set([...own, ...Object.keys(NORMAL), ...others])].filter((name) => name !== 'starter');
  return [...oracle.cases(fit, names)]
    .filter((given) => oracle.isNormal(given))
    .map((given) => {
      const lost = { ...given, ...cause };
      const then = statesIn(fit, item, attribute, moving ? settled(fit, lost) : lost);
      return { given, before: statesIn(fit, item, attribute, given), then };
    })
    .filter(({ then }) => then !== '');
}

test('there is a table for each feeding condition, and for the fewest conditions that take a supply away', () => {
  expect(page.losses.map(({ title }) => title)).toEqual(Object.keys(CAUSES));
});

describe.each(page.losses.map((loss) => [loss.title, loss] as const))('with %s', (title, loss) => {
  test.each(oracle.fits.map((fit) => [fit.registrations.join(), fit] as const))(
    'every item differs on %s as the page says',
    (_, fit) => {
      for (const item of fleet.items) {
        for (const attribute of item.attributes) {
          const stateOf = (words: string): string =>
            attribute.states.find((state) => state.title === words)?.id ?? words;
          const light = item.attributes.filter(({ lamp }) => !lamp).length > 1 || attribute.lamp;
          const isAbout = (title: string): boolean =>
            light
              ? title.startsWith(`${item.title}: `) &&
                title
                  .slice(item.title.length + 2)
                  .split(/, | and /)
                  .includes(attribute.title)
              : title === item.title;
          const rows = loss.rows
            .filter(({ items }) => items.some((each) => isAbout(each.title)))
            .filter(({ effectivity }) =>
              effectivity.aircraft.some(({ registration }) => fit.registrations.includes(registration)),
            )
            .map((row) => ({
              then: stateOf(row.then.text),
              normally: row.normally.map(({ text }) => stateOf(text)),
              // "; or with X" are several; without words it is so in every case.
              when:
                row.when.length === 0
                  ? undefined
                  : plain(row.when)
                      .split(', or ')
                      .map((words) => readPhrases(oracle, words, [fit])),
            }));
          const used = new Set<string>();
          for (const { given, before, then } of pairs(fit, item.id, attribute.id, CAUSES[title] ?? {})) {
            const told = rows
              .filter(({ when }) => when?.some((readings) => lies(given, readings)) ?? true)
              .map((row) => row.then);
            const wrong = told.filter((state) => state !== then);
            expect({ item: item.id, given, wrong, told: told.includes(then) || before === then }).toEqual({
              item: item.id,
              given,
              wrong: [],
              told: true,
            });
            if (before !== then) used.add(`${before} > ${then}`);
          }
          const said = rows.flatMap(({ normally, then }) => normally.map((before) => `${before} > ${then}`));
          expect({ item: item.id, said: said.sort() }).toEqual({ item: item.id, said: [...used].sort() });
        }
      }
    },
  );
});

test('a latched message is among what is seen, though its own rule reads nothing but the latch', () => {
  const both = page.losses.find(({ title }) => title === 'generator 1 off line and generator 2 off line');
  const messages = both?.rows.filter(({ kind }) => kind === 'message');
  expect(messages?.map(({ items, then }) => [items.map(({ title }) => title), then.text])).toEqual([
    [['Main bus lost'], 'shown'],
  ]);
});

describe('the page of a supply', () => {
  const essential = pageAt(book, 'supply', 'supplies/essential-bus.html');

  test('says what feeds it, in order, and what it feeds', () => {
    expect(essential.order.feeders.map(({ feeder, when }) => `${feeder.title}: ${plain(when)}`)).toEqual([
      'Main bus: ',
      'Battery: with the battery switch at ON',
    ]);
    expect(plain(essential.order.unless)).toBe('with an essential bus fault');
    expect(essential.feeds.map(({ title }) => title)).toEqual(['Dome lights']);
    const main = pageAt(book, 'supply', 'supplies/main-bus.html');
    expect(main.feeds.map(({ title }) => title)).toEqual(['Essential bus', 'Reading lights']);
  });

  test('leads to the losses that take it away', () => {
    expect(essential.lostBy.map(({ words }) => plain(words))).toEqual([
      'an essential bus fault',
      'generator 1 off line and generator 2 off line',
    ]);
    for (const { anchor } of essential.lostBy) expect(page.losses.map(({ id }) => id)).toContain(anchor);
  });
});
