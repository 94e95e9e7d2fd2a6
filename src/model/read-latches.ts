/** Latches: sequences of the two modes "reset", which comes first, and "set". */
import type { Place } from '../diagnostics/index.ts';
import type { Expression } from '../language/index.ts';
import type { Context } from './context.ts';
import type { Sequence, Transition } from './fleet.ts';
import type { DeclaredSequence } from './read-sequences.ts';
import type { Checked } from './schema-check.ts';
import { nounOf } from './words.ts';
import { type Entry, entriesUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

/** The modes of every latch. */
export const LATCH_MODES = ['reset', 'set'] as const;

/** Makes the latches of a panel known to expressions; those that cannot be used are left out after a report. */
export function declareLatches(
  root: YamlNode,
  panel: string,
  shape: Checked<unknown>,
  context: Context,
): DeclaredSequence[] {
  return entriesUnder(root, 'latches').flatMap((entry): DeclaredSequence[] => {
    const fresh = context.names.declare(entry.key, 'sequence', entry.keyPlace, entry.value);
    if (!fresh || !shape.sound('latches', entry.key)) {
      context.names.break(entry.key);
      return [];
    }
    context.bring({ kind: 'sequence', id: entry.key, values: LATCH_MODES });
    return [{ id: entry.key, read: () => readLatch(entry, panel, context) }];
  });
}

function readLatch({ key, keyPlace, value: node }: Entry, panel: string, context: Context): Sequence | undefined {
  const defined = context.defined(key, keyPlace, node);
  const fitted = context.fitted(node);
  const [set, reset] = ['set', 'reset'].map((mode) => {
    const scalar = scalarUnder(node, mode);
    return scalar && context.expression(scalar);
  });
  if (!fitted.ok || !set || !reset) return undefined;
  const wins = scalarUnder(node, 'wins')?.written === 'reset' ? 'reset' : 'set';
  const noun = scalarUnder(node, 'noun')?.written ?? nounOf(defined.title);
  return {
    ...defined,
    panel,
    noun,
    ...(fitted.fitted ? { fitted: fitted.fitted } : {}),
    ...latch({ noun, set, reset, wins, place: keyPlace }),
  };
}

/** The modes and transitions of a latch. While both expressions hold, `wins` decides. */
export function latch({
  noun,
  set,
  reset,
  wins,
  place,
}: {
  readonly noun: string;
  readonly set: Expression;
  readonly reset: Expression;
  readonly wins: 'set' | 'reset';
  readonly place: Place;
}): Pick<Sequence, 'kind' | 'initial' | 'modes' | 'stores' | 'priorityDeclared' | 'transitions'> {
  const transition = (to: 'set' | 'reset', when: Expression, unless: Expression): Transition => {
    const not: Expression = { op: 'not', arg: unless, place: unless.place };
    const guard = wins === to ? when : ({ op: 'and', args: [when, not], place: when.place } as const);
    return { from: [to === 'set' ? 'reset' : 'set'], to, guard: { when: guard }, place: when.place };
  };
  // "reset: never" says on purpose that nothing but power-up resets it.
  const forGood = reset.op === 'constant' && !reset.value;
  return {
    kind: 'latch',
    initial: 'reset',
    modes: LATCH_MODES.map((id) => ({
      id,
      title: id,
      says: `with ${noun} ${id}`,
      sets: [],
      final: forGood && id === 'set',
      place,
    })),
    stores: [],
    priorityDeclared: false,
    transitions: [transition('set', set, reset), ...(forGood ? [] : [transition('reset', reset, set)])],
  };
}
