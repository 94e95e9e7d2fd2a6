/** Any two aircraft, as the page that compares them writes it, held to the rules case by case; on a fleet that can be walked. */
import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import { COMPARE, compareAircraft, packComparison, readComparison } from '../../src/book/index.ts';
import { readFolder } from '../../src/cli/read-folder.ts';
import { compileFleet } from '../../src/compile/index.ts';
import { comparisonHtml } from '../../src/components/difference-html.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { smallFleet } from '../helpers/content.ts';
import { byClass } from '../helpers/dom.ts';
import { loadOracle } from '../oracle/index.ts';
import { judgeAll } from './judges/differences.ts';

describe.each(['tests/book/every-kind', smallFleet])('%s', (folder) => {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(readFolder(folder, folder, diagnostics), diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (!compiled) throw new Error(`${folder} does not compile`);
  const read = readComparison(JSON.parse(JSON.stringify(packComparison(compiled))));
  const oracle = loadOracle(folder);

  /** Faults of the comparisons of each fit with the next, round the fleet, on the date of the book, with markup changed as said. */
  function faults(changed: (html: string) => string): string[] {
    const first = oracle.aircraft.filter(({ fit }, at) => oracle.aircraft.findIndex((one) => one.fit === fit) === at);
    return first.flatMap((here, at) => {
      const there = first[(at + 1) % first.length];
      const view = there && compareAircraft(read, [here.serial, there.serial], oracle.content.book.date);
      if (!view) throw new Error('an aircraft is not there');
      const names = [here.registration, there.registration] as const;
      const page = parse(`<main>${changed(comparisonHtml(view, COMPARE))}</main>`);
      const blocks = byClass(page, 'difference').map((element) => ({ element, names }));
      return judgeAll(blocks, oracle, [here.fit, there.fit]).map((fault) => `${names.join(' and ')}: ${fault}`);
    });
  }

  it('differs as its rules say, each fit from the next', () => {
    expect(faults((html) => html)).toEqual([]);
  });

  it('is not believed with one word changed', () => {
    expect(faults((html) => html.replace(/dark<\/span><\/td><\/tr>/, 'lit</span></td></tr>'))).not.toEqual([]);
  });
});
