/** The judges of the built pages notice a change of a single word. Each mutation is made by hand in a page of the demo. */
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { smallFleet } from '../helpers/content.ts';
import { loadOracle, type Oracle } from '../oracle/index.ts';
import { judgeDifferences } from './judges/differences.ts';
import { judgeFlows } from './judges/flows.ts';
import { judgeOtherwise } from './judges/otherwise.ts';
import { changed, type Pages, pagesIn } from './judges/pages.ts';
import { judgeProcedures } from './judges/procedures.ts';
import { judgeSentences } from './judges/sentences.ts';
import { judgeTables } from './judges/tables.ts';
import { judgeWalkRounds } from './judges/walk-round.ts';

let oracle: Oracle;
let pages: Pages;
beforeAll(() => {
  oracle = loadOracle(smallFleet);
  pages = pagesIn(inject('smallSite'));
});

type Judge = (pages: Pages, oracle: Oracle) => string[] | Promise<string[]>;
type Mutation = readonly [what: string, address: string, change: (html: string) => string, judge: Judge];

/** Replaces the first match of a pattern behind the first occurrence of a mark. */
const replaced = (mark: string, pattern: RegExp | string, by: string) => (html: string) => {
  const at = html.indexOf(mark);
  if (at < 0) throw new Error(`the page has no ${mark}`);
  return html.slice(0, at) + html.slice(at).replace(pattern, by);
};
const without = (mark: string, pattern: RegExp) => replaced(mark, pattern, '');
/** The state of the first row of the table with an anchor. */
const LOGO = 'id="logo-lights-lamp-40127-normal"';

const MUTATIONS: readonly Mutation[] = [
  ['a state', 'lights/logo-lights.html', replaced(LOGO, />dark</, '>lit<'), judgeTables],
  ['a state on a page of a control', 'controls/logo.html', replaced(LOGO, />dark</, '>lit<'), judgeTables],
  ['a condition', 'lights/logo-lights.html', replaced(LOGO, />compressed</, '>extended<'), judgeTables],
  ['a position', 'lights/logo-lights.html', replaced(LOGO, />AUTO</, '>ON<'), judgeTables],
  ['a column', 'lights/logo-lights.html', replaced(LOGO, />Ambient light</, '>Slats<'), judgeTables],
  ['a number', 'lights/turn-off-lights.html', replaced('<table', 'below 80 kt', 'below 81 kt'), judgeTables],
  [
    'a list of aircraft',
    'lights/logo-lights.html',
    replaced('id="logo-lights-lamp-40127"', 'QQ-OAJ', 'QQ-OAK'),
    judgeTables,
  ],
  [
    'a count of aircraft',
    'lights/logo-lights.html',
    replaced('id="logo-lights-lamp-40127"', ', 4 aircraft', ', 5 aircraft'),
    judgeTables,
  ],
  ['a removed row', 'lights/logo-lights.html', without(LOGO, /<tbody>[\s\S]*?<\/tbody>/), judgeTables],
  ['a removed table', 'lights/logo-lights.html', without(LOGO, /<thead[\s\S]*?<\/table>/), judgeTables],
  [
    'a removed abnormal table',
    'lights/logo-lights.html',
    without('<table class="states short" id="logo-lights-lamp-40127-abnormal"', /<table[\s\S]*?<\/table>/),
    judgeTables,
  ],
  ['a constant state', 'lights/logo-lit.html', replaced('class="constant"', 'not fitted', 'dark'), judgeTables],
  ['a sentence', 'controls/logo.html', replaced('class="positions"', 'are dark.', 'are lit.'), judgeSentences],
  ['a phrase of a sentence', 'controls/logo.html', replaced('class="positions"', 'at night', 'by day'), judgeSentences],
  [
    'a removed position',
    'controls/logo.html',
    without('class="positions"', /<div id="position-[\s\S]*?<\/div>/),
    judgeSentences,
  ],
  [
    'the aircraft of a list of positions',
    'controls/logo.html',
    replaced('class="cue"', 'QQ-OAG', 'QQ-OAF'),
    judgeSentences,
  ],
  [
    'an edge of a flow',
    'lights/logo-lights.html',
    replaced('id="logo-lights-lamp-40127-flow"', '|&quot;night&quot;|', '|&quot;day&quot;|'),
    judgeFlows,
  ],
  ['a state of a flow', 'lights/logo-lights.html', replaced('flowchart TD', 'Dark', 'Lit'), judgeFlows],
  [
    'a label of a drawing',
    'lights/logo-lights.html',
    replaced('id="logo-lights-lamp-40127-flow"', '>AUTO<', '>OFF<'),
    judgeFlows,
  ],
  [
    'a removed flow',
    'lights/logo-lights.html',
    without('id="logo-lights-lamp-40127"', /<figure[\s\S]*?<\/figure>/),
    judgeFlows,
  ],
  [
    'a state of a difference',
    'aircraft/40164.html',
    replaced('<section class="difference" ', />lit</, '>dark<'),
    judgeDifferences,
  ],
  [
    'a verdict',
    'aircraft/40164.html',
    replaced('<section class="difference" ', /class="verdict">[^<]*/, 'class="verdict">Alike'),
    judgeDifferences,
  ],
  [
    'a removed difference',
    'differences.html',
    without('<section class="difference" ', /<section class="difference" [\s\S]*?<\/section>/),
    judgeDifferences,
  ],
  [
    'what only one can be',
    'aircraft/40155.html',
    replaced('class="difference lone"', 'by day', 'at night'),
    judgeDifferences,
  ],
  [
    'a state that hangs on one option',
    'options/auto-logic.html',
    replaced('<section class="difference" ', />lit</, '>dark<'),
    judgeOtherwise,
  ],
  [
    'a lamp of a drawing',
    'procedures/short-flight.html',
    without('class="stage"', / data-unit="taxi[^"]*"/g),
    judgeProcedures,
  ],
  [
    'a lamp of a walk-round',
    'sheets/around-the-aircraft.html',
    replaced('data-topic="walk-round-short-flight-climb"', '>lit<', '>dark<'),
    (book, rules) => judgeWalkRounds(book, rules, smallFleet),
  ],
  [
    'the aircraft of a row of a walk-round',
    'sheets/around-the-aircraft.html',
    without('data-topic="walk-round-short-flight-climb"', /(?<=<tr[^>]*) data-on="[^"]*"/),
    (book, rules) => judgeWalkRounds(book, rules, smallFleet),
  ],
  [
    'the aircraft of a difference',
    'differences.html',
    replaced('class="difference lone"', /, \d+ aircraft/, ', 99 aircraft'),
    judgeDifferences,
  ],
];

describe('a change of the built pages is noticed', () => {
  it.each(MUTATIONS)('%s in %s', async (_what, address, change, judge) => {
    expect(await judge(changed(pages, address, change), oracle)).not.toEqual([]);
  });
});
