import { describe, expect, test } from 'vitest';
import type { Case, Oracle, Outcome } from './index.ts';
import { light, small } from './small.ts';

function states(oracle: Oracle, registration = 'QQ-A', id = 'lamp'): [string, Outcome | 'not-fitted'][] {
  const fit = oracle.fitOf(registration);
  const cases = [...oracle.cases(fit, oracle.variables(id, 'lamp'))];
  return cases.map((given) => [Object.values(given).join(' '), oracle.state(fit, id, 'lamp', given)]);
}
const plain = (oracle: Oracle, variables: string[], registration = 'QQ-A'): string[] =>
  [...oracle.cases(oracle.fitOf(registration), variables)].map((given: Case) => Object.values(given).join(' '));

describe('hit policies', () => {
  const agreeing = ['when: knob is not OFF, then: lit', 'when: knob is HIGH, then: lit', 'otherwise: dark'];
  const clashing = ['when: knob is not OFF, then: lit', 'when: knob is HIGH, then: dark', 'otherwise: dark'];

  test('under any, rules that agree may hold together', () => {
    expect(states(small({ items: light('lamp', agreeing) }))).toEqual([
      ['OFF', 'dark'],
      ['LOW', 'lit'],
      ['HIGH', 'lit'],
    ]);
  });

  test('under any, rules that disagree are a conflict', () => {
    expect(states(small({ items: light('lamp', clashing) }))[2]).toEqual(['HIGH', { conflict: [0, 1] }]);
  });

  test('under unique, two rules that hold are a conflict even if they agree', () => {
    expect(states(small({ items: light('lamp', agreeing, 'unique') }))[2]).toEqual(['HIGH', { conflict: [0, 1] }]);
  });

  test('under first, the first rule that holds decides', () => {
    expect(states(small({ items: light('lamp', clashing, 'first') }))[2]).toEqual(['HIGH', 'lit']);
  });

  test.each(['any', 'unique', 'first'])('under %s, a case that nothing covers is a gap', (policy) => {
    const oracle = small({ items: light('lamp', ['when: knob is OFF, then: dark'], policy) });
    expect(states(oracle)).toEqual([
      ['OFF', 'dark'],
      ['LOW', { gap: true }],
      ['HIGH', { gap: true }],
    ]);
  });
});

describe('what is fitted', () => {
  const controls = `knob:
  title: Knob
  form: knob
  positions: { OFF: {}, LOW: { fitted: grade is full }, HIGH: {} }
extra:
  title: Extra
  form: knob
  fitted: grade is full
  positions: { OUT: {}, IN: {} }`;

  test('a position that is not fitted makes no case', () => {
    const oracle = small({ controls, items: light('lamp', ['when: knob is LOW, then: lit', 'otherwise: dark']) });
    expect(states(oracle, 'QQ-A').map(([given]) => given)).toEqual(['OFF', 'HIGH']);
    expect(states(oracle, 'QQ-B').map(([given]) => given)).toEqual(['OFF', 'LOW', 'HIGH']);
    expect(oracle.alike('lamp', 'lamp', oracle.fits[0]!, oracle.fits[1]!)).toBe(false);
  });

  test('a guard keeps a control out of the cases of an aircraft that lacks it', () => {
    const rules = ['when: fitted(extra) and extra is IN, then: lit', 'otherwise: dark'];
    const oracle = small({ controls, items: light('lamp', rules) });
    expect(states(oracle, 'QQ-A')).toEqual([['', 'dark']]);
    expect(states(oracle, 'QQ-B')).toEqual([
      ['OUT', 'dark'],
      ['IN', 'lit'],
    ]);
  });

  test('a guard over a position looks at the position', () => {
    const oracle = small({ controls, items: light('lamp', ['when: fitted(knob.LOW), then: lit', 'otherwise: dark']) });
    expect(states(oracle, 'QQ-A')).toEqual([['', 'dark']]);
    expect(states(oracle, 'QQ-B')).toEqual([['', 'lit']]);
  });

  test('an item that is not fitted has no state, and two aircraft without it are alike on it', () => {
    const oracle = small({ items: light('lamp', ['otherwise: lit'], 'any', '  fitted: grade is full\n') });
    expect(states(oracle, 'QQ-A')).toEqual([['', 'not-fitted']]);
    const [a, b] = oracle.fits;
    expect(oracle.alike('lamp', 'lamp', a!, a!)).toBe(true);
    expect(oracle.alike('lamp', 'lamp', a!, b!)).toBe(false);
  });
});

describe('which cases can happen', () => {
  const conditions = `gear:
  title: Gear
  values: { down: {}, up: {} }
struts:
  title: Struts
  values: { compressed: {}, extended: {} }
speed:
  title: Speed
  number: { unit: kt, from: 0, to: 100, step: 1 }`;
  const items = light('lamp', ['when: gear is up, then: lit', 'otherwise: dark']);

  test('a never removes what it names and nothing else', () => {
    const oracle = small({ conditions, items, never: '- gear is up and struts are compressed' });
    expect(plain(oracle, ['gear', 'struts'])).toEqual(['down compressed', 'down extended', 'up extended']);
    expect(plain(oracle, ['gear'])).toEqual(['down', 'up']);
  });

  test('a partial case needs a completion through a chain of nevers', () => {
    const never = '- gear is up and struts are compressed\n- struts are extended and speed < 50 kt';
    const oracle = small({ conditions, items, never });
    const speeds = plain(oracle, ['gear', 'speed']).filter((given) => given.startsWith('up'));
    expect(speeds).toEqual(['up 50', 'up 51', 'up 52', 'up 100']);
    expect(oracle.canHappen(oracle.fits[0]!, { gear: 'up', speed: '49' })).toBe(false);
    expect(oracle.canHappen(oracle.fits[0]!, { gear: 'up', speed: '50' })).toBe(true);
  });

  test('nevers that leave nothing leave no case of any variable', () => {
    const oracle = small({ conditions, items, never: '- struts are compressed\n- struts are extended' });
    expect(plain(oracle, ['gear'])).toEqual([]);
  });

  test('a claim may rest on a never, and fails without it', () => {
    const claim = 'gear is up implies struts are extended';
    expect(small({ conditions, items, never: '- gear is up and struts are compressed' }).holds(claim)).toBe(true);
    expect(small({ conditions, items }).counterexample(claim)?.given).toEqual({ gear: 'up', struts: 'compressed' });
  });
});

describe('what an item depends on', () => {
  const conditions = `bus:
  title: Bus
  normal: powered
  values: { powered: {}, lost: {} }
speed:
  title: Speed
  number: { unit: kt, from: 0.0, to: 60.0, step: 0.5 }`;

  test('variables are reached through signals and items', () => {
    const oracle = small({
      conditions,
      signals: 'fast:\n  title: Fast\n  when: speed > 30 kt\n',
      items:
        light('first', ['when: fast and bus is powered, then: lit', 'otherwise: dark']) +
        light('lamp', ['when: first is lit, then: lit', 'when: knob is HIGH, then: lit', 'otherwise: dark']),
    });
    expect(oracle.variables('lamp', 'lamp')).toEqual(['bus', 'speed', 'knob']);
    const at = (speed: string): unknown =>
      oracle.state(oracle.fits[0]!, 'lamp', 'lamp', { bus: 'powered', speed, knob: 'OFF' });
    expect([at('30.0'), at('30.5')]).toEqual(['dark', 'lit']);
  });

  test('a variable that changes nothing is read but is not an own one', () => {
    const rules = ['when: knob is HIGH and bus is lost, then: lit', 'when: knob is HIGH, then: lit', 'otherwise: dark'];
    const oracle = small({ conditions, items: light('lamp', rules) });
    expect(oracle.variables('lamp', 'lamp')).toEqual(['bus', 'knob']);
    expect(oracle.ownVariables('lamp', 'lamp')).toEqual(['knob']);
  });

  test('two aircraft are alike where an option is read but changes nothing', () => {
    const same = [
      'when: grade is full and knob is HIGH, then: lit',
      'when: knob is HIGH, then: lit',
      'otherwise: dark',
    ];
    const unlike = ['when: grade is full and knob is HIGH, then: lit', 'otherwise: dark'];
    const oracle = small({ conditions, items: light('same', same) + light('unlike', unlike) });
    const [a, b] = oracle.fits;
    expect(oracle.alike('same', 'lamp', a!, b!)).toBe(true);
    expect(oracle.alike('unlike', 'lamp', a!, b!)).toBe(false);
  });

  test('a case is abnormal when a condition has left its normal value', () => {
    const oracle = small({ conditions, items: light('lamp', ['otherwise: lit']) });
    expect(oracle.isNormal({ bus: 'powered', speed: '3.5', knob: 'OFF' })).toBe(true);
    expect(oracle.isNormal({ bus: 'lost' })).toBe(false);
  });
});
