/**
 * The errors of decision tables of yes-and-no conditions, as public teaching material states them. Incompleteness,
 * redundancy (same conditions, same action) and contradiction (same conditions, different actions): "Detecting
 * Incompleteness, Ambiguity, Contradictions & Redundancy". Ambiguity (dashes make rules with different actions overlap),
 * and that it is only apparent where the shared case cannot occur, with x > 60 and x < 40 as the example: "Decision Table
 * Errors". That ambiguity is the thing to check: P. King, Communications of the ACM, 1968 (abstract).
 */
import { describe, expect, it } from 'vitest';
import { compileSmall } from './small-fleet.ts';

const CONDITIONS = `conditions:
  first:
    title: First
    values: { no: { says: without the first }, yes: { says: with the first } }
  second:
    title: Second
    values: { no: { says: without the second }, yes: { says: with the second } }
  x:
    title: X
    number: { unit: kt, from: 0, to: 100, step: 1 }
`;

/** The codes reported of a light with these rules. */
function reported(
  policy: 'any' | 'unique' | 'first',
  rules: readonly string[],
  conditions = CONDITIONS,
): readonly string[] {
  const lines = rules.map((rule) => `      - { ${rule} }\n`).join('');
  return compileSmall({
    'conditions.yaml': conditions,
    'panels/p.yaml':
      'panel: p\ntitle: P\ncontrols:\n  sw:\n    title: Switch\n    form: toggle\n    positions: { OFF: {}, ON: {} }\n' +
      `items:\n  lamp:\n    kind: light\n    title: Lamp\n    control: sw\n    policy: ${policy}\n    rules:\n${lines}`,
  }).codes;
}

const BOTH = 'when: first is yes and second is yes';
const ELEMENTARY = [
  `${BOTH}, then: lit`,
  'when: first is yes and second is no, then: dark',
  'when: first is no and second is yes, then: dark',
  'when: first is no and second is no, then: dark',
];

describe('a table of two conditions', () => {
  it('is complete with its 2^2 elementary rules, and incomplete without any one of them', () => {
    expect(reported('unique', ELEMENTARY)).toEqual([]);
    ELEMENTARY.forEach((_, at) => {
      expect(reported('unique', ELEMENTARY.toSpliced(at, 1))).toEqual(['SL401']);
    });
  });

  it('may say a rule twice where rules may agree, not where each case has one rule', () => {
    const redundant = [...ELEMENTARY, `${BOTH}, then: lit`];
    expect(reported('any', redundant)).toEqual([]);
    expect(reported('unique', redundant)).toEqual(['SL403']);
  });

  it('may not contradict itself', () => {
    const contradictory = [...ELEMENTARY, `${BOTH}, then: dark`];
    expect(reported('any', contradictory)).toEqual(['SL402']);
    expect(reported('unique', contradictory)).toEqual(['SL403']);
  });

  it('is ambiguous where dashes make rules with different actions overlap, not where they agree', () => {
    const others = 'when: first is no and second is no, then: dark';
    expect(reported('any', ['when: first is yes, then: lit', 'when: second is yes, then: dark', others])).toEqual([
      'SL402',
    ]);
    expect(reported('any', ['when: first is yes, then: lit', 'when: second is yes, then: lit', others])).toEqual([]);
  });

  it('is not ambiguous where the case that rules share cannot occur: x > 60 and x < 40', () => {
    const between = 'when: x >= 40 kt and x <= 60 kt, then: dark';
    const rules = (above: number, below: number): string[] => [
      `when: x > ${above} kt, then: lit`,
      `when: x < ${below} kt, then: dark`,
      between,
    ];
    expect(reported('any', rules(60, 40))).toEqual([]);
    expect(reported('unique', rules(60, 40))).toEqual([]);
    expect(reported('any', rules(60, 70))).toEqual(['SL402']);
  });

  it('is not ambiguous either where the content says that the shared case never happens', () => {
    const rules = [
      'when: first is yes, then: lit',
      'when: second is yes, then: dark',
      'when: first is no and second is no, then: dark',
    ];
    expect(reported('unique', rules)).toEqual(['SL403']);
    expect(reported('unique', rules, `${CONDITIONS}never:\n  - first is yes and second is yes\n`)).toEqual([]);
  });
});
