/** Positions that an author calls abnormal: their cases stand in the abnormal table, and nothing begins in them. */
import { expect, it } from 'vitest';
import { IMPOSSIBLE, levelOf, partNormals, partTable } from '../../src/compile/index.ts';
import { initialInputs } from '../../src/compile/time/inputs.ts';
import { CONDITIONS, compileSmall } from './small-fleet.ts';

const { compiled, codes } = compileSmall({
  'conditions.yaml': CONDITIONS,
  'panels/p.yaml': `panel: p
title: P
controls:
  knob-1:
    title: Knob
    form: rotary
    positions: { CHECK: { returns: OFF, abnormal: true }, GUARDED: { abnormal: true }, OFF: {}, ON: {} }
items:
  lamp:
    kind: light
    title: Lamp
    control: knob-1
    rules: [{ when: "knob-1 in (CHECK, ON)", then: lit }, { otherwise: dark }]
  answer:
    kind: annunciator
    title: Answer
    rules: [{ when: knob-1 is CHECK and gear is down, then: lit }, { otherwise: dark }]
`,
});

/** The rows of one table of an item: position ids, then the state. */
function rows(item: string, part: 'normal' | 'abnormal'): string[] {
  const behaviour = compiled.behaviours.find((each) => each.item.id === item);
  const [group] = behaviour?.groups ?? [];
  if (!behaviour || !group) throw new Error(`no item ${item}`);
  const table = partTable(compiled, behaviour, group, part);
  const column = table?.columns.indexOf(levelOf(compiled.space, 'knob-1')) ?? -1;
  return (table?.rows ?? []).map(({ cells, outcome }) => {
    expect(outcome).not.toBe(IMPOSSIBLE);
    const meaning = compiled.outcomes.meaning(outcome);
    const at = column < 0 ? '' : `${(cells[column] ?? ['any']).join('/')} `;
    return `${at}${meaning.kind === 'state' ? meaning.state : meaning.kind}`;
  });
}

it('stand in a table of their own, beside several normal ones', () => {
  expect(codes).toEqual([]);
  expect(rows('lamp', 'normal')).toEqual(['2 dark', '3 lit']);
  expect(rows('lamp', 'abnormal')).toEqual(['0 lit', '1 dark']);
});

it('leave no column among the normal cases where only they change something', () => {
  expect(rows('answer', 'normal')).toEqual(['dark']);
  expect(rows('answer', 'abnormal')).toEqual(['0 lit', '0 dark', '1 dark']);
  const behaviour = compiled.behaviours.find(({ item }) => item.id === 'answer');
  const form = behaviour?.groups[0]?.form ?? compiled.diagrams.no;
  expect(partNormals(compiled, form, 'abnormal').map(([, values]) => values)).toEqual([[0, 1]]);
});

it('are not what a timeline begins in', () => {
  const [fit] = compiled.settled;
  expect(fit && initialInputs(compiled, fit).get('knob-1')).toBe('OFF');
});
