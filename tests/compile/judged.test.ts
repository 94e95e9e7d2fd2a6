/** What compile finds wrong with rules, and what it makes of sound ones: small contents written for each case. */
import { describe, expect, it } from 'vitest';
import { partNormals, partTable, valuesTitle, variableTitle } from '../../src/compile/index.ts';
import { toJson } from '../../src/diagnostics/index.ts';
import { judgeSmall, CONDITIONS as SMALL_CONDITIONS } from './small-fleet.ts';

const CONDITIONS = `${SMALL_CONDITIONS}  spare:
    title: Spare bus
    normal: powered
    values: { powered: { says: with the spare bus powered }, lost: { says: with the spare bus lost } }
`;
const panel = (rules: string, more = ''): string => `panel: p
title: P
controls:
  sw:
    title: Switch
    form: toggle
    positions: { OFF: {}, ON: {} }
  kn:
    title: Knob
    form: knob
    fitted: knob is with
    positions: { LOW: {}, HIGH: {} }
items:
  lamp:
    kind: light
    title: Lamp
    control: sw
${more}    rules:
${rules.replace(/^/gm, '      ')}
`;

function compile(files: Readonly<Record<string, string>>, nodeLimit?: number) {
  const limits = nodeLimit === undefined ? {} : { nodeLimit };
  const { compiled, found } = judgeSmall({ 'conditions.yaml': CONDITIONS, ...files }, limits);
  return { compiled, found: toJson(found) };
}
const rules = (text: string, more?: string) => compile({ 'panels/p.yaml': panel(text, more) });
const messages = (text: string, more?: string): string[] =>
  rules(text, more).found.map(({ code, message }) => `${code} ${message}`);

describe('gaps and overlaps', () => {
  it('names a case that nothing covers, and the aircraft', () => {
    expect(messages('- { when: sw is ON, then: lit }')).toEqual([
      'SL401 No rule says what happens to Lamp in this case: Switch: OFF. It can happen on the whole fleet.',
    ]);
  });

  it('finds a gap on one fit only', () => {
    const text = '- { when: knob is without, then: dark }\n- { when: fitted(kn) and kn is LOW, then: lit }';
    expect(messages(text)[0]).toMatch(/^SL401 .*Knob: HIGH.* It can happen on QQ-TWO\.$/);
  });

  it('lets rules overlap under any while they agree', () => {
    expect(
      messages('- { when: sw is ON, then: lit }\n- { when: gear is down and sw is ON, then: lit }\n- otherwise: dark'),
    ).toEqual([]);
  });

  it('reports rules that disagree under any, with the case', () => {
    const text = '- { when: sw is ON, then: lit }\n- { when: gear is up, then: dark }\n- otherwise: dark';
    expect(messages(text)[0]).toMatch(/^SL402 .*"lit".*"dark".*Switch: ON · Gear: up/);
  });

  it('lets the first rule decide under first, and still finds gaps', () => {
    const text = '- { when: sw is ON, then: lit }\n- { when: gear is up, then: dark }';
    expect(messages(text, '    policy: first\n')).toEqual([
      'SL401 No rule says what happens to Lamp in this case: Switch: OFF · Gear: down. It can happen on the whole fleet.',
    ]);
    expect(messages(`${text}\n- otherwise: dark`, '    policy: first\n')).toEqual([]);
  });

  it('finds nothing wrong with rules on aircraft that lack the item', () => {
    const text = '- { when: knob is with and sw is ON, then: lit }\n- { when: knob is with and sw is OFF, then: dark }';
    expect(messages(text)[0]).toMatch(/^SL401 .* QQ-ONE\.$/);
    expect(messages(text, '    fitted: knob is with\n')).toEqual([]);
  });

  it('reports any overlap under unique', () => {
    const text = '- { when: sw is ON, then: lit }\n- { when: gear is up and sw is ON, then: lit }\n- otherwise: dark';
    expect(messages(text, '    policy: unique\n')[0]).toMatch(/^SL403/);
  });

  it('reports no overlap in cases that never happen', () => {
    const never = `${CONDITIONS}never:\n  - sw is ON and gear is up\n`;
    const text = panel('- { when: sw is ON, then: lit }\n- { when: gear is up, then: dark }\n- otherwise: dark');
    expect(compile({ 'conditions.yaml': never, 'panels/p.yaml': text }).found).toEqual([]);
  });
});

describe('what cannot be worked out', () => {
  it('reads a control that some aircraft lack only behind fitted(...)', () => {
    expect(messages('- { when: kn is LOW, then: lit }\n- otherwise: dark')[0]).toMatch(
      /^SL407 This reads Knob, but QQ-ONE/,
    );
    expect(messages('- { when: fitted(kn) and kn is LOW, then: lit }\n- otherwise: dark')).toEqual([]);
  });

  it('reads such a control in a claim only behind fitted(...), too', () => {
    const claims = '- sentence: Never low.\n  holds: kn is not LOW\n';
    const { found } = compile({ 'claims.yaml': claims, 'panels/p.yaml': panel('- otherwise: dark') });
    expect(found.map(({ code }) => code)).toEqual(['SL407']);
  });

  it('names a control that is left without a position', () => {
    const text = panel('- otherwise: dark').replace('{ LOW: {}, HIGH: {} }', '{ LOW: { fitted: knob is without } }');
    const { compiled, found } = compile({ 'panels/p.yaml': text });
    expect(compiled).toBeUndefined();
    expect(found.map(({ code, message }) => [code, message.includes('QQ-TWO')])).toEqual([['SL409', true]]);
  });

  it('says when no case can happen', () => {
    const never = `${CONDITIONS}never:\n  - always\n`;
    const { compiled, found } = compile({ 'conditions.yaml': never, 'panels/p.yaml': panel('- otherwise: dark') });
    expect(compiled).toBeUndefined();
    expect(found.map(({ code }) => code)).toEqual(['SL404']);
  });

  it('meets the node limit with a diagnostic, not an exception', () => {
    const text = '- { when: (sw is ON or gear is up) and (bus is lost or speed > 7 kt), then: lit }\n- otherwise: dark';
    for (const limit of [3, 20]) {
      const { found } = compile({ 'panels/p.yaml': panel(text) }, limit);
      expect(['SL405', 'SL408']).toContain(found[0]?.code);
    }
  });

  it('gives a counterexample to a claim, and the aircraft on which it fails', () => {
    const claims = '- sentence: Always dark.\n  holds: lamp is dark\n';
    const text = panel('- { when: knob is with and sw is ON, then: lit }\n- otherwise: dark');
    const { found } = compile({ 'claims.yaml': claims, 'panels/p.yaml': text });
    expect(found.map(({ message }) => message)).toEqual([
      'The rules contradict "Always dark." in this case: Switch: ON. It can happen on QQ-TWO.',
    ]);
  });
});

describe('tables of normal and abnormal cases', () => {
  const tableOf = (text: string, part: 'normal' | 'abnormal'): string[] | undefined => {
    const { compiled, found } = rules(text);
    expect(found).toEqual([]);
    const behaviour = compiled?.behaviours[0];
    const group = behaviour?.groups[0];
    if (!compiled || !behaviour || !group) throw new Error('nothing was compiled');
    const table = partTable(compiled, behaviour, group, part);
    return table?.rows.map(({ cells, outcome }) => {
      const words = cells.map((values, at) => {
        const meaning = compiled.space.meanings[table.columns[at] as number];
        return meaning ? `${variableTitle(meaning)} ${values ? valuesTitle(meaning, values) : 'any'}` : '';
      });
      return [...words, compiled.outcomes.state(outcome)].join(', ');
    });
  };
  const fed = '- { when: sw is ON and (bus is powered or spare is powered), then: lit }\n- otherwise: dark';

  it('sets the normal values aside, and shows in abnormal rows what is lost', () => {
    expect(tableOf(fed, 'normal')).toEqual(['Switch OFF, dark', 'Switch ON, lit']);
    expect(tableOf(fed, 'abnormal')?.toSorted()).toEqual(
      [
        'Switch OFF, Bus powered, Spare bus lost, dark',
        'Switch OFF, Bus lost, Spare bus any, dark',
        'Switch ON, Bus powered, Spare bus lost, lit',
        'Switch ON, Bus lost, Spare bus powered, lit',
        'Switch ON, Bus lost, Spare bus lost, dark',
      ].toSorted(),
    );
  });

  it('keeps out of the normal table what can only happen with a bus lost', () => {
    const never = `${CONDITIONS}never:\n  - bus is powered and spare is lost\n  - bus is lost and spare is powered\n`;
    const text = panel(fed.replace(' or ', ' and '));
    const { compiled, found } = compile({ 'conditions.yaml': never, 'panels/p.yaml': text });
    expect(found).toEqual([]);
    const [behaviour] = compiled?.behaviours ?? [];
    const [group] = behaviour?.groups ?? [];
    if (!compiled || !behaviour || !group) throw new Error('nothing was compiled');
    const about = partNormals(compiled, group.form, 'abnormal').map(([level, values]) => {
      const meaning = compiled.space.meanings[level];
      return meaning && `${variableTitle(meaning)} ${valuesTitle(meaning, values)}`;
    });
    expect(about).toEqual(['Bus lost', 'Spare bus lost']);
  });

  it('takes two aircraft for alike whose controls differ only in a position that changes nothing', () => {
    const text = panel(
      '- { when: fitted(kn) and kn is not LOW and kn is not HIGH, then: lit }\n- { when: sw is ON, then: lit }\n- otherwise: dark',
      '    policy: first\n',
    );
    const { compiled } = compile({ 'panels/p.yaml': text });
    const groups = compiled?.behaviours[0]?.groups.map(({ aircraft }) =>
      aircraft.map(({ registration }) => registration),
    );
    expect(groups).toEqual([['QQ-ONE', 'QQ-TWO']]);
    expect(compiled?.behaviours[0]?.own.map((level) => compiled.space.variables[level]?.id)).not.toContain('kn');
  });

  it('gives no abnormal table where no condition with a normal value matters', () => {
    expect(tableOf('- { when: sw is ON, then: lit }\n- otherwise: dark', 'abnormal')).toBeUndefined();
  });

  it('cuts numbers exactly, between steps too', () => {
    expect(tableOf('- { when: speed > 7.25 kt and speed <= 9 kt, then: lit }\n- otherwise: dark', 'normal')).toEqual([
      'Speed 7.25 kt or below, dark',
      'Speed above 7.25 kt, up to 9 kt, lit',
      'Speed above 9 kt, dark',
    ]);
  });
});

it('reports what a timeline expects of something that its aircraft lacks', () => {
  const text = panel('- { when: sw is ON, then: lit }\n- otherwise: dark');
  const timeline = (on: string): string =>
    `run:\n  title: Run\n  on: "${on}"\n  shows: [lamp]\n  steps: [{ at: 0 s, set: { sw: ON } }]\n  until: 5 s\n` +
    '  expect: [{ at: 1 s, holds: lamp is lit and kn is LOW }]\n';
  const codes = (on: string): string[] =>
    compile({ 'panels/p.yaml': text, 'timelines.yaml': timeline(on) }).found.map(({ code }) => code);
  expect(codes('2')).toEqual([]);
  expect(codes('1')).toContain('SL407');
});

it('names in a report the control that is fitted, where another counts as the same', () => {
  const text = `panel: p
title: P
controls:
  first: { title: First switch, form: toggle, fitted: knob is without, positions: { OFF: {}, ON: {} } }
  second:
    title: Second selector
    form: rotary
    fitted: knob is with
    counterpart: first
    positions: { A: { as: OFF, legend: NIL }, B: { as: ON, legend: FULL } }
items:
  lamp:
    kind: light
    title: Lamp
    rules:
      - { when: fitted(first), then: lit }
      - { when: fitted(second) and second is A, then: dark }
`;
  const { found } = compile({ 'panels/p.yaml': text });
  expect(found.map(({ code, message }) => `${code}: ${message}`)).toEqual([
    'SL401: No rule says what happens to Lamp in this case: Second selector: FULL. It can happen on QQ-TWO.',
  ]);
});
