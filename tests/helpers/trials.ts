/** How much is tried at random: little in every run, far more with `npm run test:long`. All counts are taken from here. */

/** Whether the run is the long one: `vitest run --mode long`. */
export const isLong = import.meta.env['MODE'] === 'long';

/** How many random trials to make. */
export function trials(each: { readonly short: number; readonly long: number }): number {
  return isLong ? each.long : each.short;
}

/** Random families of content, in all shards together. */
export const FAMILIES = trials({ short: 500, long: 20_000 });
/** Families of which every table is proved by the solver. */
export const PROVED = trials({ short: 120, long: 1_000 });
/** Random sequences without delays, each on one random course of inputs. */
export const UNTIMED = trials({ short: 200, long: 5_000 });
/** Random sequences with delays and stores, each on one random timeline. */
export const TIMELINES = trials({ short: 400, long: 10_000 });

/** Seeds of practice sheets of which every question is judged. */
export const SEEDS = trials({ short: 5, long: 2_000 });

/** Milliseconds for one test that makes its share of the trials. */
export const PATIENCE = trials({ short: 240_000, long: 6 * 3_600_000 });

/** The share of 0 to `count` - 1 that one shard of several takes. */
export function shardOf(count: number, shard: number, shards: number): number[] {
  return Array.from({ length: count }, (_, at) => at).filter((at) => at % shards === shard);
}
