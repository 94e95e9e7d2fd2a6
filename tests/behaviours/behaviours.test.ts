/** Behaviours of the trade, said in the content language, against tables that were written by hand. See README.md. */
import { describe, expect, test } from 'vitest';
import { temporaryFolder, writeFiles } from '../helpers/temporary-folder.ts';
import { allBehaviours, type Entry, nameOf, wrongFiles } from './behaviour.ts';
import { check, judge, unexpectedWarnings } from './judge.ts';
import { isJudgedByOracle, judgeByOracle } from './judge-by-oracle.ts';

/** With their places in the file, since several entries may have one name. */
const named = <T extends Entry>(entries: readonly T[]): { entry: T; name: string }[] =>
  entries.map((entry, at) => ({ entry, name: `${at + 1} ${nameOf(entry)}` }));

describe.each(allBehaviours())('$name', (behaviour) => {
  const { folder, files, expected, wrong } = behaviour;
  const checked = check(files);

  test('is sound content, with the expected findings only', () => {
    expect(checked.errors).toEqual([]);
    expect(unexpectedWarnings(checked, expected)).toEqual([]);
  });

  test.each(named(expected))('$name comes out as expected', ({ entry }) => {
    expect(judge(checked, entry)).toEqual([]);
  });

  test.each(named(expected.filter(isJudgedByOracle)))('$name is what the oracle says', ({ entry }) => {
    expect(judgeByOracle(folder, entry)).toEqual([]);
  });

  test('has tables of which no row can be left out, and none stand twice', () => {
    const tables = expected.filter((entry) => 'item' in entry);
    const kept = tables.flatMap((entry) => {
      const [head = '', ...rows] = entry.table.trimEnd().split('\n');
      return rows.flatMap((row, at) => {
        const without = { ...entry, table: [head, ...rows.toSpliced(at, 1)].join('\n') };
        const twice = { ...entry, table: [head, ...rows, row].join('\n') };
        const unnoticed = [without, twice].filter((each) => judge(checked, each).length === 0);
        return unnoticed.map(({ table }) => `${entry.item}: ${table}`);
      });
    });
    expect(kept).toEqual([]);
  });

  test('has a wrong twin that is sound content too, and misses what it should', () => {
    const twin = wrongFiles(behaviour);
    const twinChecked = check(twin);
    expect(twinChecked.errors).toEqual([]);
    const missed = expected.filter((entry) => judge(twinChecked, entry).length > 0);
    expect(wrong.misses.length).toBeGreaterThan(0);
    expect(missed.map(nameOf)).toEqual(expect.arrayContaining([...wrong.misses]));

    const twinFolder = temporaryFolder();
    writeFiles(twinFolder, Object.fromEntries(twin.map(({ path, text }) => [path, text])));
    const judged = expected.filter(isJudgedByOracle);
    const missedByOracle = judged.filter((entry) => judgeByOracle(twinFolder, entry).length > 0);
    expect(missedByOracle.map(nameOf)).toEqual(
      expect.arrayContaining(wrong.misses.filter((name) => !/^SL\d+$/.test(name))),
    );
    // Not the other way round: a claim whose premise never happens holds by the oracle, but is reported.
    expect(missed).toEqual(expect.arrayContaining(missedByOracle));
  });
});
