/**
 * Routing between two rows: which horizontal tracks the lines take. A *net* is a set of lines that are joined: those that
 * leave one vertex, or those that lead to one. It comes down from its tops, runs along its track, and goes down to its
 * bottoms. Two nets never lie on one another: nets that overlap take different tracks, and where a bottom of one stands
 * under a top of the other, the other's track is the upper one (the classic channel of circuit boards; A. Hashimoto,
 * J. Stevens, "Wire routing by optimizing channel assignment within large apertures", 8th Design Automation Workshop, 1971).
 */

export interface Net {
  readonly tops: readonly number[];
  readonly bottoms: readonly number[];
}
export interface Track {
  /** 0 is the uppermost. */
  readonly level: number;
  /** Set where a net has to change its track: it goes on from here along `level`. */
  readonly change?: { readonly x: number; readonly level: number };
}
export interface Channel {
  /** One for each net, in order; undefined for a net that goes straight down. */
  readonly tracks: readonly (Track | undefined)[];
  readonly levels: number;
}

/** Lines nearer than this would read as one. */
const CLOSE = 7;

/** A net's part on one track: all of it, or the upper or lower of two that are joined at the column of the change. */
interface Run {
  readonly net: number;
  readonly lower: boolean;
  readonly tops: readonly number[];
  readonly bottoms: readonly number[];
  readonly from: number;
  readonly to: number;
}

export function assignTracks(nets: readonly Net[]): Channel {
  let runs = nets.flatMap((net, i) => (isStraight(net) ? [] : [run(i, net)]));
  const changes = new Map<number, number>();
  let order = topDown(runs);
  while (order === undefined) {
    // The nets stand over one another in a circle: one of them changes its track beside all the others.
    const split = runs.find((candidate) => !changes.has(candidate.net) && isOnCircle(candidate, runs)) as Run;
    const x = freeColumn(nets, [...changes.values()]);
    changes.set(split.net, x);
    const parts = [
      run(split.net, { tops: split.tops, bottoms: [] }, x),
      run(split.net, { tops: [], bottoms: split.bottoms }, x),
    ];
    runs = runs.flatMap((other) => (other === split ? parts : [other]));
    order = topDown(runs);
  }

  const levelOf = new Map<Run, number>();
  for (const current of order) {
    const above = [...levelOf].filter(([other]) => overlap(current, other) || mustBeAbove(other, current));
    levelOf.set(current, 1 + Math.max(-1, ...above.map(([, level]) => level)));
  }
  const tracks = nets.map((_, i): Track | undefined => {
    const [first, second] = runs.filter(({ net }) => net === i).map((part) => levelOf.get(part) as number);
    if (first === undefined) return undefined;
    return second === undefined
      ? { level: first }
      : { level: first, change: { x: changes.get(i) as number, level: second } };
  });
  return { tracks, levels: 1 + Math.max(-1, ...levelOf.values()) };
}

function run(net: number, { tops, bottoms }: Net, ...change: number[]): Run {
  const all = [...tops, ...bottoms, ...change];
  return { net, lower: tops.length === 0, tops, bottoms, from: Math.min(...all), to: Math.max(...all) };
}

function isStraight({ tops, bottoms }: Net): boolean {
  return [...tops, ...bottoms].every((x) => x === tops[0]);
}

function overlap(a: Run, b: Run): boolean {
  return a.from < b.to + CLOSE && b.from < a.to + CLOSE;
}

/** Whether a line comes down to `a` where one goes down from `b`, or `a` and `b` are the upper and the lower part of one net. */
function mustBeAbove(a: Run, b: Run): boolean {
  if (a.net === b.net) return b.lower && !a.lower;
  return a.tops.some((top) => b.bottoms.some((bottom) => Math.abs(top - bottom) < CLOSE));
}

/** A column to the right of all pins and of other changes. */
function freeColumn(nets: readonly Net[], taken: readonly number[]): number {
  return Math.max(...nets.flatMap(({ tops, bottoms }) => [...tops, ...bottoms]), ...taken) + 2 * CLOSE;
}

function isOnCircle(start: Run, runs: readonly Run[]): boolean {
  const seen = new Set<Run>();
  const open = runs.filter((other) => mustBeAbove(start, other));
  for (let current = open.pop(); current !== undefined; current = open.pop()) {
    if (current === start) return true;
    if (seen.has(current)) continue;
    seen.add(current);
    for (const other of runs) if (mustBeAbove(current, other)) open.push(other);
  }
  return false;
}

/** The runs from the top, those first that cross least where either way is possible; undefined if they form a circle. */
function topDown(runs: readonly Run[]): Run[] | undefined {
  const left = [...runs];
  const order: Run[] = [];
  while (left.length > 0) {
    const free = left.filter((candidate) => !left.some((other) => mustBeAbove(other, candidate)));
    const cost = (candidate: Run): number =>
      left.reduce(
        (sum, other) =>
          other === candidate ? sum : sum + crossingsOver(candidate, other) - crossingsOver(other, candidate),
        0,
      );
    const costs = free.map(cost);
    const next = free[costs.indexOf(Math.min(...costs))];
    if (next === undefined) return undefined;
    order.push(next);
    left.splice(left.indexOf(next), 1);
  }
  return order;
}

/** The crossings of two runs when `upper` has the upper track. */
function crossingsOver(upper: Run, lower: Run): number {
  const inside = (x: number, { from, to }: Run): boolean => from < x && x < to;
  return upper.bottoms.filter((x) => inside(x, lower)).length + lower.tops.filter((x) => inside(x, upper)).length;
}
