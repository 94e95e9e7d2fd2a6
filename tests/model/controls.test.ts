import { describe, expect, it } from 'vitest';
import { print } from '../../src/language/index.ts';
import { edited } from './fit-content.ts';
import { read } from './small-content.ts';

const PANEL = 'panels/roof.yaml';

describe('controls in one place', () => {
  const { fleet, reported } = read(edited());
  const [own, other] = fleet?.controls ?? [];

  it('give nothing to report, although their fits are told apart by an unknown option', () => {
    expect(reported).toEqual([]);
    expect(fleet?.places).toMatchObject([{ id: 'corner', title: 'Corner', panel: 'roof' }]);
  });

  it('know their place, their guard and their counterpart', () => {
    expect(own).toMatchObject({ id: 'switch', at: 'corner', guarded: false });
    expect(own?.counterpart).toBeUndefined();
    expect(other).toMatchObject({ id: 'knob', at: 'corner', guarded: true, counterpart: 'switch' });
  });

  it('have positions that match, spring back, and say other things on other fits', () => {
    expect(other?.positions.map(({ id, as, returns }) => [id, as, returns])).toEqual([
      ['0', 'OFF', undefined],
      ['1', 'ON', undefined],
      ['TEST', undefined, '0'],
    ]);
    expect(own?.positions[0]?.legends.map(({ when, legend }) => [print(when), legend])).toEqual([
      ['motor is twin', '0'],
      ['motor is single', 'OUT'],
    ]);
  });

  it('keep what they were called', () => {
    expect(own?.formerly).toEqual(['toggle']);
    expect(own?.positions[1]?.formerly).toEqual(['RUN']);
    expect(fleet?.options[0]?.formerly).toEqual(['fixing']);
    expect(fleet?.options[0]?.values[1]?.formerly).toEqual(['lower']);
    expect(fleet?.panels[0]?.formerly).toEqual(['ceiling']);
  });

  it('can be read as held and released', () => {
    const rules = '{ when: bus is powered and fitted(knob) and knob is held, then: lit }';
    const rest = '{ when: bus is powered and (not fitted(knob) or knob is released), then: dark }';
    const changed = read(edited([PANEL, '{ when: bus is powered, then: lit }', `${rules}\n      - ${rest}`]));
    expect(changed.reported).toEqual([]);
    const [, held, released] = changed.fleet?.items[0]?.attributes[0]?.rules ?? [];
    const knob = { kind: 'control', id: 'knob' };
    expect(JSON.stringify(held?.when)).toContain(
      JSON.stringify({ op: 'among', of: knob, values: ['TEST'] }).slice(0, -1),
    );
    expect(JSON.stringify(released?.when)).toContain(
      JSON.stringify({ op: 'among', of: knob, values: ['0', '1'] }).slice(0, -1),
    );
  });
});

describe('positions that read the same', () => {
  it('may do so where no aircraft has both', () => {
    const twin =
      '"ON": { fitted: motor is single, formerly: [RUN] }\n      "ON-2": { legend: "ON", fitted: motor is twin }';
    expect(read(edited([PANEL, '"ON": { formerly: [RUN] }', twin])).reported).toEqual([]);
  });
});

describe('a mistake in the controls is reported once, at its words', () => {
  const LAMP = 'when: bus is lost,';
  it.each([
    ['place: corner\n    guarded', 'place: cornre\n    guarded', 'SL304', 'cornre'],
    ['place: corner\n    guarded', 'place: switch\n    guarded', 'SL305', 'switch'],
    ['guarded: true', 'guarded: yes', 'SL122', 'yes'],
    ['counterpart: switch', 'counterpart: swich', 'SL304', 'swich'],
    ['counterpart: switch', 'counterpart: toggle', 'SL358', 'toggle'],
    ['counterpart: switch', 'counterpart: knob', 'SL354', 'knob'],
    ['formerly: [toggle]', 'counterpart: knob', 'SL354', 'knob', 'switch'],
    ['as: ON', 'as: OFF', 'SL353', 'OFF'],
    ['as: ON', 'as: "NO"', 'SL353', '"NO"'],
    ['as: ON', 'as: RUN', 'SL358', 'RUN'],
    ['returns: 0', 'returns: TEST', 'SL352', 'TEST'],
    ['returns: 0', 'returns: 7', 'SL352', '7'],
    ['1: { as: ON }', '1: { as: ON, returns: TEST }', 'SL352', 'TEST'],
    ['when: motor is twin', 'when: bus is lost', 'SL218', 'bus'],
    ['{ formerly: [RUN] }', '{ legends: [{ when: motor is twin, legend: "0" }] }', 'SL307', '"0"'],
    ['legend: OUT }]', 'legend: "ON" }]', 'SL307', '"ON"'],
    ['0: { as: OFF }', '0: { as: OFF, fitted: motor is none }', 'SL352', 'TEST'],
    ['fitted: mount is high', 'fitted: motor in (single, twin)', 'SL355', 'knob'],
    ['    fitted: mount is high\n    place: corner\n', '    fitted: motor in (single, twin)\n', 'SL356', 'knob'],
    ['title: Knob', 'title: switch', 'SL359', 'switch'],
    ['formerly: [ceiling]', 'formerly: [lamp]', 'SL357', 'lamp'],
    ['formerly: [ceiling]', 'formerly: [toggle]', 'SL357', 'toggle'],
    ['formerly: [RUN]', 'formerly: [OFF]', 'SL357', 'OFF'],
    ['formerly: [ceiling]', 'formerly: [Ceiling]', 'SL125', 'Ceiling'],
    [LAMP, 'when: bus is lost or fixing is high,', 'SL358', 'fixing'],
    [LAMP, 'when: bus is lost or (fitted(toggle) and switch is ON),', 'SL358', 'toggle'],
    [LAMP, 'when: bus is lost or (fitted(switch) and switch is RUN),', 'SL358', 'RUN'],
    [LAMP, 'when: bus is lost or mount is lower,', 'SL358', 'lower'],
  ])('%j becomes %j', (from, to, code, ...words) => {
    expect(read(edited([PANEL, from, to])).reported).toEqual(words.map((each) => ({ code, words: each })));
  });

  it('positions that match without a counterpart, each', () => {
    expect(read(edited([PANEL, '    counterpart: switch\n', ''])).reported).toEqual([
      { code: 'SL353', words: 'OFF' },
      { code: 'SL353', words: 'ON' },
    ]);
  });

  it('a place of another panel', () => {
    const wall = 'panel: wall\ntitle: Wall\nplaces:\n  nook: { title: Nook }\n';
    const files = edited([PANEL, 'place: corner\n    guarded', 'place: nook\n    guarded']);
    expect(read([...files, { path: 'panels/wall.yaml', text: wall }]).reported).toEqual([
      { code: 'SL351', words: 'nook' },
    ]);
  });

  it('a former id in a note', () => {
    const text = '---\ntitle: Note\nabout: [toggle]\n---\nThe [](ref:ceiling) and the [](ref:lamp).\n';
    expect(read([...edited(), { path: 'notes/a.md', text }]).reported).toEqual([
      { code: 'SL358', words: 'ceiling' },
      { code: 'SL358', words: 'toggle' },
    ]);
  });

  it('two conditions with one title', () => {
    const twice = '  net: { title: BUS, values: { a: { says: with a }, b: { says: with b } } }\n';
    const files = edited(['conditions.yaml', 'conditions:\n', `conditions:\n${twice}`]);
    expect(read(files).reported).toEqual([{ code: 'SL359', words: 'Bus' }]);
  });
});
