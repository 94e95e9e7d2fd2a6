/** What pages say beside tables and sentences: places, guards, lamps, overrides, detectors, queries, revisions. */
import { describe, expect, it } from 'vitest';
import { everyKind, lines, pageAt, seen } from './every-kind.ts';

describe('the page of a control', () => {
  const logo = pageAt('control', 'controls/logo.html');

  it('says that it is guarded, what else its place may hold, and what it counts as', () => {
    expect(logo.facts.map(seen)).toEqual([
      'Guarded: lift the guard to move it.',
      'Its place: <Left corner>. The same place may hold the <logo selector> (QQ-AAC and QQ-AAF, 2 aircraft; QQ-AAB from 2026-12-01).',
      'Where aircraft are compared it counts as the <logo selector>: [OFF] as [0], [ON] / [BRT] as [1].',
    ]);
    expect(pageAt('control', 'controls/logo-selector.html').facts.map(seen).at(-1)).toBe(
      'Where aircraft are compared it counts as the <logo switch>: [0] as [OFF], [1] as [ON] / [BRT], [2] as none of its positions.',
    );
  });

  it('tells aircraft apart by the legends, and says what is fitted in its stead', () => {
    expect(logo.cues.map(({ text, instead }) => `${seen(text)} ${seen(instead)}`.trim())).toEqual([
      'Two positions: [OFF], [ON]',
      'Two positions: [OFF], [BRT]',
      'Two positions: [OFF], [ON]; or: Not fitted',
      'Not fitted In its stead: <logo selector>',
      'Not fitted',
    ]);
  });

  it('says which position springs back, and to which', () => {
    const { cues, sentences } = pageAt('control', 'controls/lamp-check.html');
    expect(cues.map(({ text }) => seen(text))).toEqual([
      'Two positions: [RELEASED], [PRESSED] (springs back to [RELEASED])',
    ]);
    expect(sentences[0]?.positions[0]?.says.map(seen).join(' ')).toBe(
      'Drives nothing of its own; it decides over Lamp check.',
    );
  });
});

describe('an item that several controls can ask for', () => {
  const sentences = (address: string): string[] =>
    pageAt('control', address).sentences.flatMap(({ positions }) =>
      positions.map(({ legend, says }) => `${legend}: ${says.map(seen).join(' ')}`),
    );

  it('is on the page of each, where a position that adds nothing asks for nothing', () => {
    expect(sentences('controls/cabin-dome.html')).toEqual([
      'OFF: Asks for nothing: the dome lights are lit with the cockpit dome switch at [ON]; otherwise they are dark.',
      'ON: The dome lights are lit.',
    ]);
    expect(sentences('controls/cockpit-dome.html')).toEqual([
      'OFF: Asks for nothing: the dome lights are lit with the cabin dome switch at [ON]; otherwise they are dark.',
      'NORM: Asks for nothing: the dome lights are lit with the cabin dome switch at [ON]; otherwise they are dark.',
      'ON: The dome lights are lit.',
    ]);
  });

  it('has the control of the page in the first column', () => {
    const first = (address: string): string | undefined =>
      lines(pageAt('control', address).attributes[0]?.groups[0]?.normal)[0];
    expect(first('controls/cabin-dome.html')).toBe('<Cabin dome switch> | <Cockpit dome switch>');
    expect(first('controls/cockpit-dome.html')).toBe('<Cockpit dome switch> | <Cabin dome switch>');
  });
});

describe('the page of an item', () => {
  const lights = pageAt('item', 'lights/position-lights.html');

  it('lists its lamps, and says which behave alike', () => {
    expect(
      lights.lamps.map(({ title, at, side, colour, supply }) => [title, at, side, colour, supply[0]?.title]),
    ).toEqual([
      ['left lamp', 'left wing tip', 'left', 'red', 'DC bus 1'],
      ['right lamp', 'right wing tip', 'right', 'green', 'DC bus 1'],
      ['tail lamp', 'tail cone', 'centre', 'white', 'AC bus 1'],
    ]);
    expect(lights.lampsAlike).toEqual([
      'The left lamp and the right lamp behave alike, apart from failures of their own.',
    ]);
    expect(lights.attributes.map(({ id, title }) => [id, title])).toEqual([
      ['position-lights-lamp', 'Position lights'],
      ['position-lights-left', 'Position lights: left lamp'],
      ['position-lights-right', 'Position lights: right lamp'],
      ['position-lights-tail', 'Position lights: tail lamp'],
    ]);
  });

  it('has a short normal table for a lamp, and what is dark when it fails or loses its supply', () => {
    const [group] = lights.attributes[1]?.groups ?? [];
    expect(lines(group?.normal)).toEqual(['<Main gear struts>', 'compressed => dark', 'extended => lit']);
    expect(group?.abnormal?.caption).toBe('Abnormal cases: DC bus 1 lost or left lamp failed');
    expect(lines(group?.abnormal).slice(1)).toEqual(['powered | failed => dark', 'lost | any => dark']);
    // What the lamps are driven to does not depend on whether they work.
    expect(lights.attributes[0]?.groups[0]?.abnormal).toBeUndefined();
  });

  it('says which overrides touch it, and what holds in every case', () => {
    const signs = pageAt('item', 'lights/exit-signs.html');
    expect(signs.zone).toBe('cabin');
    expect(signs.overrides.map(({ title, sentence, query }) => [title, seen(sentence), seen(query ?? [])])).toEqual([
      [
        'Cabin altitude',
        'Lit with <the cabin altitude detector tripped>.',
        'It breaks what is said to hold in every case: see <Q-2>.',
      ],
    ]);
    expect(signs.inEveryCase.map(seen)).toEqual([
      'Dark with the <emergency light switch> at [OFF], whatever overrides say.',
    ]);
    expect(pageAt('item', 'lights/logo-on.html').overrides.map(({ sentence }) => seen(sentence))).toEqual([
      'Lit with the <lamp check button> at [PRESSED]. Messages, sounds and sequences take no notice of it.',
    ]);
  });

  it('leads from what is not stated to the query', () => {
    const { queries, attributes } = pageAt('item', 'lights/logo-on.html');
    expect(queries.map(seen)).toEqual([
      '<Q-1>: Does the lamp check work with AC bus 1 lost? Asked of the owner of CAB-1 on 2026-06-01.',
    ]);
    const results = attributes.flatMap(({ groups }) => groups.flatMap(({ abnormal }) => abnormal?.rows ?? []));
    const unstated = results.find(({ result }) => result.glyph === 'not-stated')?.result;
    expect(unstated).toEqual({
      glyph: 'not-stated',
      text: 'not stated (Q-1)',
      link: { to: 'queries.html', anchor: 'query-Q-1' },
    });
  });

  it('says what stands on it by aircraft', () => {
    expect(
      pageAt('item', 'lights/logo-on.html').legends.map(({ legend, effectivity }) => [legend, effectivity.text]),
    ).toEqual([
      ['LOGO', 'QQ-AAA to QQ-AAC and QQ-AAF, 4 aircraft, and the training device Trainer One; QQ-AAE until 2027-01-14'],
      ['LOGO BRT', 'QQ-AAD; QQ-AAE from 2027-01-15'],
    ]);
  });

  it('says how a message is held back, what takes its place and how it latches', () => {
    const held = pageAt('item', 'messages/logo-message.html').held.map(seen);
    expect(held.slice(0, 2)).toEqual([
      'Held back while <Ground phase> holds: <on the ground> with <AC bus 1 powered>.',
      'Not shown while <Cabin altitude> is shown in its place.',
    ]);
    expect(held[2]).toMatch(/^<Latched>: raised .*; reset with the <lamp check button> at \[PRESSED\]\.$/);
  });

  it('says what a tolerance leaves open in words, states in the order of the item', () => {
    expect(lines(pageAt('item', 'messages/altitude-message.html').attributes[0]?.groups[0]?.normal)).toEqual([
      '<Cabin altitude>',
      '9,700 ft or below => not shown',
      'above 9,700 ft, up to 10,300 ft => may be shown or not shown',
      'above 10,300 ft => shown',
    ]);
    const emergency = pageAt('control', 'controls/emergency.html').sentences[0]?.positions[0]?.says ?? [];
    expect(emergency.map(seen).join(' ')).toContain(
      'The exit signs may be dark or lit with the cabin altitude above 9,700 ft',
    );
  });
});

describe('the page of a panel', () => {
  it('says what each place holds by aircraft', () => {
    const [place] = pageAt('panel', 'panels/overhead.html').places;
    expect(place?.fitted.map(({ control, effectivity }) => [control?.title, effectivity.text])).toEqual([
      [
        'Logo switch',
        'QQ-AAA, QQ-AAD and QQ-AAF, 3 aircraft, and the training device Trainer One; QQ-AAB until 2026-11-30',
      ],
      ['Logo selector', 'QQ-AAC and QQ-AAF, 2 aircraft; QQ-AAB from 2026-12-01'],
      [undefined, 'QQ-AAE'],
    ]);
  });
});

describe('the page of a condition', () => {
  const { detectors, order } = pageAt('condition', 'conditions/cabin-altitude.html');

  it('says where each detector trips, how far that may lie off, and what reads it', () => {
    expect(detectors.map(({ trips }) => trips)).toEqual([
      'Trips above 10,000 ft, with a tolerance of 300 ft: certainly not at 9,700 ft or below, certainly above 10,300 ft; ' +
        'between, it may have tripped or not, at a point that stays the same on one aircraft.',
      'Trips at 13,000 ft or above.',
    ]);
    expect(detectors.map(({ readBy }) => readBy.map(({ title }) => title))).toEqual([
      ['Exit signs', 'Cabin altitude'],
      [],
    ]);
  });

  it('says which detector never trips before another', () => {
    expect(order).toEqual([
      'Whenever the second cabin altitude detector is tripped, so is the cabin altitude detector.',
    ]);
  });
});

describe('queries and sources', () => {
  it('are listed open first, each with what waits for the answer', () => {
    const { open, answered } = pageAt('queries', 'queries.html');
    expect(open.map(({ name, usedBy }) => [name, usedBy.map(seen)])).toEqual([
      ['Q-1', ['<Logo annunciator>: not stated']],
      ['Q-2', ['<Exit signs>: Cabin altitude stands above what is said to hold in every case']],
    ]);
    expect(answered.map(({ name, answered: given }) => [name, given?.answer])).toEqual([['Q-3', 'It is.']]);
    const entries = everyKind.frame.contents.flatMap((part) => part.entries);
    expect(entries.find(({ to }) => to === 'queries.html')?.detail).toBe('2 open, 1 answered');
  });

  it('name what rests on another revision than the one in force, on the page of the sources and where it is cited', () => {
    expect(pageAt('about', 'about.html').toReview.map(seen)).toEqual([
      '<AC bus 1>: read in revision B, 2 of <Cabin lighting description>, which is at revision C now.',
    ]);
    expect(pageAt('condition', 'conditions/ac-bus-1.html').citations.map(({ text }) => text)).toEqual([
      'Cabin lighting description, revision B, 2; to be reviewed, revision C is out',
    ]);
  });
});
