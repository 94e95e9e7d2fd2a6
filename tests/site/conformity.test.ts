/** The built book of a small fleet, read as a reader sees it, says in every place what the authors' rules say. */
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { smallFleet } from '../helpers/content.ts';
import { loadOracle, type Oracle } from '../oracle/index.ts';
import { judgeDifferences } from './judges/differences.ts';
import { judgeFleet, judgeOptions } from './judges/fleet.ts';
import { judgeFlows } from './judges/flows.ts';
import { judgeNotices } from './judges/notices.ts';
import { judgeLegends, judgeMessages, judgeSignals } from './judges/occasions.ts';
import { judgeOtherwise } from './judges/otherwise.ts';
import { type Pages, pagesIn } from './judges/pages.ts';
import { judgeProcedures } from './judges/procedures.ts';
import { judgeSentences } from './judges/sentences.ts';
import { judgeTables } from './judges/tables.ts';
import { judgeTours } from './judges/tours.ts';
import { judgeWalkRounds } from './judges/walk-round.ts';

let oracle: Oracle;
let pages: Pages;
beforeAll(() => {
  oracle = loadOracle(smallFleet);
  pages = pagesIn(inject('smallSite'));
});

describe('the built book of a small fleet', () => {
  it('has every state table that the content calls for, each case in one row with its state', () => {
    expect(judgeTables(pages, oracle)).toEqual([]);
  });

  it('has one sentence for what each position does, true in every normal case', () => {
    expect(judgeSentences(pages, oracle)).toEqual([]);
  });

  it('lists exactly the items that differ from the baseline, and exactly the cases', () => {
    expect(judgeDifferences(pages, oracle)).toEqual([]);
  });

  it('says in crew notices all that differs of what they are about, and nothing else', () => {
    expect(judgeNotices(pages, oracle, smallFleet, oracle.content.book.date)).toEqual([]);
  });

  it('says what each option changes by itself, also on aircraft that no one has', () => {
    expect(judgeOtherwise(pages, oracle)).toEqual([]);
  });

  it('says of each legend what it can mean, and of each message when it is raised, true in every case', () => {
    expect(judgeLegends(pages, oracle)).toEqual([]);
    expect(judgeMessages(pages, oracle)).toEqual([]);
  });

  it('says when each signal is true, and which aircraft has which value of each option', () => {
    expect(judgeSignals(pages, oracle)).toEqual([]);
    expect(judgeFleet(pages, oracle)).toEqual([]);
    expect(judgeOptions(pages, oracle)).toEqual([]);
  });

  it('has flow diagrams that lead every normal case to its state, as Mermaid reads them, drawn with every label', async () => {
    expect(await judgeFlows(pages, oracle)).toEqual([]);
  });

  it('wants in each stage of a procedure what the author wants, and shows what is then lit on each aircraft', () => {
    expect(judgeProcedures(pages, oracle)).toEqual([]);
  });

  it('says on sheets of every lamp outside where it is, and in a stage what it does, on each aircraft', () => {
    expect(judgeWalkRounds(pages, oracle, smallFleet)).toEqual([]);
  });

  it('has every stop of every tour, with every word of the author, and names what a tour passes by', () => {
    expect(judgeTours(pages, oracle, smallFleet)).toEqual([]);
  });
});
