import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Expression } from '../../src/language/index.ts';
import type { Option } from '../../src/model/index.ts';
import { holdsOnFit, possibleFit } from '../../src/model/possible-fits.ts';

const place = { file: { path: 'x', text: '' }, start: 0, end: 0 };
const OPTIONS: readonly Option[] = ['a', 'b', 'c', 'd'].map((id) => ({
  id,
  title: id,
  values: ['0', '1', '2'].map((value) => ({ id: value, title: value, place })),
  place,
}));

const atom: fc.Arbitrary<Expression> = fc
  .record({
    id: fc.constantFrom(...OPTIONS.map(({ id }) => id)),
    values: fc.subarray(['0', '1', '2'], { minLength: 1 }),
  })
  .map(({ id, values }) => ({ op: 'among', of: { kind: 'option', id }, values, place }));
const { expression } = fc.letrec<{ expression: Expression }>((tie) => ({
  expression: fc.oneof(
    { depthSize: 'small' },
    atom,
    fc.boolean().map((value): Expression => ({ op: 'constant', value, place })),
    tie('expression').map((arg): Expression => ({ op: 'not', arg, place })),
    fc
      .tuple(fc.constantFrom('and', 'or'), fc.array(tie('expression'), { minLength: 1, maxLength: 3 }))
      .map(([op, args]): Expression => ({ op, args, place })),
    fc
      .tuple(tie('expression'), tie('expression'))
      .map(([premise, conclusion]): Expression => ({ op: 'implies', premise, conclusion, place })),
  ),
}));
const fit = fc
  .tuple(...OPTIONS.map(() => fc.constantFrom('0', '1', '2', 'unknown', 'unknown')))
  .map((values) => new Map(OPTIONS.map(({ id }, at) => [id, values[at] as string])));

/** Every way to settle the unknown options. */
function settled(values: ReadonlyMap<string, string>): ReadonlyMap<string, string>[] {
  return OPTIONS.reduce(
    (found, { id }) =>
      values.get(id) === 'unknown'
        ? found.flatMap((each) => ['0', '1', '2'].map((value) => new Map([...each, [id, value]])))
        : found,
    [values],
  );
}

describe('fits with unknown options', () => {
  it('are decided only as all the fits are that they may be', () => {
    fc.assert(
      fc.property(expression, fit, (one, values) => {
        const truths = new Set(settled(values).map((each) => holdsOnFit(one, each)));
        const certain = holdsOnFit(one, values);
        expect(truths.has(undefined)).toBe(false);
        if (certain !== undefined) expect([...truths]).toEqual([certain]);
      }),
    );
  });

  it('may be something exactly where trying everything finds it', () => {
    fc.assert(
      fc.property(fc.array(expression, { maxLength: 4 }), fit, (all, values) => {
        const tried = settled(values).filter((each) => all.every((one) => holdsOnFit(one, each)));
        const found = possibleFit(values, OPTIONS, all);
        expect(found !== undefined).toBe(tried.length > 0);
        // Whatever it leaves unknown may be anything.
        if (found) for (const each of settled(found)) expect(all.every((one) => holdsOnFit(one, each))).toBe(true);
      }),
    );
  });
});
