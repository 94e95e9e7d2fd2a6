/** Why a setting cannot stand as things are, and the least that must move with it so that it can. */
import type { Diagrams, Node } from '../../logic/index.ts';
import type { Facts } from '../because.ts';
import type { Ground } from './ground.ts';

/**
 * The inputs of a case that a setting cannot stand together with, none of which could be left out; none at all where it can stand, or
 * never can.
 */
export function conflictOn(
  diagrams: Diagrams,
  ground: Ground,
  inputs: Facts,
  level: number,
  value: number,
): readonly number[] {
  const { near, read } = nearTo(diagrams, ground, level);
  const stands = (given: Facts): boolean =>
    diagrams.and(...near.map((node) => diagrams.restrictAll(node, given))) !== diagrams.no;
  const facts = new Map([...ground.inputs(inputs)].filter(([each]) => read.has(each)));
  facts.set(level, value);
  if (stands(facts)) return [];
  for (const each of [...facts.keys()].reverse()) {
    const fewer = new Map([...facts].filter(([other]) => other !== each));
    if (each !== level && !stands(fewer)) facts.delete(each);
  }
  return [...facts.keys()].filter((each) => each !== level);
}

/** The cheapest way down a diagram, level by level. */
interface Way {
  readonly cost: number;
  readonly level?: number;
  readonly value?: number;
  readonly rest?: Way;
}

/**
 * A setting with the fewest other inputs that must move with it so that it can stand, each as little as can be; undefined where it never
 * can. `hidden` are the levels that answer for themselves.
 */
export function cheapestOn(
  diagrams: Diagrams,
  ground: Ground,
  inputs: Facts,
  level: number,
  value: number,
  hidden: readonly number[],
): Facts | undefined {
  const { near } = nearTo(diagrams, ground, level);
  const present = ground.inputs(inputs).set(level, value);
  const whole = diagrams.and(...near.map((node) => diagrams.restrict(node, level, value)));
  const known = new Map<Node, Way>();
  const cheapest = (node: Node): Way => {
    const end = diagrams.valueOf(node);
    if (end !== undefined) return { cost: end === 1 ? 0 : Number.POSITIVE_INFINITY };
    const before = known.get(node);
    if (before) return before;
    const at = diagrams.level(node);
    const now = present.get(at) ?? 0;
    let best: Way = { cost: Number.POSITIVE_INFINITY };
    for (let each = 0; each < (diagrams.variables[at]?.size ?? 0); each += 1) {
      const rest = cheapest(diagrams.child(node, each));
      // One thing more is worse than any distance.
      const cost = rest.cost + (each === now ? 0 : 1000 + Math.abs(each - now));
      if (cost < best.cost) best = { cost, level: at, value: each, rest };
    }
    known.set(node, best);
    return best;
  };
  const way = cheapest(diagrams.exists(whole, hidden));
  if (way.cost === Number.POSITIVE_INFINITY) return undefined;
  const found = new Map([[level, value]]);
  for (let step: Way | undefined = way; step?.level !== undefined; step = step.rest) {
    const { level: at, value: to = 0 } = step;
    if (present.get(at) !== to) found.set(at, to);
  }
  return found;
}

/** The constraints that hang together with a level, and all that they read. */
function nearTo(
  diagrams: Diagrams,
  { seen, hidden }: Ground,
  level: number,
): { readonly near: readonly Node[]; readonly read: ReadonlySet<number> } {
  const all = [...seen, ...hidden];
  const read = new Set([level]);
  for (let size = -1; size < read.size; ) {
    size = read.size;
    for (const node of all) {
      const support = diagrams.support(node);
      if (support.some((each) => read.has(each))) for (const each of support) read.add(each);
    }
  }
  return { near: all.filter((node) => diagrams.support(node).some((each) => read.has(each))), read };
}
