import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Expression, type FitFacts, print, type Reference, unguardedReads } from '../../src/language/index.ts';
import { expressions, readGuardText, soundExpression } from '../helpers/expressions.ts';

/** A fit with these option values, fitted things ("logo", "logo.AUTO") and signals. */
interface Fit {
  readonly options: Readonly<Record<string, string>>;
  readonly fitted: ReadonlySet<string>;
  readonly signals: Readonly<Record<string, Expression>>;
}

function facts({ options, fitted, signals }: Fit): FitFacts {
  return {
    option: (id) => options[id] ?? '',
    fitted: ({ id }, position) => fitted.has(id) && (position === undefined || fitted.has(`${id}.${position}`)),
    signal: (id) => signals[id],
  };
}

const fits: fc.Arbitrary<Fit> = fc
  .record({
    mount: fc.constantFrom('fixed', 'movable'),
    logic: fc.constantFrom('struts', 'slats', '2'),
    fitted: fc.subarray([
      'logo',
      'logo.AUTO',
      'logo.OFF',
      'dome',
      'beacon',
      'landing',
      'apu',
      'position-lights',
      'dc-essential',
    ]),
    ground: expressions.filter((expression) => !print(expression).match(/taxiing|on-ground/)),
    taxiing: expressions.filter((expression) => !print(expression).includes('taxiing')),
  })
  .map(({ mount, logic, fitted, ground, taxiing }) => ({
    options: { mount, logic },
    fitted: new Set(fitted),
    signals: { 'on-ground': ground, taxiing },
  }));

/** What a leaf is, as far as the fit says; `read` decides what is open. */
type Valuation = (
  leaf: Exclude<Expression, { op: 'and' | 'or' | 'not' | 'implies' | 'constant' | 'signal' }>,
) => number;

/** Kleene's strong three-valued logic with 0 for false, 1 for unknown and 2 for true, where `and` is the least. */
function kleene(expression: Expression, fit: Fit, valuation: Valuation): number {
  const value = (each: Expression): number => kleene(each, fit, valuation);
  switch (expression.op) {
    case 'constant':
      return expression.value ? 2 : 0;
    case 'and':
      return Math.min(...expression.args.map(value));
    case 'or':
      return Math.max(...expression.args.map(value));
    case 'not':
      return 2 - value(expression.arg);
    case 'implies':
      return Math.max(2 - value(expression.premise), value(expression.conclusion));
    case 'signal':
      return value(fit.signals[expression.id] as Expression);
    default:
      return valuation(expression);
  }
}

/** Options and fitted(...) are known, all else is unknown. */
function known(fit: Fit): Valuation {
  return (leaf) => {
    if (leaf.op === 'fitted') return facts(fit).fitted(leaf.of, leaf.position) ? 2 : 0;
    if (leaf.op === 'among' && leaf.of.kind === 'option')
      return leaf.values.includes(fit.options[leaf.of.id] ?? '') ? 2 : 0;
    return 1;
  };
}

/** Reads of missing things, such that each expression around them, outwards, is unknown on the fit. */
function naive(expression: Expression, fit: Fit): Reference[] {
  if (kleene(expression, fit, known(fit)) !== 1) return [];
  switch (expression.op) {
    case 'and':
    case 'or':
      return expression.args.flatMap((arg) => naive(arg, fit));
    case 'not':
      return naive(expression.arg, fit);
    case 'implies':
      return [...naive(expression.premise, fit), ...naive(expression.conclusion, fit)];
    case 'signal':
      return naive(fit.signals[expression.id] as Expression, fit);
    case 'among':
      return isMissing(expression.of, fit) ? [expression.of] : [];
    case 'lamps':
      return expression.args.slice(0, 1).flatMap((lamp) => naive(lamp, fit));
    default:
      return [];
  }
}

function isMissing({ kind, id }: Reference, fit: Fit): boolean {
  return kind !== 'option' && kind !== 'condition' && !fit.fitted.has(id);
}

test('the reads left over are those that a three-valued evaluation leaves open all the way out', () => {
  fc.assert(
    fc.property(expressions, fits, (expression, fit) => {
      expect(unguardedReads(expression, facts(fit)).map(({ reference }) => reference)).toEqual(naive(expression, fit));
    }),
    { numRuns: 1000 },
  );
});

test('an expression without unguarded reads does not depend on what is missing', () => {
  fc.assert(
    fc.property(expressions, fits, fc.infiniteStream(fc.boolean()), (expression, fit, coins) => {
      fc.pre(unguardedReads(expression, facts(fit)).length === 0);
      const settled = known(fit);
      // The same leaf may get several values: that is stronger than what could happen.
      const values = [...coins.take(200)];
      const evaluate = (missing: 0 | 2): number => {
        let next = 0;
        return kleene(expression, fit, (leaf) => {
          const coin = values[next++ % values.length] ? 2 : 0;
          const [read = leaf] = leaf.op === 'lamps' ? leaf.args : [];
          if (read.op === 'among' && isMissing(read.of, fit)) return missing;
          return settled(leaf) === 1 ? coin : settled(leaf);
        });
      };
      expect(evaluate(0)).toBe(evaluate(2));
    }),
    { numRuns: 1000 },
  );
});

describe('on an aircraft without the logo switch', () => {
  const fit = facts({
    options: { mount: 'fixed', logic: 'struts' },
    fitted: new Set(['dome', 'landing']),
    signals: {
      taxiing: soundExpression('logo is ON or logo is AUTO'),
      'on-ground': soundExpression('fitted(logo) and taxiing'),
    },
  });

  test.each<[text: string, ...words: string[]]>([
    ['logo is ON', 'logo is ON'],
    ['not (dome is 1) or logo is not ON', 'logo is not ON'],
    ['fitted(logo) and logo is ON'],
    ['fitted(logo) implies logo is ON'],
    ['not fitted(logo) or logo is ON'],
    ['fitted(logo) or logo is ON', 'logo is ON'],
    ['fitted(logo.AUTO) and logo is AUTO'],
    ['mount is movable and logo is ON'],
    ['mount is fixed and logo is ON', 'logo is ON'],
    ['mount is not fixed implies logo is ON'],
    ['gear is extended and logo is ON', 'logo is ON'],
    ['beacon is lit and landing.lamp is lit', 'beacon is lit'],
    ['dome is 1 and taxiing', 'taxiing', 'taxiing'],
    ['lamp-check is held', 'lamp-check is held'],
    ['apu is running or cabin-high', 'apu is running'],
    ['fitted(apu) and apu is running'],
    ['position-lights.left is failed', 'position-lights.left is failed'],
    ['any lamp of position-lights is failed', 'any lamp of position-lights is failed'],
    ['fitted(position-lights) and at least 2 lamps of position-lights are lit'],
    ['on-ground'],
    ['not on-ground or logo is ON'],
    ['(fitted(dome) and fitted(landing)) or logo is ON'],
    ['(fitted(beacon) or fitted(apu)) and logo is ON'],
  ])('%s', (text, ...words) => {
    const places = unguardedReads(soundExpression(text), fit).map(({ place }) => text.slice(place.start, place.end));
    expect(places).toEqual(words);
  });

  test('a store is there on every aircraft', () => {
    const { guard } = readGuardText('start-battery < 3 min or logo is ON');
    expect(guard && unguardedReads(guard.when, fit).map(({ reference }) => reference.id)).toEqual(['logo']);
  });
});
