/** overrides.yaml: rules of wider scope that stand above the items' own. */
import { nearestName, type SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Item, ItemKind, Override } from './fleet.ts';
import { LAMP } from './read-lamps.ts';
import { overridesSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { isInScope } from './scope.ts';
import { entryOf, itemsUnder, readYaml, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

/** What an override can touch. */
export interface Touchable {
  readonly items: readonly Item[];
  /** Whether these are all items of the content, so that nothing is missing by a mistake of its own. */
  readonly complete: boolean;
}

/** The overrides whose names are declared; the rest is read when all items are known. */
export interface DeclaredOverrides {
  readonly ids: readonly string[];
  /** `whole` is false where an override was left out after a report. */
  readonly read: (touchable: Touchable) => { readonly overrides: readonly Override[]; readonly whole: boolean };
}

export function declareOverrides(file: SourceFile | undefined, context: Context): DeclaredOverrides {
  if (!file) return { ids: [], read: () => ({ overrides: [], whole: true }) };
  const root = readYaml(file, context.diagnostics);
  const shape = root && checkShape(overridesSchema, root, context.diagnostics);
  if (!shape || root?.kind !== 'list') return { ids: [], read: () => ({ overrides: [], whole: false }) };
  const declared = root.items.flatMap((node, at) => {
    const id = scalarUnder(node, 'id');
    const fresh = id && shape.sound(at) && context.names.declare(id.written, 'override', id.place, node);
    return fresh ? [{ id, node }] : [];
  });
  return {
    ids: declared.map(({ id }) => id.written),
    read: (touchable) => {
      const overrides = declared.flatMap(({ id, node }) => readOverride(id, node, touchable, context) ?? []);
      return { overrides, whole: overrides.length === root.items.length };
    },
  };
}

function readOverride(
  id: ScalarNode,
  node: YamlNode,
  { items, complete }: Touchable,
  context: Context,
): Override | undefined {
  const { diagnostics } = context;
  const before = diagnostics.all.length;
  const scope = readScope(node, { items, complete }, context);
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
    if (!complete) return undefined;
    const nearest = nearestName(then.written, [...states]);
    diagnostics.report('SL374', { attribute, state: then.written, known: [...states], nearest }, then.place);
    return undefined;
  }
  const passed = items.filter(
    (item) =>
      isInScope(item, scope) &&
      item.attributes.some((each) => each.id === attribute && !each.states.some((state) => state.id === then.written)),
  );
  if (passed.length > 0) {
    const facts = { override: id.written, attribute, state: then.written, items: passed.map((item) => item.id) };
    const related = passed.map((item) => ({ place: item.place, label: 'passed by' }));
    diagnostics.report('SL416', facts, then.place, related);
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

function readScope(node: YamlNode, { items, complete }: Touchable, context: Context): Override['scope'] {
  const scope = entryOf(node, 'scope')?.value;
  const under = (key: string): ScalarNode[] | undefined =>
    scope && entryOf(scope, key) ? itemsUnder(scope, key).filter((each) => each.kind === 'scalar') : undefined;
  const named = (key: string, kinds: readonly ('panel' | 'item')[]): string[] | undefined =>
    under(key)?.flatMap(({ written, place }) => (context.names.resolve(written, kinds, place) ? [written] : []));
  const known = [...new Set(items.flatMap(({ zone }) => zone ?? []))];
  const zones = under('zones')?.map(({ written, place }) => {
    if (complete && !known.includes(written)) {
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
