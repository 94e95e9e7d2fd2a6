/** The plainest case of a set: the one with the fewest and most usual facts. */
import type { Diagrams, Node } from '../logic/index.ts';
import { normalValue, type Space } from './space.ts';

/**
 * A case in which `wanted` holds and that can happen, as level to value. Conditions have their normal values as far as they
 * can, and facts that the others make sure of, in every case that can happen, are left out.
 */
export function plainest(diagrams: Diagrams, space: Space, wanted: Node, possible: Node): ReadonlyMap<number, number> {
  let cases = diagrams.and(wanted, possible);
  for (const level of diagrams.support(cases)) {
    const normal = normalValue(space.meanings[level]);
    if (normal === undefined) continue;
    const usual = diagrams.and(cases, diagrams.literal(level, [normal]));
    if (usual !== diagrams.no) cases = usual;
  }
  const matters = new Set(diagrams.support(wanted));
  const irrelevant = diagrams.support(cases).filter((level) => !matters.has(level));
  const full = diagrams.pick(diagrams.exists(cases, irrelevant));
  const facts = new Map(full);
  const forced = (some: ReadonlyMap<number, number>): boolean =>
    diagrams.restrictAll(diagrams.implies(possible, wanted), some) === diagrams.yes;
  if (!forced(facts)) return facts;
  // What is normal is left out first, then the last declared.
  const order = [...facts.keys()].sort((a, b) => {
    const usual = (level: number): number => (normalValue(space.meanings[level]) === facts.get(level) ? 0 : 1);
    return usual(a) - usual(b) || b - a;
  });
  for (const level of order) {
    const fewer = new Map(facts);
    fewer.delete(level);
    if (forced(fewer)) facts.delete(level);
  }
  return facts;
}
