/** Rule lists: which state holds when, or that it is not stated. */
import type { Context } from './context.ts';
import type { Rule } from './fleet.ts';
import { type Ruled, readOutcome } from './read-outcome.ts';
import { readTable } from './read-tables.ts';
import { entryOf, itemsUnder, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

/** The rules under `rules`, given as a list or as a table. Undefined after a report. */
export function readRules(node: YamlNode, ruled: Ruled, context: Context): Rule[] | undefined {
  const table = scalarUnder(entryOf(node, 'rules')?.value, 'table');
  if (table) return readTable(table, ruled, context);
  const nodes = itemsUnder(node, 'rules');
  const rules = nodes.map((each, at) => readRule(each, at === nodes.length - 1, ruled, context));
  const read = rules.filter((rule) => rule !== undefined);
  return read.length === nodes.length ? read : undefined;
}

function readRule(node: YamlNode, last: boolean, ruled: Ruled, context: Context): Rule | undefined {
  const { diagnostics } = context;
  const [when, then, otherwise] = ['when', 'then', 'otherwise'].map((key) => scalarUnder(node, key));
  if (otherwise ? when || then : !when || !then) {
    const given = [when && 'when', then && 'then', otherwise && 'otherwise'].filter((key) => key !== undefined);
    diagnostics.report('SL324', { given }, node.place);
    return undefined;
  }
  const expression = when && context.expression(when);
  const outcome = readOutcome((otherwise ?? then) as ScalarNode, scalarUnder(node, 'query'), ruled, context);
  if (!outcome) return undefined;
  if (otherwise && !last) {
    diagnostics.report('SL323', {}, entryOf(node, 'otherwise')?.keyPlace ?? node.place);
    return undefined;
  }
  if (when && !expression) return undefined;
  const source = context.citation(node);
  return {
    ...(expression ? { when: expression } : {}),
    ...outcome,
    ...(scalarUnder(node, 'in-every-case')?.value === true ? { inEveryCase: true } : {}),
    place: node.place,
    ...(source ? { source } : {}),
  };
}
