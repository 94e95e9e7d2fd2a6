import { describe, expect, test } from 'vitest';
import { compares, isStep, representatives, scaled, sum, unscaled } from './decimal.ts';

describe('decimals', () => {
  test('tenths compare exactly where floats would not', () => {
    expect(0.1 + 0.2 <= 0.3).toBe(false);
    expect(compares('0.3', '<=', '0.30')).toBe(true);
    expect(compares('-0.5', '<', '-0.45')).toBe(true);
    expect(compares('9', '<', '10')).toBe(true);
  });

  test.each(['0.0', '-0.5', '88.5', '-12.0', '100.0'])('%s survives scaling', (text) => {
    expect(unscaled(scaled(text, 1), 1)).toBe(text);
  });

  test('a tolerance is added and taken away exactly', () => {
    expect([sum('0.1', '0.25'), sum('-1', '0.5'), sum('10', '0.5', -1)]).toEqual(['0.35', '-0.5', '9.5']);
  });

  test.each([
    ['0.5', true],
    ['2.50', true],
    ['0', false],
    ['3.0', false],
    ['9.5', true],
    ['10.5', false],
  ])('%s being a step of 1 from 0.5 to 9.5 is %s', (value, expected) => {
    expect(isStep({ from: '0.5', to: '9.5', step: '1' }, value)).toBe(expected);
  });

  test('a number with few steps is tried at each', () => {
    expect(representatives({ from: '0', to: '2', step: '0.5' }, ['1'])).toEqual(['0.0', '0.5', '1.0', '1.5', '2.0']);
  });

  test('a number with many steps is tried at its ends and around its thresholds', () => {
    const speeds = representatives({ from: '0', to: '400', step: '1' }, ['240', '0']);
    expect(speeds).toEqual(['0', '1', '2', '239', '240', '241', '242', '400']);
  });

  test('a threshold between two steps is tried on both sides', () => {
    expect(representatives({ from: '10', to: '410', step: '2' }, ['240.5'])).toContain('240');
    expect(representatives({ from: '10', to: '410', step: '2' }, ['240.5'])).toContain('242');
  });
});
