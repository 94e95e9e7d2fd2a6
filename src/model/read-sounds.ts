/** Sounds of a panel, and the changes that set them off. */
import { nearestName } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Sound, Trigger } from './fleet.ts';
import type { Checked } from './schema-check.ts';
import { nounOf } from './words.ts';
import {
  type Entry,
  entriesUnder,
  entryOf,
  itemsUnder,
  type ScalarNode,
  scalarUnder,
  type YamlNode,
} from './yaml-source.ts';

/** A sound whose id is declared; the rest is read when the names of all files are known. */
export interface DeclaredSound {
  readonly id: string;
  /** Undefined after a report. */
  readonly read: () => Sound | undefined;
}

export function declareSounds(
  root: YamlNode,
  panel: string,
  shape: Checked<unknown>,
  context: Context,
): DeclaredSound[] {
  return entriesUnder(root, 'sounds').flatMap((entry): DeclaredSound[] => {
    const fresh = context.names.declare(entry.key, 'sound', entry.keyPlace, entry.value);
    if (!fresh || !shape.sound('sounds', entry.key)) {
      context.names.break(entry.key);
      return [];
    }
    return [{ id: entry.key, read: () => readSound(entry, panel, context) }];
  });
}

function readSound({ key, keyPlace, value: node }: Entry, panel: string, context: Context): Sound | undefined {
  const defined = context.defined(key, keyPlace, node);
  const fitted = context.fitted(node);
  const nodes = itemsUnder(node, 'triggers');
  const triggers = nodes.flatMap((each) => readTrigger(each, context) ?? []);
  if (!fitted.ok || triggers.length < nodes.length) return undefined;
  return {
    ...defined,
    panel,
    noun: scalarUnder(node, 'noun')?.written ?? nounOf(defined.title),
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    sounds: scalarUnder(node, 'sounds')?.written ?? '',
    triggers,
  };
}

function readTrigger(node: YamlNode, context: Context): Trigger | undefined {
  const [moves, becomes, during] = ['moves', 'becomes', 'while'].map((key) => scalarUnder(node, key));
  const [from, to] = ['from', 'to'].map((key) => valuesUnder(node, key));
  const values = from ?? to;
  if (!moves && (values || !becomes)) {
    const place = values ? (entryOf(node, from ? 'from' : 'to')?.keyPlace ?? node.place) : node.place;
    context.diagnostics.report('SL388', { values: values !== undefined }, place);
    return undefined;
  }
  const known = moves && readMoving(moves, context);
  const becomesRead = becomes && context.expression(becomes);
  const duringRead = during && context.expression(during);
  if ((moves && !known) || (becomes && !becomesRead) || (during && !duringRead)) return undefined;
  const sound = [...(from ?? []), ...(to ?? [])].map((each) => isValue(each, moves?.written ?? '', known, context));
  if (sound.includes(false)) return undefined;
  const source = context.citation(node);
  const written = (nodes: readonly ScalarNode[]): string[] => [...new Set(nodes.map((each) => each.written))];
  return {
    ...(moves ? { moves: moves.written } : {}),
    ...(from ? { from: written(from) } : {}),
    ...(to ? { to: written(to) } : {}),
    ...(becomesRead ? { becomes: becomesRead } : {}),
    ...(duringRead ? { while: duringRead } : {}),
    place: node.place,
    ...(source ? { source } : {}),
  };
}

/** One value or a list of them. */
function valuesUnder(node: YamlNode, key: string): readonly ScalarNode[] | undefined {
  const value = entryOf(node, key)?.value;
  if (!value) return undefined;
  return (value.kind === 'list' ? value.items : [value]).filter((each) => each.kind === 'scalar');
}

/** The values between which something moves; undefined after a report. */
function readMoving({ written, place }: ScalarNode, context: Context): readonly string[] | undefined {
  if (!context.names.resolve(written, ['control', 'condition', 'sequence'], place)) return undefined;
  const declared = context.declaration(written);
  if (declared?.kind !== 'number') return declared && 'values' in declared ? declared.values : undefined;
  context.diagnostics.report('SL397', { name: written }, place);
  return undefined;
}

function isValue(
  { written, place }: ScalarNode,
  name: string,
  known: readonly string[] | undefined,
  { diagnostics, names }: Context,
): boolean {
  if (!known || known.includes(written)) return true;
  if (names.former.reportValue(name, written, place)) return false;
  diagnostics.report('SL389', { name, value: written, known, nearest: nearestName(written, known) }, place);
  return false;
}
