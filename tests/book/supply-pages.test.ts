/** What the pages of supplies say is seen when one is lost, against every case as the oracle judges it. */
import { describe, expect, test } from 'vitest';
import { plain } from '../../src/book/index.ts';
import { type Case, type Fit, loadOracle } from '../oracle/index.ts';
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
  'Generator 1 off line': { 'generator-1': 'off-line' },
  'Generator 2 off line': { 'generator-2': 'off-line' },
  'Battery flat': { battery: 'flat' },
  'Generator 1 off line and Generator 2 off line': { 'generator-1': 'off-line', 'generator-2': 'off-line' },
  'Essential bus fault present': { 'essential-fault': 'present' },
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

/** "lit > dark": every pair of a normal case and the same with the cause, where they differ; "(some)" where not always. */
function differences(fit: Fit, item: string, attribute: string, cause: Case): string[] {
  const own = oracle.variables(item, attribute);
  const moving = own.some((name) => oracle.content.sequences.has(name));
  const others = moving
    ? [...oracle.content.sequences.keys(), ...GUARDS.flatMap((text) => oracle.variablesOf(text))]
    : [];
  const names = [...new Set([...own, ...Object.keys(NORMAL), ...others])].filter((name) => name !== 'starter');
  const pairs = new Map<string, Set<string>>();
  for (const normally of oracle.cases(fit, names)) {
    if (!oracle.isNormal(normally)) continue;
    const lost = { ...normally, ...cause };
    const then = statesIn(fit, item, attribute, moving ? settled(fit, lost) : lost);
    const before = statesIn(fit, item, attribute, normally);
    if (then !== '') pairs.set(before, (pairs.get(before) ?? new Set()).add(then));
  }
  return [...pairs]
    .flatMap(([before, after]) =>
      [...after]
        .filter((then) => then !== before)
        .map((then) => `${before} > ${then}${after.size > 1 ? ' (some)' : ''}`),
    )
    .sort();
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
          const said = loss.rows
            .filter((row) => row.item.title === item.title)
            .filter(({ effectivity }) =>
              effectivity.aircraft.some(({ registration }) => fit.registrations.includes(registration)),
            )
            .flatMap(({ changes }) => changes)
            .map(
              ({ normally, then, always }) =>
                `${stateOf(normally.text)} > ${stateOf(then.text)}${always ? '' : ' (some)'}`,
            );
          const wanted = differences(fit, item.id, attribute.id, CAUSES[title] ?? {});
          expect({ item: item.id, changes: said.sort() }).toEqual({ item: item.id, changes: wanted });
        }
      }
    },
  );
});

test('a latched message is among what is seen, though its own rule reads nothing but the latch', () => {
  const both = page.losses.find(({ title }) => title === 'Generator 1 off line and Generator 2 off line');
  const messages = both?.rows.filter(({ kind }) => kind === 'message');
  expect(messages?.map(({ item, changes }) => [item.title, changes.map(({ then }) => then.text)])).toEqual([
    ['Main bus lost', ['shown']],
  ]);
});

describe('the page of a supply', () => {
  const essential = pageAt(book, 'supply', 'supplies/essential-bus.html');

  test('says what feeds it, in order, and what it feeds', () => {
    expect(essential.order.feeders.map(({ feeder, when }) => `${feeder.title}: ${plain(when)}`)).toEqual([
      'Main bus: ',
      'Battery: Battery switch is ON',
    ]);
    expect(plain(essential.order.unless)).toBe('Essential bus fault is present');
    expect(essential.feeds.map(({ title }) => title)).toEqual(['Dome lights']);
    const main = pageAt(book, 'supply', 'supplies/main-bus.html');
    expect(main.feeds.map(({ title }) => title)).toEqual(['Essential bus', 'Reading lights']);
  });

  test('leads to the losses that take it away', () => {
    expect(essential.lostBy.map(({ words }) => plain(words))).toEqual([
      'Essential bus fault present',
      'Generator 1 off line and Generator 2 off line',
    ]);
    for (const { anchor } of essential.lostBy) expect(page.losses.map(({ id }) => id)).toContain(anchor);
  });
});
