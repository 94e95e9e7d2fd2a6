/** Columns, cells, flows and sentences name what is fitted on the aircraft that they hold for. */
import { describe, expect, it } from 'vitest';
import { groupOn, lines, pageAt, seen } from './every-kind.ts';

const SWITCH = 'QQ-AAA and QQ-AAD, 2 aircraft, and the training device Trainer One; QQ-AAB until 2026-11-30';
const SELECTOR = 'QQ-AAC; QQ-AAB from 2026-12-01';

describe('a table', () => {
  const { groups } = pageAt('item', 'lights/logo-lights.html').attributes[0] ?? { groups: [] };

  it('names the control that the aircraft of its group have', () => {
    expect(lines(groupOn(groups, SELECTOR).normal)).toEqual(['<Logo selector>', '[0] => dark', '[1] or [2] => lit']);
  });

  it('shows each legend that stands at the position on some aircraft of its group', () => {
    expect(lines(groupOn(groups, SWITCH).normal)).toEqual(['<Logo switch>', '[OFF] => dark', '[ON] / [BRT] => lit']);
  });

  it('names both controls where nobody knows which one is fitted, and what depends on that', () => {
    expect(lines(groupOn(groups, 'QQ-AAF').normal)).toEqual([
      '<Logo switch> / <Logo selector>',
      '[OFF] / [0] or not fitted => dark where it can happen: depends on Corner fit',
      '[ON] / [1] or [2] => lit where it can happen: depends on Corner fit',
    ]);
  });

  it('leads with each name of a column to its own control', () => {
    const column = groupOn(groups, 'QQ-AAF').normal?.columns[0]?.title ?? [];
    expect(column.flatMap((part) => (part.kind === 'link' ? [part.to] : []))).toEqual([
      'controls/logo.html',
      'controls/logo-selector.html',
    ]);
  });

  it('is drawn with the same names', () => {
    const annunciator = pageAt('item', 'lights/logo-on.html').attributes[0]?.groups ?? [];
    const [part, ...further] = groupOn(annunciator, SELECTOR).flow?.parts ?? [];
    expect(part?.vertices[0]?.text).toBe('Logo selector');
    expect(part?.edges.filter(({ from }) => from === 'v0').map(({ label }) => label)).toEqual(['0', '1 or 2']);
    expect(further).toEqual([]);
  });

  it('is not drawn where its single column is all that there is to ask', () => {
    expect(groupOn(groups, SELECTOR).flow).toBeUndefined();
  });
});

describe('a difference', () => {
  const page = pageAt('aircraft', 'aircraft/1006.html');
  const logo = page.differences
    .flatMap(({ differences }) => differences)
    .find(({ item }) => item.title === 'Logo lights');

  it('says both names and both legends where the aircraft have different controls that count as one', () => {
    expect(logo?.table.columns.map(({ title }) => seen(title))[0]).toBe('<Logo switch> / <Logo selector>');
    expect(logo?.table.rows.map(({ cells }) => seen(cells[0]?.text ?? []))).toContain('[OFF] / [0]');
  });
});

describe('the page of a control', () => {
  const logo = pageAt('control', 'controls/logo.html');
  const selector = pageAt('control', 'controls/logo-selector.html');
  const said = (page: typeof logo, on: string): string[] =>
    groupOn(page.sentences, on).positions.map(({ legend, says }) => `${legend}: ${says.map(seen).join(' ')}`);

  it('says what its own positions do, on the aircraft that have that very control', () => {
    expect(said(selector, SELECTOR)).toEqual([
      '0: The logo lights are dark.',
      '1: The logo lights are lit.',
      '2: The logo lights are lit.',
    ]);
    expect(said(logo, 'QQ-AAD')).toEqual(['OFF: The logo lights are dark.', 'BRT: The logo lights are lit.']);
    expect(logo.sentences.map(({ effectivity }) => effectivity.text)).not.toContain(SELECTOR);
  });

  it('leaves the tables of aircraft with its counterpart to the page of that one', () => {
    const held = (page: typeof logo): (string | undefined)[] =>
      page.attributes.flatMap(({ groups }) => groups.map(({ effectivity }) => effectivity.text));
    expect(held(logo)).toEqual([SWITCH, 'QQ-AAE', 'QQ-AAF']);
    expect(held(selector)).toEqual([SELECTOR, 'QQ-AAE', 'QQ-AAF']);
  });
});
