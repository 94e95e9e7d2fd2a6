import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assignTracks, type Net } from '../../src/figures/flow-tracks.ts';

describe('Tracks between two rows', () => {
  test('are not needed by lines that go straight down', () => {
    const channel = assignTracks([
      { tops: [10], bottoms: [10] },
      { tops: [40], bottoms: [40] },
    ]);
    expect(channel).toEqual({ tracks: [undefined, undefined], levels: 0 });
  });

  test('are shared by nets that stand apart', () => {
    const channel = assignTracks([
      { tops: [10], bottoms: [0, 30] },
      { tops: [90], bottoms: [60, 100] },
    ]);
    expect(channel).toEqual({ tracks: [{ level: 0 }, { level: 0 }], levels: 1 });
  });

  test('lie one above the other where a net ends under the start of another', () => {
    const channel = assignTracks([
      { tops: [0], bottoms: [50] },
      { tops: [50], bottoms: [100] },
    ]);
    expect(channel.tracks).toEqual([{ level: 1 }, { level: 0 }]);
  });

  test('are changed beside all others where two nets stand over one another both ways', () => {
    const { tracks, levels } = assignTracks([
      { tops: [0], bottoms: [50] },
      { tops: [50], bottoms: [0] },
    ]);
    expect(tracks[0]?.change?.x).toBeGreaterThan(50);
    expect([tracks[0]?.level, tracks[1]?.level, tracks[0]?.change?.level]).toEqual([0, 1, 2]);
    expect(levels).toBe(3);
  });

  test('never put two nets on one another, however they stand', () => {
    // Pins of one row stand at least 12 apart, as neighbours in a drawing do.
    const places = fc.uniqueArray(fc.integer({ min: 0, max: 12 }), { minLength: 1, maxLength: 13 });
    const nets = fc.tuple(places, places, fc.integer({ min: 1, max: 6 })).map(([tops, bottoms, count]): Net[] =>
      Array.from({ length: count }, (_, net) => ({
        tops: tops.filter((_, i) => i % count === net).map((place) => 12 * place),
        bottoms: bottoms.filter((_, i) => i % count === net).map((place) => 12 * place),
      })).filter((net) => net.tops.length > 0 && net.bottoms.length > 0),
    );
    fc.assert(
      fc.property(nets, (all) => {
        const { tracks, levels } = assignTracks(all);
        const lines = all.map((net, i) => linesOf(net, tracks[i], levels));
        lines.forEach((one, i) => {
          for (const other of lines.slice(i + 1)) {
            for (const a of one) for (const b of other) expect(lieOnOneAnother(a, b)).toBe(false);
          }
        });
      }),
      { numRuns: 500 },
    );
  });
});

interface Line {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

/** The lines of a net between a row at -1 and a row at `levels`. */
function linesOf(
  { tops, bottoms }: Net,
  track: ReturnType<typeof assignTracks>['tracks'][number],
  levels: number,
): Line[] {
  if (track === undefined) return [{ x: [tops[0] as number, tops[0] as number], y: [-1, levels] }];
  const { level, change } = track;
  const lower = change?.level ?? level;
  const across = (pins: readonly number[], y: number): Line => ({
    x: [Math.min(...pins), Math.max(...pins)],
    y: [y, y],
  });
  const down = (x: number, from: number, to: number): Line => ({ x: [x, x], y: [from, to] });
  const joint = change === undefined ? bottoms : [change.x];
  return [
    ...tops.map((x) => down(x, -1, level)),
    across([...tops, ...joint], level),
    ...(change === undefined ? [] : [down(change.x, level, lower), across([change.x, ...bottoms], lower)]),
    ...bottoms.map((x) => down(x, lower, levels)),
  ];
}

/** Whether two lines have more than a crossing in common. */
function lieOnOneAnother(a: Line, b: Line): boolean {
  const shared = (m: readonly [number, number], n: readonly [number, number]): number =>
    Math.min(m[1], n[1]) - Math.max(m[0], n[0]);
  const [x, y] = [shared(a.x, b.x), shared(a.y, b.y)];
  const parallel = (a.x[0] === a.x[1]) === (b.x[0] === b.x[1]);
  return parallel && x >= 0 && y >= 0;
}
