import { describe, expect, it } from 'vitest';
import { effectivityText, type Holder, holdersText } from '../../src/compile/index.ts';
import type { Fleet } from '../../src/model/index.ts';
import { filesOf, read } from '../model/small-content.ts';

/** A fleet of these registrations in order; those that start with FTD are devices. */
function fleetOf(registrations: readonly string[]): Fleet {
  const lines = registrations.map((name, at) => {
    const kind = name.startsWith('FTD') ? 'device' : '';
    return `${101 + at},${name},2020-01-01,,${kind},manual\n`;
  });
  const table = `serial,registration,from,to,kind,lamp-control\n${lines.join('')}`;
  const { fleet, reported } = read(filesOf({ 'aircraft.csv': table, 'notes/about/lamp.md': undefined }));
  if (!fleet) throw new Error(`no fleet: ${JSON.stringify(reported)}`);
  return fleet;
}

const text = (fleet: Fleet, registrations: readonly string[]): string =>
  effectivityText(
    fleet,
    fleet.aircraft.filter(({ registration }) => registrations.includes(registration)),
  );

describe('which aircraft something holds for', () => {
  const plain = fleetOf(['QQ-OAA', 'QQ-OAB', 'QQ-OAC', 'QQ-OAD', 'QQ-OAE']);
  it.each([
    [['QQ-OAA', 'QQ-OAB', 'QQ-OAC', 'QQ-OAD', 'QQ-OAE'], 'the whole fleet'],
    [['QQ-OAC'], 'QQ-OAC'],
    [['QQ-OAA', 'QQ-OAB'], 'QQ-OAA and QQ-OAB, 2 aircraft'],
    [['QQ-OAA', 'QQ-OAB', 'QQ-OAC', 'QQ-OAE'], 'QQ-OAA to QQ-OAC and QQ-OAE, 4 aircraft'],
  ])('of a fleet without devices: %j is %j', (wanted, words) => {
    expect(text(plain, wanted)).toBe(words);
  });

  // A device stands between two aircraft that follow each other.
  const mixed = fleetOf(['QQ-OAA', 'QQ-OAB', 'FTD-1', 'QQ-OAC', 'QQ-OAD', 'FTD-2']);
  const flying = ['QQ-OAA', 'QQ-OAB', 'QQ-OAC', 'QQ-OAD'];
  it.each([
    [[...flying, 'FTD-1', 'FTD-2'], 'the whole fleet'],
    [flying, 'all aircraft, but no training device'],
    [[...flying, 'FTD-2'], 'all aircraft and the training device FTD-2'],
    [['QQ-OAA', 'QQ-OAB', 'QQ-OAC'], 'QQ-OAA to QQ-OAC, 3 aircraft'],
    [['QQ-OAA', 'QQ-OAB', 'QQ-OAC', 'FTD-1'], 'QQ-OAA to QQ-OAC, 3 aircraft, and the training device FTD-1'],
    [['QQ-OAB', 'FTD-2', 'FTD-1'], 'QQ-OAB and the training devices FTD-1 and FTD-2'],
    [['FTD-1'], 'the training device FTD-1'],
    [['FTD-1', 'FTD-2'], 'the training devices FTD-1 and FTD-2'],
  ])('of a fleet with two devices: %j is %j', (wanted, words) => {
    expect(text(mixed, wanted)).toBe(words);
  });

  it('names the only aircraft beside a device', () => {
    expect(text(fleetOf(['QQ-OAA', 'FTD-1']), ['QQ-OAA'])).toBe('QQ-OAA');
  });
});

describe('which aircraft something holds for, with dates', () => {
  const fleet = fleetOf(['QQ-OAA', 'QQ-OAB', 'QQ-OAC', 'QQ-OAD', 'QQ-OAE']);
  const holders = (of: Readonly<Record<string, Omit<Holder, 'aircraft'>>>): Holder[] =>
    fleet.aircraft.flatMap((aircraft) => {
      const time = of[aircraft.registration];
      return time ? [{ aircraft, ...time }] : [];
    });

  it('names those that are there throughout, then those that leave, then those that join, by date', () => {
    const some = holders({
      'QQ-OAA': { from: '2026-12-01' },
      'QQ-OAB': { until: '2026-11-30' },
      'QQ-OAC': {},
      'QQ-OAD': { from: '2026-12-01', until: '2027-01-31' },
      'QQ-OAE': {},
    });
    expect(holdersText(fleet, some)).toBe(
      'QQ-OAC and QQ-OAE, 2 aircraft; QQ-OAB until 2026-11-30; QQ-OAA from 2026-12-01; QQ-OAD from 2026-12-01 to 2027-01-31',
    );
  });

  it('sets the time of several apart from their number', () => {
    const some = holders({ 'QQ-OAA': { from: '2026-12-01' }, 'QQ-OAB': { from: '2026-12-01' } });
    expect(holdersText(fleet, some)).toBe('QQ-OAA and QQ-OAB, 2 aircraft, from 2026-12-01');
  });

  it('is the whole fleet only where every aircraft is there throughout', () => {
    const throughout = { 'QQ-OAA': {}, 'QQ-OAB': {}, 'QQ-OAC': {}, 'QQ-OAD': {}, 'QQ-OAE': {} };
    expect(holdersText(fleet, holders(throughout))).toBe('the whole fleet');
    expect(holdersText(fleet, holders({ ...throughout, 'QQ-OAE': { until: '2026-11-30' } }))).toBe(
      'QQ-OAA to QQ-OAD, 4 aircraft; QQ-OAE until 2026-11-30',
    );
  });
});
