import { describe, expect, it } from 'vitest';
import { Diagrams, type DiagramsOptions, LimitError, type Node } from '../../src/logic/index.ts';

const PAIRS = 12;

/** First all of one side, then all of the other: the pairs cannot be told before the end (Bryant 1986, section 3). */
function pairs(options: DiagramsOptions = {}): Diagrams {
  const variables = Array.from({ length: 2 * PAIRS }, (_, at) => ({ id: `v${at}`, size: 2, ordered: false }));
  return new Diagrams(variables, options);
}

/** Holds where a variable of one side and its fellow are both 1, for one of the first `count` pairs. */
function matched(diagrams: Diagrams, count = PAIRS): Node {
  const both = Array.from({ length: count }, (_, at) =>
    diagrams.and(diagrams.literal(at, [1]), diagrams.literal(PAIRS + at, [1])),
  );
  return diagrams.or(...both);
}

function caught(work: () => unknown): LimitError {
  try {
    work();
  } catch (error) {
    if (error instanceof LimitError) return error;
    throw error;
  }
  throw new Error('no limit was met');
}

describe('the limits of a manager', () => {
  it('are met by a bad order and not by a good one', () => {
    const order = Array.from({ length: 2 * PAIRS }, (_, at) => (at % 2 === 0 ? at / 2 : PAIRS + (at - 1) / 2));
    // 2n + 2 nodes against 2^(n + 1): Bryant 1986, section 3, figure 4.
    const [bad, good] = [pairs(), pairs({ order })];
    expect(bad.size(matched(bad))).toBe(2 ** (PAIRS + 1));
    expect(good.size(matched(good))).toBe(2 * PAIRS + 2);
    expect(() => matched(pairs({ nodeLimit: 5000 }))).toThrow(LimitError);
    expect(() => matched(pairs({ order, nodeLimit: 5000 }))).not.toThrow();
  });

  it('stop at the very step, and at the same one each time', () => {
    const whole = pairs();
    matched(whole);
    const steps = whole.work.applyCalls;
    expect(() => matched(pairs({ stepLimit: steps }))).not.toThrow();
    const [first, second] = [pairs({ stepLimit: steps - 1 }), pairs({ stepLimit: steps - 1 })];
    const error = caught(() => matched(first));
    expect([error.resource, error.limit, error.whole]).toEqual(['steps', steps - 1, true]);
    expect(String(error)).toBe(`LimitError: the diagrams need more than ${steps - 1} steps`);
    caught(() => matched(second));
    expect(first.work).toEqual(second.work);
  });

  it('end the work when its time is over, by the clock that is given', () => {
    let looks = 0;
    const now = (): number => 1000 * looks++;
    const late = pairs({ timeLimit: { seconds: 2, now } });
    const error = caught(() => {
      for (let count = 1; ; count += 1)
        late.apply(`${count}`, matched(late), matched(late, 6), (a, b) => a * b + count);
    });
    expect([error.resource, error.limit, error.whole]).toEqual(['seconds', 2, true]);
    // One look at the start, two in time, one too late: each after many steps.
    expect(looks).toBe(4);
    expect(late.work.applyCalls).toBe(3 * 2 ** 16);
  });

  it('stop at the very step too where the clock is looked at just before', () => {
    let looks = 0;
    const now = (): number => looks++;
    const limit = 2 ** 16;
    const diagrams = pairs({ stepLimit: limit, timeLimit: { seconds: 1, now } });
    const error = caught(() => {
      for (let count = 1; ; count += 1) diagrams.apply(`${count}`, matched(diagrams), matched(diagrams, 6), Math.max);
    });
    expect([error.resource, error.limit]).toEqual(['steps', limit]);
    expect(diagrams.work.applyCalls).toBe(limit + 1);
    expect(looks).toBe(2);
  });

  it('leave a manager behind that goes on to answer', () => {
    const diagrams = pairs({ nodeLimit: 2000 });
    const [lit, dark] = [diagrams.literal(0, [1]), diagrams.literal(0, [0])];
    caught(() => matched(diagrams));
    diagrams.assertConsistent();
    expect(diagrams.and(lit, dark)).toBe(diagrams.no);
    expect(diagrams.or(lit, dark)).toBe(diagrams.yes);
  });
});

describe('a share of the limits', () => {
  it('ends one piece of work and leaves the rest to the others', () => {
    const diagrams = pairs();
    const small = { nodes: 500, steps: 1_000_000 };
    const error = caught(() => diagrams.within(small, () => matched(diagrams)));
    expect([error.resource, error.limit, error.whole]).toEqual(['nodes', 500, false]);
    expect(diagrams.within(small, () => diagrams.size(matched(diagrams, 3)))).toBe(2 ** 4);
    expect(diagrams.size(matched(diagrams))).toBe(2 ** (PAIRS + 1));
    const other = pairs();
    const steps = caught(() => other.within({ nodes: 10_000, steps: 50 }, () => matched(other)));
    expect([steps.resource, steps.limit, steps.whole]).toEqual(['steps', 50, false]);
  });

  it('is not used up by a piece of work within it', () => {
    const diagrams = pairs();
    const before = diagrams.nodeCount;
    const share = { nodes: 600, steps: 1_000_000 };
    diagrams.within(share, () => {
      diagrams.within({ nodes: 5000, steps: 1_000_000 }, () => matched(diagrams, 10));
      expect(diagrams.nodeCount - before).toBeGreaterThan(600);
      caught(() => diagrams.within({ nodes: 1, steps: 1_000_000 }, () => matched(diagrams, 11)));
      diagrams.and(diagrams.literal(0, [0]), diagrams.literal(1, [0]));
    });
    expect(caught(() => diagrams.within(share, () => matched(diagrams))).limit).toBe(600);
  });

  it('has as much left after a piece of work within it as before', () => {
    const used = ({ nodeCount, work }: Diagrams) => ({ nodes: nodeCount, steps: work.applyCalls });
    for (const [resource, share, most] of [
      ['nodes', { nodes: 400, steps: 1_000_000 }, 400],
      // The step beyond the limit is counted too.
      ['steps', { nodes: 5000, steps: 1000 }, 1001],
    ] as const) {
      const diagrams = pairs();
      let within = 0;
      const start = used(diagrams)[resource];
      const error = caught(() =>
        diagrams.within(share, () => {
          matched(diagrams, 5);
          const before = used(diagrams)[resource];
          expect(before).toBeGreaterThan(start);
          diagrams.within({ nodes: 5000, steps: 1_000_000 }, () => matched(diagrams, 10));
          within = used(diagrams)[resource] - before;
          matched(diagrams);
        }),
      );
      expect([error.resource, error.whole]).toEqual([resource, false]);
      expect(used(diagrams)[resource] - start - within).toBe(most);
    }
  });

  it('is never more than is left of the whole, whose limits hold after it too', () => {
    const large = { nodes: 5000, steps: 1_000_000 };
    const error = caught(() => {
      const diagrams = pairs({ nodeLimit: 3000 });
      diagrams.within(large, () => matched(diagrams));
    });
    expect([error.limit, error.whole]).toEqual([3000, true]);
    for (const limits of [{ nodeLimit: 3000 }, { stepLimit: 3000 }]) {
      const diagrams = pairs(limits);
      diagrams.within(large, () => matched(diagrams, 3));
      const later = caught(() => matched(diagrams));
      expect([later.limit, later.whole]).toEqual([3000, true]);
    }
  });
});
