/** Random sequences on random timelines: the exact replay against an interpreter that goes from second to second. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decimalText } from '../../src/compile/time/index.ts';
import { content, written } from './random-sequences.ts';
import { runSlowly } from './slow-sequences.ts';
import { changesOf, courseOf, tryTime } from './time-content.ts';

test('the exact replay agrees with an interpreter that goes from second to second', () => {
  const judged = { whole: 0, endless: 0, changes: 0 };
  fc.assert(
    fc.property(content, (made) => {
      const { panel, timeline } = written(made);
      const { compiled, reported } = tryTime(panel, timeline);
      const wrong = reported.filter((each) => !/^SL(413|432)/.test(each));
      expect(wrong).toEqual([]);
      // Rounds without delay are refused before any timeline is replayed.
      if (!compiled) return;
      const course = courseOf(compiled, 'one');
      const slow = runSlowly(made);
      const fault = course.faults.find(({ kind }) => kind === 'endless');
      expect(fault && Number(decimalText(fault.at).text)).toBe(slow.endless);
      const before = slow.changes.filter(
        (each) => slow.endless === undefined || Number.parseInt(each, 10) < slow.endless,
      );
      expect(changesOf(course)).toEqual(before);
      judged.changes += before.length;
      judged[fault ? 'endless' : 'whole'] += 1;
      // The drawn rows say the same.
      for (const row of course.rows) {
        if (row.kind !== 'sequence') throw new Error('a row of another kind');
        for (const [second, modes] of slow.modes.entries()) {
          const span = row.spans.findLast(({ from }) => Number(decimalText(from).text) <= second);
          expect(span?.value).toBe(modes[row.sequence.id]);
        }
      }
    }),
    { numRuns: 250 },
  );
  // Enough was really compared.
  expect(judged.whole).toBeGreaterThan(100);
  expect(judged.changes).toBeGreaterThan(500);
});
