/** Sequences of a panel: modes, stores and the transitions between modes. */
import { type Context, reportSameWords, reportUnsayable } from './context.ts';
import type { Mode, Sequence } from './fleet.ts';
import { reportUnphrased } from './phrases.ts';
import { type DeclaredStore, declareStores, readLevel, readStore } from './read-stores.ts';
import { nearestMode, readTransitions } from './read-transitions.ts';
import type { Checked } from './schema-check.ts';
import { nounOf, spacedWords } from './words.ts';
import { type Entry, entriesUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

/** A sequence whose names are declared; the rest is read when the names of all files are known. */
export interface DeclaredSequence {
  readonly id: string;
  /** Undefined after a report. */
  readonly read: () => Sequence | undefined;
}

/** Makes the sequences of a panel known to expressions; those that cannot be used are left out after a report. */
export function declareSequences(
  root: YamlNode,
  panel: string,
  shape: Checked<unknown>,
  context: Context,
): DeclaredSequence[] {
  return entriesUnder(root, 'sequences').flatMap((entry): DeclaredSequence[] => {
    const fresh = context.names.declare(entry.key, 'sequence', entry.keyPlace, entry.value);
    const sound = fresh && shape.sound('sequences', entry.key);
    const stores = declareStores(entry.value, sound, context);
    if (!sound || !hasModes(entry, context)) {
      context.names.break(entry.key);
      return [];
    }
    const modes = entriesUnder(entry.value, 'modes').map(({ key }) => key);
    context.bring({ kind: 'sequence', id: entry.key, values: modes });
    return [{ id: entry.key, read: () => readSequence(entry, panel, modes, stores, context) }];
  });
}

function hasModes({ key, keyPlace, value }: Entry, context: Context): boolean {
  if (entriesUnder(value, 'modes').length > 0) return true;
  context.diagnostics.report('SL398', { sequence: key }, keyPlace);
  return false;
}

function readSequence(
  { key, keyPlace, value: node }: Entry,
  panel: string,
  known: readonly string[],
  stores: readonly DeclaredStore[],
  context: Context,
): Sequence | undefined {
  const defined = context.defined(key, keyPlace, node);
  const fitted = context.fitted(node);
  const initial = modeUnder(node, 'initial', key, known, context);
  const hasNormal = scalarUnder(node, 'normal') !== undefined;
  const normal = modeUnder(node, 'normal', key, known, context);
  reportUnsayable(entriesUnder(node, 'modes'), context.diagnostics);
  reportSameWords(entriesUnder(node, 'modes'), 'title', spacedWords, context.diagnostics);
  reportSameWords(entriesUnder(node, 'modes'), 'says', spacedWords, context.diagnostics);
  const modes = entriesUnder(node, 'modes').map((entry) => readMode(entry, stores, context));
  const readStores = stores.map((store) => readStore(store, context));
  const transitions = readTransitions(node, key, known, context);
  const sound = fitted.ok && initial !== undefined && (normal !== undefined || !hasNormal) && transitions !== undefined;
  if (!sound || modes.includes(undefined) || readStores.includes(undefined)) return undefined;
  return {
    ...defined,
    panel,
    kind: 'sequence',
    noun: scalarUnder(node, 'noun')?.written ?? nounOf(defined.title),
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    initial,
    ...(normal === undefined ? {} : { normal }),
    modes: modes.filter((mode) => mode !== undefined),
    stores: readStores.filter((store) => store !== undefined),
    priorityDeclared: scalarUnder(node, 'priority') !== undefined,
    transitions,
  };
}

/** The mode under a key of the sequence; undefined without one, or after a report. */
function modeUnder(
  node: YamlNode,
  key: string,
  sequence: string,
  known: readonly string[],
  context: Context,
): string | undefined {
  const scalar = scalarUnder(node, key);
  return scalar && nearestMode(scalar, sequence, known, context);
}

function readMode(
  { key, keyPlace, value: node }: Entry,
  stores: readonly DeclaredStore[],
  context: Context,
): Mode | undefined {
  const entries = entriesUnder(node, 'sets');
  reportUnphrased(scalarUnder(node, 'says'), context.diagnostics);
  const sets = entries.flatMap((entry) => readLevel(entry, stores, context) ?? []);
  if (sets.length < entries.length) return undefined;
  return {
    id: key,
    title: scalarUnder(node, 'title')?.written ?? spacedWords(key),
    says: scalarUnder(node, 'says')?.written ?? spacedWords(key),
    sets,
    final: scalarUnder(node, 'final')?.value === true,
    place: keyPlace,
  };
}
