/** The pages of crew notices say what their authors wrote, and list the aircraft that it is about. */
import { expect, inject, it } from 'vitest';
import { demoFolder } from '../helpers/content.ts';
import { flight } from '../helpers/flights.ts';
import { type Fit, loadOracle } from '../oracle/index.ts';
import { judgeNotices } from './judges/notices.ts';
import { changed, pagesIn } from './judges/pages.ts';

const oracle = loadOracle(demoFolder);
const pages = pagesIn(inject('demoSite'));
const flights = new Map<Fit, ReturnType<typeof flight>>();
/** The demo has too many cases for walking all of them. */
function fly(fit: Fit) {
  const known = flights.get(fit) ?? flight(oracle, fit, 7, 80, () => new Map());
  flights.set(fit, known);
  return known;
}
const judge = (book = pages) => judgeNotices(book, oracle, demoFolder, '2026-10-01', fly);

it('are word for word those of their authors, current until they expire', () => {
  expect(judge()).toEqual([]);
});

it.each([
  ['a date', 'notices.html', (html: string) => html.replace('>2027-03-31<', '>2027-04-01<')],
  ['a word', 'notices/engineering-order-57.md', (html: string) => html.replace('has an AUTO', 'has no AUTO')],
  [
    'an aircraft',
    'notices/dark-landing-lights.md',
    (html: string) => html.replace(/(class="aircraft quote">.*?)<li>.*?<\/li>/s, '$1'),
  ],
  [
    'a state of what differs',
    'notices/engineering-order-57.md',
    (html: string) => html.replace(/(id="[^"]*differs-smoking-signs[\s\S]*?)>dark</, '$1>lit<'),
  ],
  [
    'a row of what differs',
    'notices/engineering-order-57.md',
    (html: string) => html.replace(/(id="[^"]*differs-smoking-signs[\s\S]*?<tbody>)<tr[\s\S]*?<\/tr>/, '$1'),
  ],
  ['what looks otherwise', 'notices/leased-legends.md', (html: string) => html.replace('>EVAC<', '>EVAK<')],
  ['a number', 'notices/leased-legends.md', (html: string) => html.replace('Crew notice 26-07', 'Crew notice 26-08')],
])('are not believed with %s changed', (_, file, change) => {
  expect(judge(changed(pages, file.replace('.md', '.html'), change)).length).toBeGreaterThan(0);
});
