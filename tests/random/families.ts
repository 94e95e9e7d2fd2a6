/** The random families of one shard, judged: vitest runs the files of the shards beside each other. */
import { describe, expect, it } from 'vitest';
import { FAMILIES, PATIENCE, shardOf } from '../helpers/trials.ts';
import type { Complaint, Kind } from './complaint.ts';
import { judgeFamily, type Seen } from './judge-family.ts';
import { randomFamily } from './random-family.ts';
import { complaintOf, reportOf } from './report.ts';

export const SHARDS = 2;
const FIRST_SEED = 20_261_201;

/** Of a hundred families, how many at least have something of a kind. */
const LEAST: Readonly<Record<Kind, number>> = {
  'a case that never happens': 40,
  'may be either': 10,
  'an absent control': 8,
  'an abnormal position': 8,
  'an override that decides': 25,
  'a table of three rows': 40,
  'unlike groups': 50,
  'depends on what is unknown': 5,
  'not stated': 4,
  'a latch': 10,
  'a claim that holds': 8,
  'a claim that fails': 40,
  'an empty premise': 4,
};

export function judgeShard(shard: number): void {
  describe(`random families, shard ${shard + 1} of ${SHARDS}`, () => {
    const numbers = shardOf(FAMILIES, shard, SHARDS).map((at) => FIRST_SEED + at);
    const seen: Seen[] = [];

    it(
      'are in all that is compiled what the oracle says',
      async () => {
        for (const number of numbers) {
          const family = randomFamily(number);
          let complaint: Complaint | undefined;
          try {
            const judged = judgeFamily(family);
            complaint = judged.complaint;
            seen.push(judged.seen);
          } catch {
            complaint = complaintOf(family);
          }
          if (complaint) expect.fail(await reportOf(`family ${number}`, family, complaint));
        }
      },
      PATIENCE,
    );

    it('are varied enough to show something', () => {
      const shareOf = (holds: (one: Seen) => boolean): number => (100 * seen.filter(holds).length) / numbers.length;
      const sum = (count: (one: Seen) => number): number => seen.reduce((total, one) => total + count(one), 0);
      expect(seen.flatMap(({ others }) => others)).toEqual([]);
      expect(shareOf(({ sound }) => sound)).toBeGreaterThan(80);
      for (const [kind, least] of Object.entries(LEAST))
        expect(
          shareOf(({ kinds }) => kinds.has(kind as Kind)),
          kind,
        ).toBeGreaterThan(least);
      expect(sum(({ cases }) => cases) / numbers.length).toBeGreaterThan(30);
      expect(sum(({ differences }) => differences) / numbers.length).toBeGreaterThan(1);
      expect(sum(({ reasons }) => reasons) / numbers.length).toBeGreaterThan(8);
    });
  });
}
