/** overrides.yaml: rules of wider scope that stand above the items' own. */
import { nearestName, type SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Item, ItemKind, Override } from './fleet.ts';
import { LAMP } from './read-lamps.ts';
import { overridesSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { isInScope } from './scope.ts';
import { entryOf, itemsUnder, readYaml, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

/** An override whose name is declared; the rest is read when all items are known. */
export interface DeclaredOverride {
  readonly id: string;
  /** Undefined after a report. */
  readonly read: (items: readonly Item[]) => Override | undefined;
}

export function declareOverrides(file: SourceFile | undefined, context: Context): DeclaredOverride[] {
  const root = file && readYaml(file, context.diagnostics);
  if (!file || !root) return [];
  const shape = checkShape(overridesSchema, root, context.diagnostics);
  if (root.kind !== 'list') return [];
  return root.items.flatMap((node, at): DeclaredOverride[] => {
    const id = scalarUnder(node, 'id');
    if (!id || !shape.sound(at) || !context.names.declare(id.written, 'override', id.place, node)) return [];
    return [{ id: id.written, read: (items) => readOverride(id, node, items, context) }];
  });
}

function readOverride(id: ScalarNode, node: YamlNode, items: readonly Item[], context: Context): Override | undefined {
  const { diagnostics } = context;
  const before = diagnostics.all.length;
  const scope = readScope(node, items, context);
  const whenNode = scalarUnder(node, 'when');
  const when = whenNode && context.expression(whenNode);
  const query = scalarUnder(node, 'query');
  if (query) context.isOpenQuery(query.written, query.place);
  const attribute = scalarUnder(node, 'attribute')?.written ?? LAMP;
  const then = scalarUnder(node, 'then') as ScalarNode;
  if (!when || diagnostics.all.length > before) return undefined;
  const touched = items
    .filter((item) => isInScope(item, scope))
    .flatMap((item) => item.attributes.filter((each) => each.id === attribute));
  const states = new Set(touched.flatMap((each) => each.states.map((state) => state.id)));
  if (!states.has(then.written)) {
    const nearest = nearestName(then.written, [...states]);
    diagnostics.report('SL374', { attribute, state: then.written, known: [...states], nearest }, then.place);
    return undefined;
  }
  return {
    ...context.defined(id.written, id.place, node),
    scope,
    attribute,
    when,
    then: then.written,
    quiet: scalarUnder(node, 'quiet')?.value === true,
    ...(query ? { query: query.written } : {}),
  };
}

function readScope(node: YamlNode, items: readonly Item[], context: Context): Override['scope'] {
  const scope = entryOf(node, 'scope')?.value;
  const under = (key: string): ScalarNode[] | undefined =>
    scope && entryOf(scope, key) ? itemsUnder(scope, key).filter((each) => each.kind === 'scalar') : undefined;
  const named = (key: string, kinds: readonly ('panel' | 'item')[]): string[] | undefined =>
    under(key)?.flatMap(({ written, place }) => (context.names.resolve(written, kinds, place) ? [written] : []));
  const known = [...new Set(items.flatMap(({ zone }) => zone ?? []))];
  const zones = under('zones')?.map(({ written, place }) => {
    if (!known.includes(written)) {
      context.diagnostics.report('SL376', { zone: written, known, nearest: nearestName(written, known) }, place);
    }
    return written;
  });
  const [kinds, panels, only, except] = [
    under('kinds')?.map(({ written }) => written as ItemKind),
    named('panels', ['panel']),
    named('items', ['item']),
    named('except', ['item']),
  ];
  return {
    ...(kinds ? { kinds } : {}),
    ...(panels ? { panels } : {}),
    ...(zones ? { zones } : {}),
    ...(only ? { items: only } : {}),
    ...(except ? { except } : {}),
  };
}
