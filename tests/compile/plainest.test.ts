/** The plainest case of a report, where detectors are heard: a reader sees numbers, and detectors only where they decide. */
import { expect, it } from 'vitest';
import { judgeSmall, CONDITIONS as PLAIN } from './small-fleet.ts';

const CONDITIONS = `${PLAIN}detectors:
  fast:
    title: Fast detector
    trips: speed > 10 kt
    tolerance: 2
    says: with the fast detector tripped
    says-not: with the fast detector not tripped
`;

const PANEL = `panel: p
title: P
items:
  lamp:
    kind: light
    title: Lamp
    rules: [{ when: fast, then: lit }, { otherwise: dark }]
`;

/** The case that is found against a claim. */
function against(claim: string, never = ''): string {
  const { found } = judgeSmall({
    'conditions.yaml': `${CONDITIONS}${never}`,
    'panels/p.yaml': PANEL,
    'claims.yaml': `- sentence: It holds.\n  holds: ${claim}\n`,
  });
  return found.map(({ code, facts }) => (code === 'SL406' && 'case' in facts ? facts.case : code)).join();
}

it('says the number in place of a detector whose answer follows from it', () => {
  expect(against('not fast')).toBe('Speed: above 12 kt');
  expect(against('fast')).toBe('Speed: 8 kt or below');
  expect(against('gear is down or fast')).toBe('Gear: up · Speed: 8 kt or below');
  expect(against('fast implies speed > 15 kt')).toBe('Speed: above 12 kt, up to 15 kt');
});

it('says the detector beside the number in a case within its band', () => {
  expect(against('fast implies speed > 12 kt')).toBe('Speed: above 8 kt, up to 12 kt · Fast detector: tripped');
  expect(against('not fast implies speed <= 8 kt')).toBe('Speed: above 8 kt, up to 12 kt · Fast detector: not tripped');
});

it('keeps the number beside a detector of which only cases within its band can happen', () => {
  expect(against('not fast', 'never:\n  - speed > 12 kt\n')).toBe(
    'Speed: above 8 kt, up to 12 kt · Fast detector: tripped',
  );
});
