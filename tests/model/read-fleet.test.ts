import { describe, expect, it } from 'vitest';
import { print } from '../../src/language/index.ts';
import { isContentPath } from '../../src/model/index.ts';
import { filesOf, read, readAfter, SMALL } from './small-content.ts';

const PANEL = 'panels/roof.yaml';
const NOTE = 'notes/about/lamp.md';

describe('a small sound content folder', () => {
  const { fleet, reported } = read(filesOf());
  if (!fleet) throw new Error('no fleet');

  it('gives nothing to report', () => {
    expect(reported).toEqual([]);
  });

  it('keeps numbers as they were written', () => {
    expect(fleet.book).toMatchObject({ revision: '1.10', baseline: '101', language: 'en', paper: 'A4', cautions: [] });
    expect(fleet.options[0]?.source).toMatchObject({ document: 'D-1', paragraph: '1.10' });
    expect(fleet.conditions[1]?.number).toEqual({ unit: 'kt', from: '0', to: '400', step: '0.5' });
  });

  it('holds the aircraft in service on the date of the book', () => {
    expect(fleet.aircraft.map(({ serial, registration, fit }) => [serial, registration, [...fit]])).toEqual([
      ['101', 'QQ-OAA', [['lamp-control', 'manual']]],
      ['102', 'QQ-OAB', [['lamp-control', 'automatic']]],
    ]);
  });

  it.each([
    ['2015-01-01', '2026-10-01', true],
    ['2015-01-01', '2026-09-30', false],
    ['2026-10-01', '2026-10-01', true],
    ['2026-10-02', '', false],
  ])('counts both days: in service from %s to %s on 2026-10-01 is %s', (from, to, serves) => {
    const text = SMALL['aircraft.csv']?.replace('2015-01-01,2019-12-31', `${from},${to}`) ?? '';
    const changed = read(filesOf({ 'aircraft.csv': text }));
    expect(changed.reported).toEqual([]);
    expect(changed.fleet?.aircraft.some(({ serial }) => serial === '103')).toBe(serves);
  });

  it('keeps positions in the order of the author, also where their ids are digits', () => {
    const [control] = fleet.controls;
    expect(control).toMatchObject({ id: 'switch', panel: 'roof', form: 'toggle switch' });
    expect(control?.positions.map(({ id, legend }) => [id, legend])).toEqual([
      ['2', 'TWO'],
      ['1', '1'],
      ['AUTO', 'AUTO'],
    ]);
    expect(control?.positions.map(({ fitted }) => fitted && print(fitted))).toEqual([
      undefined,
      undefined,
      'lamp-control is automatic',
    ]);
  });

  it('gives a light its states, its noun and its rules', () => {
    const [lamp] = fleet.items;
    expect(lamp).toMatchObject({ kind: 'light', noun: 'the lamp', plural: false, colour: 'white', supply: ['bus'] });
    const [attribute] = lamp?.attributes ?? [];
    expect(attribute).toMatchObject({ id: 'lamp', policy: 'any', control: 'switch' });
    expect(attribute?.states.map(({ id, glyph }) => [id, glyph])).toEqual([
      ['dark', 'dark'],
      ['lit', 'lit'],
    ]);
    expect(attribute?.rules.map(({ when, then }) => [when && print(when), then])).toEqual([
      ['bus is lost', 'dark'],
      ['bus is powered and switch is 2', 'lit'],
      [undefined, 'dark'],
    ]);
  });

  it('makes of the "when" of a message two rules, and colours it by its class', () => {
    const message = fleet.items[1];
    // 14 CFR 25.1322(e)(1)(ii): amber or yellow for caution alerts.
    expect(message).toMatchObject({ kind: 'message', legend: 'LAMP', messageClass: 'caution', colour: 'amber' });
    expect(message?.attributes[0]?.rules.map(({ when, then }) => [when && print(when), then])).toEqual([
      ['burning and speed > 100.5 kt', 'shown'],
      [undefined, 'not-shown'],
    ]);
  });

  it('takes the claims of notes with their place in the Markdown file', () => {
    const [note] = fleet.notes;
    expect(note).toMatchObject({ title: 'About the lamp', about: ['lamp'] });
    expect(note?.claims.map(({ sentence }) => sentence)).toEqual(['Without supply it is dark.']);
    const place = note?.claims[0]?.place;
    expect(place?.file.text.slice(place.start, place.end)).toContain('bus is lost implies lamp is dark');
  });

  it('leaves a time of day and a colon within a word as they were typed', () => {
    const text = JSON.stringify(fleet.notes[0]?.body);
    expect(text).toContain('":30"');
    expect(text).toContain('":auto"');
  });

  it('is the same with CRLF and a byte order mark', () => {
    const marked = filesOf().map(({ path, text }) => ({ path, text: `\uFEFF${text.replaceAll('\n', '\r\n')}` }));
    const other = read(marked);
    expect(other.reported).toEqual([]);
    expect(other.fleet?.items.map(({ id }) => id)).toEqual(['lamp', 'lamp-on']);
    expect(other.fleet?.claims).toHaveLength(1);
  });
});

describe('a mistake is reported once, at its words', () => {
  it.each([
    [PANEL, 'supply:', 'suply:', 'SL120', 'suply'],
    [PANEL, 'title: Roof', 'title: 7', 'SL123', '7'],
    [PANEL, 'title: Roof', 'title: Roof: top', 'SL109', 'Roof: top'],
    [PANEL, 'title: Lamp\n', 'title: "Lamp\n', 'SL107', '"Lamp'],
    [PANEL, '    colour: white', '\tcolour: white', 'SL106', '\t'],
    [PANEL, 'form: toggle switch', 'form: &x toggle switch', 'SL111', '&x'],
    [PANEL, 'control: switch', 'control: swich', 'SL304', 'swich'],
    [PANEL, 'control: switch', 'control: bus', 'SL305', 'bus'],
    [PANEL, 'switch is 2', 'swich is 2', 'SL204', 'swich'],
    [PANEL, 'switch is 2', 'switch is 3', 'SL205', '3'],
    [PANEL, 'then: lit', 'then: lid', 'SL325', 'lid'],
    [PANEL, 'supply: [bus]', 'supply: [bus, speed]', 'SL326', 'speed'],
    [PANEL, 'class: caution', 'class: warning\n    colour: amber', 'SL327', 'amber'],
    [PANEL, 'fitted: lamp-control is automatic', 'fitted: bus is lost', 'SL218', 'bus'],
    [PANEL, 'when: bus is lost,', 'when: burning,', 'SL328', 'burning'],
    ['conditions.yaml', 'normal: powered', 'normal: on', 'SL309', 'on'],
    ['conditions.yaml', 'step: 0.5', 'step: 0.3', 'SL308', '400'],
    ['conditions.yaml', 'speed > 300 kt', 'burning', 'SL218', 'burning'],
    ['conditions.yaml', 'says: with the bus lost', 'says: the bus is lost', 'SL311', 'the bus is lost'],
    ['options.yaml', 'D-1', 'D-2', 'SL306', 'D-2'],
    ['options.yaml', 'values:', 'value:', 'SL120', 'value'],
    ['aircraft.csv', 'lamp-control', 'lamp-controll', 'SL313', 'lamp-controll'],
    ['aircraft.csv', 'automatic', 'automatik', 'SL315', 'automatik'],
    ['aircraft.csv', '102', '101', 'SL316', '101'],
    ['aircraft.csv', 'QQ-OAB', 'QQ-OAA', 'SL317', 'QQ-OAA'],
    ['aircraft.csv', '2021-01-01', '2021-02-30', 'SL126', '2021-02-30'],
    ['book.yaml', 'baseline: 101', 'baseline: 103', 'SL320', '103'],
    ['book.yaml', '2026-10-01', '1 October', 'SL126', '1 October'],
    [NOTE, 'ref:switch', 'ref:swich', 'SL501', 'swich'],
    [NOTE, '[](ref:switch)', '[the switch][s]\n\n[s]: javascript:x\n\nAnd', 'SL509', 'javascript:x'],
    [NOTE, 'lamp is dark"', 'lamp is drak"', 'SL205', 'drak'],
    [NOTE, 'of="lamp"', 'of="lmap"', 'SL304', 'lmap'],
    [NOTE, 'on="QQ-OAB"', 'on="QQ-OAC"', 'SL508', 'QQ-OAC'],
    [NOTE, 'At 12:30', '![x](y.png)', 'SL504', '![x](y.png)'],
    [PANEL, '      - { when: bus is lost, then: dark }', '      - otherwise: dark', 'SL323', 'otherwise'],
    [PANEL, '{ when: bus is lost, then: dark }', '{ when: bus is lost }', 'SL324', '{ when: bus is lost }'],
    [PANEL, 'otherwise: dark', 'otherwise: dim', 'SL325', 'dim'],
    [PANEL, 'kind: light', 'kind: lamp', 'SL128', 'lamp'],
    [PANEL, 'class: caution', 'class: alarm', 'SL128', 'alarm'],
    [PANEL, '    text: LAMP\n', '', 'SL121', 'lamp-on'],
    [PANEL, '    when: burning and', '    rules: [{ otherwise: shown }]\n    when: burning and', 'SL322', 'rules'],
    [PANEL, '"1": {}', '"2": {}', 'SL110', '"2"'],
    [PANEL, '"1": {}', '"1": { legend: TWO }', 'SL307', 'TWO'],
    [PANEL, '"1": {}', '"1 b": {}', 'SL301', '"1 b"'],
    [PANEL, '  lamp-on:', '  burning:', 'SL302', 'burning'],
    [PANEL, 'bus is powered and', 'bus is powerd and', 'SL205', 'powerd'],
    ['signals.yaml', 'when: lamp is lit', 'when: lamp is lit or burning', 'SL328', 'burning'],
    ['conditions.yaml', 'from: 0,', 'from: 500,', 'SL308', '400'],
    ['conditions.yaml', 'step: 0.5', 'step: some', 'SL330', 'some'],
    [
      'aircraft.csv',
      '102,QQ-OAB,2021-01-01,,automatic',
      '102,QQ-OAB,2021-01-01,2020-01-01,automatic',
      'SL319',
      '2020-01-01',
    ],
    [
      'aircraft.csv',
      '102,QQ-OAB,2021-01-01,,automatic',
      '102,QQ-OAB,2021-01-01,automatic',
      'SL143',
      '102,QQ-OAB,2021-01-01,automatic',
    ],
    ['aircraft.csv', '102,QQ-OAB', '102,', 'SL321', ''],
    ['sources.yaml', 'revision: C, ', '', 'SL121', 'D-1'],
    [NOTE, 'title: About the lamp\n', '', 'SL121', 'about'],
    [NOTE, 'about: [lamp]', 'about: [lmap]', 'SL304', 'lmap'],
    [NOTE, 'At 12:30', 'At <br> 12:30', 'SL503', '<br>'],
    [NOTE, '::table', '::chart', 'SL505', '::chart{of="lamp" on="QQ-OAB"}'],
    [NOTE, 'mode:auto.', ':mode[auto].', 'SL505', ':mode[auto]'],
    [NOTE, ' on="QQ-OAB"', ' on="QQ-OAX"', 'SL508', 'QQ-OAX'],
    [NOTE, '{holds="bus is lost implies lamp is dark"}', '', 'SL506', ':checked[Without supply it is dark.]'],
    [PANEL, '    rules:', '    states: { dark: {}, lit: { title: Dark } }\n    rules:', 'SL307', 'Dark'],
    ['conditions.yaml', 'with the bus lost', 'with the bus powered', 'SL307', 'with the bus powered'],
    ['options.yaml', 'title: Automatic', 'title: Manual', 'SL307', 'Manual'],
  ])('%s: %j becomes %j', (path, from, to, code, words) => {
    expect(readAfter(path, from, to)).toEqual([{ code, words }]);
  });

  it('under the words, whatever line ends and marks the file has', () => {
    const text = `\uFEFF${(SMALL[PANEL] ?? '').replace('switch is 2', 'swich is 2').replaceAll('\n', '\r\n')}`;
    expect(read(filesOf({ [PANEL]: text })).reported).toEqual([{ code: 'SL204', words: 'swich' }]);
    const note = `\uFEFF${(SMALL[NOTE] ?? '').replace('lamp is dark"', 'lmap is dark"').replaceAll('\n', '\r\n')}`;
    expect(read(filesOf({ [NOTE]: note })).reported).toEqual([{ code: 'SL204', words: 'lmap' }]);
  });

  it.each([
    ['book.yaml', 'SL101'],
    ['options.yaml', 'SL101'],
    ['aircraft.csv', 'SL101'],
    ['conditions.yaml', 'SL101'],
    [PANEL, 'SL102'],
  ])('%s that is not there once, without the names that it would define (%s)', (path, code) => {
    const { reported, fleet } = read(filesOf({ [path]: undefined }));
    expect(reported).toEqual([{ code, words: undefined }]);
    expect(fleet).toBeUndefined();
  });

  it('an id given in two files, at the second', () => {
    const other = 'panels/wall.yaml';
    const text =
      'panel: wall\ntitle: Wall\nitems:\n  lamp:\n    kind: sign\n    title: Sign\n    rules: [{ otherwise: lit }]\n';
    const diagnosed = read(filesOf({ [other]: text }));
    expect(diagnosed.reported).toEqual([{ code: 'SL302', words: 'lamp' }]);
  });

  it('a circle through two signals, once', () => {
    const text = 'burning:\n  title: Burning\n  when: glowing\nglowing:\n  title: Glowing\n  when: not burning\n';
    expect(read(filesOf({ 'signals.yaml': text })).reported).toEqual([{ code: 'SL328', words: 'burning' }]);
  });

  it('all mistakes of one run, in all files, and each only once', () => {
    const edits: [string, string, string][] = [
      ['aircraft.csv', '2021-01-01', '2021-13-01'],
      ['book.yaml', 'title: Small', 'titel: Small'],
      ['claims.yaml', 'holds: bus is lost', 'holds: bus is gone'],
      ['conditions.yaml', 'normal: powered', 'normal: off'],
      [NOTE, 'ref:switch', 'ref:swich'],
      ['options.yaml', 'title: Manual', 'titel: Manual'],
      [PANEL, 'kind: light', 'kind: lite'],
      ['signals.yaml', 'when: lamp is lit', 'when: lamp is lit and and lamp is lit'],
      ['sources.yaml', 'date: 2026-05-11', 'date: May'],
    ];
    const files = Object.fromEntries(edits.map(([path, from, to]) => [path, (SMALL[path] ?? '').replace(from, to)]));
    const { reported } = read(filesOf(files));
    const words = reported.map((each) => each.words);
    // What reads the broken condition, option and lamp is not reported on top of them.
    expect(words.sort()).toEqual(['titel', 'off', 'swich', 'titel', 'lite', 'May', '2021-13-01'].sort());
  });

  it('in a file that cannot be read, without the names that it defines', () => {
    const text = `${SMALL['options.yaml']}broken: "x\n`;
    expect(read(filesOf({ 'options.yaml': text })).reported.map(({ code }) => code)).toEqual(['SL107']);
  });

  it('in the name of a file, without the names that it defines', () => {
    const { reported } = read(filesOf({ [PANEL]: undefined, 'panels/roof.yml': SMALL[PANEL] }));
    expect(reported.map(({ code }) => code)).toEqual(['SL103']);
  });
});

describe('isContentPath', () => {
  it.each(['book.yaml', 'aircraft.csv', PANEL, NOTE, 'panels/roof.yml', 'misnamed.yaml'])('wants to see %s', (path) => {
    expect(isContentPath(path)).toBe(true);
  });
  it.each(['README.md', 'notes/readme.md', '.git/x.yaml', 'panels/.roof.yaml', 'picture.png'])(
    'passes over %s',
    (path) => {
      expect(isContentPath(path)).toBe(false);
    },
  );
});
