/** What rules make of an item of which something is not stated. */
import { expect, test } from 'vitest';
import { judgeSmall } from './small-fleet.ts';

test('rules cover every answer that there may be to the open query of an item that they read', () => {
  const files = (rules: string): Record<string, string> => ({
    'queries.yaml': 'Q-1: { title: Q, question: What then?, to: Somebody, asked: 2025-01-01 }\n',
    'panels/p.yaml': `panel: p
title: P
items:
  asked: { kind: light, title: Asked, states: { lit: {}, dim: {} }, rules: [{ otherwise: not stated, query: Q-1 }] }
  reads: { kind: light, title: Reads, ${rules} }
`,
  });
  const codes = (rules: string): string[] => judgeSmall(files(rules)).found.map(({ code }) => code);
  expect(codes('rules: [{ when: asked is dim, then: dark }]')).toEqual(['SL401']);
  expect(
    codes(
      'policy: any, rules: [{ when: asked is dim, then: dark }, { when: not asked is lit, then: lit }, { when: asked is lit, then: lit }]',
    ),
  ).toEqual(['SL402']);
  expect(codes('rules: [{ when: asked is dim, then: dark }, { when: asked is lit, then: lit }]')).toEqual([]);
});
