/** What is known to change stands in the book with its date. */
import { describe, expect, it } from 'vitest';
import { pageAt, seen } from './every-kind.ts';

describe('the page of an aircraft', () => {
  it('says what is known to change, from when, and which document orders it', () => {
    const { changes } = pageAt('aircraft', 'aircraft/1002.html');
    expect(
      changes.map(({ date, what, before, after, document }) => [date, seen(what), before, after, seen(document ?? [])]),
    ).toEqual([
      ['2026-12-01', '<Corner fit>', 'Switch', 'Selector', '<Corner selector order, revision 1>'],
      ['2027-02-01', 'Registration', 'QQ-AAB', 'QQ-AAX', ''],
    ]);
  });

  it('says how each later fit differs from the one of the date of the book', () => {
    const { later, asOf } = pageAt('aircraft', 'aircraft/1002.html');
    expect(asOf).toBe('2026-10-01');
    expect(later.map(({ title }) => title)).toEqual(['From 2026-12-01']);
    const [from] = later;
    expect(
      from?.differences
        .flatMap(({ looks }) => looks)
        .map(({ control, here, baseline }) => [control.title, seen(here), seen(baseline)]),
    ).toEqual([
      ['Logo switch', 'Not fitted', 'Two positions: [OFF], [ON]'],
      ['Logo selector', 'Three positions: [0], [1], [2]', 'Not fitted'],
    ]);
    expect(from?.differences.flatMap(({ differences }) => differences)).toEqual([]);
    const lone = from?.differences.flatMap((panel) => panel.lone);
    expect(lone?.map(({ title, verdict }) => [seen(title), verdict])).toEqual([
      ['With the logo selector at [2]', 'Only possible on QQ-AAB from 2026-12-01'],
    ]);
    expect(lone?.[0]?.says.map(({ words }) => seen(words))).toEqual([
      'The logo lights and the logo annunciator are lit.',
    ]);
  });

  it('says another legend where nothing else changes', () => {
    const [from] = pageAt('aircraft', 'aircraft/1005.html').later;
    expect(from?.differences.map((panel) => [panel.notFitted, panel.lone, panel.differences])).toEqual([[[], [], []]]);
    expect(
      from?.differences[0]?.looks.map(({ control, here, baseline }) => [control.title, seen(here), seen(baseline)]),
    ).toEqual([['Logo annunciator', '[LOGO BRT]', '[LOGO]']]);
  });

  it('says which value is unknown, and what it may be', () => {
    const { fit } = pageAt('aircraft', 'aircraft/1006.html');
    expect(fit.map(({ option, value }) => `${option.title}: ${value}`)).toEqual([
      'Corner fit: unknown (Switch, Selector or Blank)',
      'Legend style: Plain',
      'Turn-off light kit: Absent',
    ]);
  });

  it('says that it is a training device', () => {
    expect(pageAt('aircraft', 'aircraft/S1.html').device).toBe(true);
    expect(pageAt('aircraft', 'aircraft/1001.html').device).toBe(false);
    const home = pageAt('home', 'index.html');
    expect(home.devices.map(({ title }) => title)).toEqual(['Trainer One']);
    expect(home.aircraft.map(({ title }) => title)).not.toContain('Trainer One');
  });
});

describe('the page of differences', () => {
  const { groups } = pageAt('differences', 'differences.html');

  it('lists later fits with their dates and unknown ones, each at an anchor of its own, and none that an aircraft only may be', () => {
    expect(groups.map(({ id, effectivity }) => [id, effectivity.text])).toEqual([
      ['fit-1003', 'QQ-AAC; QQ-AAB from 2026-12-01'],
      ['fit-1004', 'QQ-AAD'],
      ['fit-1005', 'QQ-AAE until 2027-01-14'],
      ['fit-1006', 'QQ-AAF'],
      ['fit-1001-2027-03-01', 'QQ-AAA from 2027-03-01'],
      ['fit-1005-2027-01-15', 'QQ-AAE from 2027-01-15'],
    ]);
  });
});

describe('the aircraft that something holds for', () => {
  it('are linked with the time that each has it', () => {
    const selector = pageAt('option', 'options/corner-fit.html').values.find(({ title }) => title === 'Selector');
    expect(selector?.effectivity.aircraft).toEqual([
      { registration: 'QQ-AAB', to: 'aircraft/1002.html', from: '2026-12-01', detail: 'from 2026-12-01' },
      { registration: 'QQ-AAC', to: 'aircraft/1003.html' },
    ]);
    expect(selector?.effectivity.whole).toBe(false);
  });

  it('have the unknown value in a line of its own', () => {
    const values = pageAt('option', 'options/corner-fit.html').values;
    expect(values.at(-1)?.title).toBe('Unknown (Switch, Selector or Blank)');
    expect(values.at(-1)?.effectivity.text).toBe('QQ-AAF');
  });

  it('may all come later; the anchor of their tables says when, where the first of them has other tables now', () => {
    const [lights] = pageAt('item', 'lights/turn-off-lights.html').attributes;
    expect(lights?.groups.map(({ id, effectivity, constant }) => [id, effectivity.text, constant?.text])).toEqual([
      ['turn-off-lights-lamp-1001-2027-03-01', 'QQ-AAA from 2027-03-01', undefined],
      [
        'turn-off-lights-lamp-1001',
        'QQ-AAB to QQ-AAF, 5 aircraft, and the training device Trainer One; QQ-AAA until 2027-02-28',
        'not fitted',
      ],
    ]);
    const [from] = pageAt('aircraft', 'aircraft/1001.html').later;
    expect(
      from?.differences.flatMap(({ notFitted }) =>
        notFitted.map(({ verdict, items }) => [verdict, items.map(({ title }) => title)]),
      ),
    ).toEqual([['Not fitted on QQ-AAA on 2026-10-01', ['Turn-off lights']]]);
  });
});
