/**
 * Hit policies as the DMN standard has them (clause 8.2.10 in version 1.2, as it is publicly cited). Unique: any overlap is
 * an error; Any: rules may overlap where their outputs are equal; First: the first match in rule order ("Hit Policy" and
 * "Hit Policies"). Overlap: some input matches two rules or more; complete: every valid input matches one at least ("Define
 * a hit policy and the completeness requirement"). The other policies (priority, rule order, output order, collect) give
 * lists or need an order of outputs, and are not offered.
 */
import { expect, it } from 'vitest';
import { levelOf } from '../../src/compile/index.ts';
import { seeded } from '../logic/truth-tables.ts';
import { compileSmall } from './small-fleet.ts';

const INPUTS = ['first', 'second', 'third'] as const;
const OUTPUTS = ['dark', 'lit', 'flashing'] as const;
const POLICIES = ['unique', 'any', 'first'] as const;

const CONDITIONS = `conditions:\n${INPUTS.map(
  (id) => `  ${id}: { title: ${id}, values: { no: { says: without ${id} }, yes: { says: with ${id} } } }\n`,
).join('')}`;

/** An entry for each input, "-" for a dash, and the output. */
interface Rule {
  readonly entries: readonly ('yes' | 'no' | '-')[];
  readonly output: (typeof OUTPUTS)[number];
}

function randomTable(seed: number): Rule[] {
  const next = seeded(seed);
  for (let i = 0; i < 10; i += 1) next(2);
  return Array.from({ length: 2 + next(5) }, (_, at) => {
    const entries = INPUTS.map(() => (['yes', 'no', '-'] as const)[next(3)] ?? '-');
    // A rule of dashes alone holds in every case; the first entry keeps it from that.
    return {
      entries: entries.with(0, entries[0] === '-' && at > 0 ? 'yes' : (entries[0] ?? 'yes')),
      output: OUTPUTS[next(3)] ?? 'dark',
    };
  });
}

function compiledOf(policy: (typeof POLICIES)[number], table: readonly Rule[]): ReturnType<typeof compileSmall> {
  const rules = table.map(({ entries, output }) => {
    const when = entries.flatMap((entry, at) => (entry === '-' ? [] : [`${INPUTS[at]} is ${entry}`]));
    return `      - { when: ${when.length > 0 ? when.join(' and ') : 'first is no or first is yes'}, then: ${output} }\n`;
  });
  return compileSmall({
    'conditions.yaml': CONDITIONS,
    'panels/p.yaml': `panel: p\ntitle: P\nitems:\n  lamp:\n    kind: light\n    title: Lamp\n    states: { dark: {}, lit: {}, flashing: {} }\n    policy: ${policy}\n    rules:\n${rules.join('')}`,
  });
}

const CASES = Array.from({ length: 8 }, (_, bits) => INPUTS.map((_, at) => (bits & (1 << at) ? 'yes' : 'no')));

it('decision tables are judged and answered by each hit policy as the standard says, in 80 seeded tables', () => {
  const seen = { gap: 0, overlap: 0, disagreement: 0, sound: 0 };
  for (let seed = 1; seed <= 80; seed += 1) {
    const table = randomTable(seed);
    const matches = CASES.map((given) =>
      table.filter(({ entries }) => entries.every((entry, at) => entry === '-' || entry === given[at])),
    );
    const hasGap = matches.some(({ length }) => length === 0);
    const overlaps = matches.some(({ length }) => length > 1);
    const disagrees = matches.some((rules) => new Set(rules.map(({ output }) => output)).size > 1);
    seen.gap += hasGap ? 1 : 0;
    seen.overlap += overlaps ? 1 : 0;
    seen.disagreement += disagrees ? 1 : 0;
    for (const policy of POLICIES) {
      const { codes, compiled } = compiledOf(policy, table);
      const about = `${policy} ${JSON.stringify(table)}`;
      expect(codes.includes('SL401'), about).toBe(hasGap);
      expect(codes.includes('SL403'), about).toBe(policy === 'unique' && overlaps);
      expect(codes.includes('SL402'), about).toBe(policy === 'any' && disagrees);
      if (codes.length > 0 || !compiled) continue;
      seen.sound += 1;
      const { diagrams, outcomes, space, behaviours } = compiled;
      const form = behaviours[0]?.forms[0] ?? diagrams.no;
      CASES.forEach((given, at) => {
        const values = new Map(INPUTS.map((id, index) => [levelOf(space, id), given[index] === 'yes' ? 1 : 0]));
        const outcome = diagrams.valueOf(diagrams.restrictAll(form, values)) ?? -1;
        expect(outcome, about).toBe(outcomes.ofState(matches[at]?.[0]?.output ?? ''));
      });
    }
  }
  expect(Math.min(seen.gap, seen.overlap, seen.disagreement, seen.sound)).toBeGreaterThanOrEqual(10);
});
