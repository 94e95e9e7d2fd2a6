/** A panel as a schematic: what the baseline has, and what is otherwise elsewhere. */
import { describe, expect, it } from 'vitest';
import type { PanelPage, SchematicView } from '../../src/book/index.ts';
import { smallBook } from './small-book.ts';

function schematic(items: string): SchematicView {
  const { book } = smallBook({ items });
  const panel = book.pages.find((page): page is PanelPage => page.kind === 'panel');
  if (!panel?.schematic) throw new Error('no schematic');
  return panel.schematic;
}

const BESIDE = `  seen:
    kind: annunciator
    title: SEEN annunciator
    legend: SEEN
    colour: amber
    control: sw
    rules: [{ when: sw is ON, then: lit }, { otherwise: dark }]
  alone:
    kind: annunciator
    title: ALONE annunciator
    legend: ALONE
    rules: [{ when: sw is OFF, then: lit }, { otherwise: dark }]
`;

describe('The schematic of a panel', () => {
  const { baseline, rows, others } = schematic(BESIDE);

  it('shows what the baseline has, with its legends in order and its annunciators beside it', () => {
    expect(baseline.title).toBe('QQ-ONE');
    expect(rows.map(({ heading }) => heading)).toEqual([undefined, 'Annunciators']);
    const [cell, ...more] = rows[0]?.cells ?? [];
    expect(more).toEqual([]);
    expect(cell?.control).toMatchObject({ symbol: 'toggle', guarded: false, words: 'toggle: OFF, A and ON' });
    expect(cell?.control?.positions.map(({ legend }) => legend)).toEqual(['OFF', 'A', 'ON']);
    expect(cell?.annunciators.map(({ item, colour }) => [item.title, colour])).toEqual([['SEEN annunciator', 'amber']]);
    expect(rows[1]?.cells.map(({ annunciators }) => annunciators[0]?.item.title)).toEqual(['ALONE annunciator']);
  });

  it('shows what other aircraft have otherwise, and on which', () => {
    expect(others.map(({ title }) => title)).toEqual(['Knob']);
    const [variant, ...more] = others[0]?.variants ?? [];
    expect(more).toEqual([]);
    expect(variant?.cell?.control).toMatchObject({ symbol: 'rotary', words: 'knob: LOW and HIGH' });
    expect(variant?.effectivity.text).toContain('QQ-TWO');
    expect(variant?.effectivity.text).not.toContain('QQ-ONE');
  });
});
