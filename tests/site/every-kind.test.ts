/** The built pages of a content with one of every kind of thing say what its rules say, and a changed word is noticed. */
import { expect, inject, it } from 'vitest';
import { loadOracle } from '../oracle/index.ts';
import { judgeDifferences } from './judges/differences.ts';
import { judgeFleet, judgeOptions } from './judges/fleet.ts';
import { judgeFlows } from './judges/flows.ts';
import { judgeLegends, judgeMessages, judgeSignals } from './judges/occasions.ts';
import { changed, pagesIn } from './judges/pages.ts';
import { judgeSentences } from './judges/sentences.ts';
import { judgeTables } from './judges/tables.ts';
import { judgeTours as judgeToursOf } from './judges/tours.ts';

const oracle = loadOracle('tests/book/every-kind');
const pages = pagesIn(inject('everyKindSite'));
const judgeTours: typeof judgeTables = (read, answers) => judgeToursOf(read, answers, 'tests/book/every-kind');

it.each([
  judgeTables,
  judgeSentences,
  judgeDifferences,
  judgeFlows,
  judgeLegends,
  judgeMessages,
  judgeSignals,
  judgeFleet,
  judgeOptions,
  judgeTours,
])('%o finds no fault', async (judge) => {
  expect(await judge(pages, oracle)).toEqual([]);
});

it.each([
  ['a state', 'lights/exit-signs.html', 'may be dark or lit', 'lit', judgeTables],
  ['a date', 'lights/logo-lights.html', 'until 2026-11-30', 'until 2026-12-01', judgeTables],
  ['a device', 'lights/logo-lights.html', ', and the training device Trainer One', '', judgeTables],
  ['a station', 'controls/cabin-dome.html', 'Asks for nothing: the', 'The', judgeSentences],
  ['a legend', 'legends.html', '>LOGO BRT<', '>LOGO<', judgeLegends],
  [
    'a way to be dark',
    'legends.html',
    'at <span class="legend">0</span>',
    'at <span class="legend">1</span>',
    judgeLegends,
  ],
  ['a threshold', 'messages.html', 'above 10,300 ft', 'above 9,700 ft', judgeMessages],
  ['what holds a message back', 'messages.html', 'Never held back', 'Held back', judgeMessages],
  ['a signal', 'conditions.html', 'on the ground with AC bus 1 powered', 'on the ground', judgeSignals],
  ['an option', 'fleet.html', '<span>Bright</span>', '<span>Plain</span>', judgeFleet],
  ['an aircraft', 'options.html', 'until 2026-11-30', 'until 2026-11-29', judgeOptions],
  ['a stop', 'tours/corner.html', 'id="stop-left-corner"', 'id="stop-corner"', judgeTours],
  ['a sentence of a tour', 'tours/corner.html', 'are lit', 'are dark', judgeTours],
  ['a word of the author', 'tours/corner.html', 'Which one', 'Which', judgeTours],
  ['what a tour passes by', 'tours/corner.html', 'id="missing"', 'id="absent"', judgeTours],
  ['a verdict', 'aircraft/1006.html', 'May differ', 'Differs', judgeDifferences],
] as const)('a change of %s in %s is noticed', (_what, address, from, to, judge) => {
  expect(
    judge(
      changed(pages, address, (html) => html.replace(from, to)),
      oracle,
    ),
  ).not.toEqual([]);
});
