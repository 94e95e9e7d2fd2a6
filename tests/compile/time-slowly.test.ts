/**
 * Random sequences on random timelines: the exact replay against an interpreter that goes from second to second, and against
 * the oracle, which reads the files by itself and goes from moment to moment.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decimalText } from '../../src/compile/time/index.ts';
import { PATIENCE, TIMELINES } from '../helpers/trials.ts';
import { replay } from '../oracle/index.ts';
import { oracleOf } from '../random/both.ts';
import { content, written } from './random-sequences.ts';
import { runSlowly, type SlowTransition } from './slow-sequences.ts';
import { changesOf, courseOf, timeFiles, tryTime } from './time-content.ts';

/** What a transition waits for, and what a course has beside, with how many of a hundred courses must have it. */
const LEAST = {
  'a time held': 10,
  'a time in the mode': 15,
  'a time since an event': 10,
  'an event that restarts': 4,
  'a tolerance': 15,
  'a level of a store': 15,
  'a store that a mode sets': 8,
  'no delay': 30,
  'a change at the time of an input': 20,
};

test(
  'the exact replay agrees with an interpreter that goes from second to second, and with the oracle',
  () => {
    const judged = { whole: 0, endless: 0, changes: 0 };
    const seen = new Map<string, number>();
    fc.assert(
      fc.property(content, (made) => {
        const { panel, timeline } = written(made);
        const text = `\n${panel}${timeline}`;
        const { compiled, reported } = tryTime(panel, timeline);
        expect(
          reported.filter((each) => !/^SL(413|432)/.test(each)),
          text,
        ).toEqual([]);
        // Rounds without delay are refused before any timeline is replayed.
        if (!compiled) return;
        const course = courseOf(compiled, 'one');
        const slow = runSlowly(made);
        const fault = course.faults.find(({ kind }) => kind === 'endless');
        expect(fault && Number(decimalText(fault.at).text), text).toBe(slow.endless);
        const before = slow.changes.filter(
          (each) => slow.endless === undefined || Number.parseInt(each, 10) < slow.endless,
        );
        expect(changesOf(course), text).toEqual(before);
        judged.changes += before.length;
        judged[fault ? 'endless' : 'whole'] += 1;
        const byOracle = (): string[] =>
          replay(oracleOf(timeFiles(panel, timeline)), 'one').movements.map(
            ({ at, sequence, from, to }) => `${at} ${sequence}: ${from} > ${to}`,
          );
        if (fault) expect(byOracle, text).toThrow(/never comes to rest|too many moments/);
        else expect(byOracle(), text).toEqual(before);
        const times = new Set(made.inputs.map(({ at }) => String(at)));
        const kinds = new Set(slow.taken.flatMap((each) => kindsOf(each, made.sets)));
        if (before.some((each) => times.has(each.split(' ')[0] ?? ''))) kinds.add('a change at the time of an input');
        for (const kind of kinds) seen.set(kind, (seen.get(kind) ?? 0) + 1);
        // The drawn rows say the same.
        for (const row of course.rows) {
          if (row.kind !== 'sequence') throw new Error('a row of another kind');
          for (const [second, modes] of slow.modes.entries()) {
            const span = row.spans.findLast(({ from }) => Number(decimalText(from).text) <= second);
            expect(span?.value, text).toBe(modes[row.sequence.id]);
          }
        }
      }),
      { numRuns: TIMELINES, seed: 20_261_501 },
    );
    // Enough was really compared.
    expect(judged.whole / TIMELINES).toBeGreaterThan(0.4);
    expect(judged.changes / TIMELINES).toBeGreaterThan(2);
    for (const [kind, least] of Object.entries(LEAST))
      expect((100 * (seen.get(kind) ?? 0)) / TIMELINES, kind).toBeGreaterThan(least);
  },
  PATIENCE,
);

function kindsOf(transition: SlowTransition, sets: Readonly<Record<string, number>>): (keyof typeof LEAST)[] {
  const { to, when, holdsFor, after, since, tolerance } = transition;
  const waits = holdsFor !== undefined || after !== undefined || since !== undefined;
  return [
    ...(holdsFor === undefined ? [] : (['a time held'] as const)),
    ...(after === undefined ? [] : (['a time in the mode'] as const)),
    ...(since ? (['a time since an event'] as const) : []),
    ...(since?.restarts ? (['an event that restarts'] as const) : []),
    ...(waits ? [] : (['no delay'] as const)),
    ...(waits && tolerance !== undefined ? (['a tolerance'] as const) : []),
    ...(when?.text.includes('tank') ? (['a level of a store'] as const) : []),
    ...(sets[to] === undefined ? [] : (['a store that a mode sets'] as const)),
  ];
}
