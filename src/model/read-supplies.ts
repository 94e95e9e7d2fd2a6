/** Electrical supplies: fed by the first of their feeders that can, and lost when none does. */
import type { Expression } from '../language/index.ts';
import type { Context } from './context.ts';
import type { Item, Rule, State } from './fleet.ts';
import type { Checked } from './schema-check.ts';
import { canFeed, isLost, LOST, SOURCE } from './supply.ts';
import { nounOf, withSmallInitial } from './words.ts';
import { type Entry, entriesUnder, entryOf, itemsUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

/** A supply whose name is declared; the rest is read when the names of all files are known. */
export interface DeclaredSupply {
  readonly id: string;
  /** Undefined after a report. */
  readonly read: () => Item | undefined;
}

/** Makes the supplies of a panel known to expressions; those that cannot be used are left out after a report. */
export function declareSupplies(
  root: YamlNode,
  panel: string,
  shape: Checked<unknown>,
  context: Context,
): DeclaredSupply[] {
  return entriesUnder(root, 'supplies').flatMap((entry): DeclaredSupply[] => {
    const fresh = context.names.declare(entry.key, 'supply', entry.keyPlace, entry.value);
    if (!fresh || !shape.sound('supplies', entry.key)) {
      context.names.break(entry.key);
      return [];
    }
    const fed = [...new Set(feeders(entry).map(({ from }) => stateOf(from.written)))];
    context.bring({
      kind: 'item',
      id: entry.key,
      attributes: new Map([[SOURCE, [...fed, LOST]]]),
      groups: new Map([['powered', fed]]),
    });
    return [{ id: entry.key, read: () => readSupplyItem(entry, panel, context) }];
  });
}

const stateOf = (feeder: string): string => `from-${feeder}`;

interface Feeder {
  readonly node: YamlNode;
  readonly from: NonNullable<ReturnType<typeof scalarUnder>>;
}

function feeders({ value }: Entry): Feeder[] {
  return itemsUnder(value, 'fed').flatMap((node) => {
    const from = scalarUnder(node, 'from');
    return from ? [{ node, from }] : [];
  });
}

function readSupplyItem(entry: Entry, panel: string, context: Context): Item | undefined {
  const { key, keyPlace, value: node } = entry;
  const defined = context.defined(key, keyPlace, node);
  const fitted = context.fitted(node);
  const unlessNode = scalarUnder(node, 'unless');
  const unless = unlessNode && context.expression(unlessNode);
  const fed = feeders(entry).map((feeder) => readFeeder(feeder, context));
  const rules = fed.filter((rule) => rule !== undefined);
  if (!fitted.ok || (unlessNode && !unless) || rules.length < fed.length) return undefined;
  const lost = (place: Rule['place']): Pick<Rule, 'then' | 'place'> => ({ then: LOST, place });
  return {
    ...defined,
    panel,
    kind: 'supply',
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    noun: scalarUnder(node, 'noun')?.written ?? nounOf(defined.title),
    plural: false,
    legends: [],
    stations: [],
    mountings: [],
    inhibit: [],
    suppressedBy: [],
    supply: feeders(entry).map(({ from }) => from.written),
    attributes: [
      {
        id: SOURCE,
        title: SOURCE,
        states: statesOf(entry, context),
        policy: 'first',
        rules: [...(unless ? [{ when: unless, ...lost(unless.place) }] : []), ...rules, lost(keyPlace)],
        place: entryOf(node, 'fed')?.keyPlace ?? keyPlace,
      },
    ],
  };
}

function statesOf(entry: Entry, context: Context): State[] {
  const fed = feeders(entry).map(({ from }): State => {
    const title = `from ${withSmallInitial(context.titleOf(from.written))}`;
    return { id: stateOf(from.written), title, glyph: 'none', place: from.place };
  });
  const distinct = [...new Map(fed.map((state) => [state.id, state])).values()];
  return [...distinct, { id: LOST, title: LOST, glyph: 'none', place: entry.keyPlace }];
}

/** A feeder feeds while it is powered itself and its `when` holds. Undefined after a report. */
function readFeeder({ node, from }: Feeder, context: Context): Rule | undefined {
  const known = canFeed(from.written, from.place, context);
  const whenNode = scalarUnder(node, 'when');
  const when = whenNode && context.expression(whenNode);
  if (!known || (whenNode && !when)) return undefined;
  const powered: Expression = { op: 'not', arg: isLost(from.written, from.place, context), place: from.place };
  return {
    when: when ? { op: 'and', args: [powered, when], place: node.place } : powered,
    then: stateOf(from.written),
    place: node.place,
  };
}
