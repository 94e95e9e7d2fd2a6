/** Transitions of a sequence, with what each waits for. */
import { nearestName } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Transition } from './fleet.ts';
import { entryOf, itemsUnder, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

/** The transitions in the author's order; undefined when one cannot be used. */
export function readTransitions(
  sequence: YamlNode,
  id: string,
  known: readonly string[],
  context: Context,
): readonly Transition[] | undefined {
  const nodes = itemsUnder(sequence, 'transitions');
  const transitions = nodes.flatMap((node) => readTransition(node, sequence, id, known, context) ?? []);
  return transitions.length === nodes.length ? transitions : undefined;
}

/** The mode that a scalar names; undefined after a report. */
export function nearestMode(
  { written, place }: ScalarNode,
  sequence: string,
  known: readonly string[],
  context: Context,
): string | undefined {
  if (known.includes(written)) return written;
  context.diagnostics.report('SL380', { sequence, mode: written, known, nearest: nearestName(written, known) }, place);
  return undefined;
}

function readTransition(
  node: YamlNode,
  sequence: YamlNode,
  id: string,
  known: readonly string[],
  context: Context,
): Transition | undefined {
  const fromNode = entryOf(node, 'from')?.value;
  const fromNodes = (fromNode?.kind === 'list' ? fromNode.items : [fromNode]).filter(
    (each): each is ScalarNode => each?.kind === 'scalar',
  );
  const from = fromNodes.flatMap((each) => nearestMode(each, id, known, context) ?? []);
  const toNode = scalarUnder(node, 'to');
  const to = toNode && nearestMode(toNode, id, known, context);
  const sound = reportWrongWays(fromNodes, to, sequence, context);
  const waits = readWaits(node, context);
  if (!waits || !sound || to === undefined || from.length < fromNodes.length) return undefined;
  const source = context.citation(node);
  return { from, to, ...waits, place: node.place, ...(source ? { source } : {}) };
}

/** Reports a way from a mode to itself, twice out of one, or out of a final one. False when there was one. */
function reportWrongWays(
  from: readonly ScalarNode[],
  to: string | undefined,
  sequence: YamlNode,
  { diagnostics }: Context,
): boolean {
  let sound = true;
  const first = new Map<string, ScalarNode>();
  for (const each of from) {
    const { written: mode, place } = each;
    const related = (at: ScalarNode['place'], label: string) => [{ place: at, label }];
    const final = scalarUnder(entryOf(entryOf(sequence, 'modes')?.value, mode)?.value, 'final');
    const earlier = first.get(mode);
    if (mode === to) diagnostics.report('SL382', { mode }, place);
    else if (final?.value === true) diagnostics.report('SL383', { mode }, place, related(final.place, 'said here'));
    else if (earlier) diagnostics.report('SL217', { value: mode }, place, related(earlier.place, 'also here'));
    else {
      first.set(mode, each);
      continue;
    }
    sound = false;
  }
  return sound;
}

/** What the transition waits for; undefined after a report. */
function readWaits(node: YamlNode, context: Context): Pick<Transition, 'guard' | 'after' | 'since'> | undefined {
  const [when, after, since, delay] = ['when', 'after', 'since', 'delay'].map((key) => scalarUnder(node, key));
  const restarts = entryOf(node, 'restarts');
  const guard = when && context.guard(when);
  const afterRead = after && context.duration(after);
  const event = since && context.expression(since);
  const delayRead = delay && context.duration(delay);
  if ((since === undefined) !== (delay === undefined) || (restarts && !since)) {
    const given = (['since', 'delay', 'restarts'] as const).filter((key) => entryOf(node, key));
    const place = entryOf(node, given[0] ?? 'since')?.keyPlace ?? node.place;
    context.diagnostics.report('SL387', { given }, place);
    return undefined;
  }
  if (!when && !after && !since) {
    context.diagnostics.report('SL381', {}, node.place);
    return undefined;
  }
  if ((when && !guard) || (after && !afterRead) || (since && !event) || (delay && !delayRead)) return undefined;
  const repeated = restarts?.value.kind === 'scalar' && restarts.value.value === true;
  return {
    ...(guard ? { guard } : {}),
    ...(afterRead ? { after: afterRead } : {}),
    ...(event && delayRead ? { since: { event, delay: delayRead, restarts: repeated } } : {}),
  };
}
