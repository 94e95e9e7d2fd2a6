/** The plainest case of a set: the one with the fewest and most usual facts. */
import type { Diagrams, Node } from '../logic/index.ts';
import { isCertain } from './cells.ts';
import { levelOf, normalValues, type Space } from './space.ts';

/**
 * A case in which `wanted` holds and that can happen, as level to value. Conditions have their normal values as far as they
 * can, and facts that the others make sure of, in every case that can happen, are left out. In place of a detector stands its
 * number; the detector stands beside it only in a case within its band, where its answer decides.
 */
export function plainest(diagrams: Diagrams, space: Space, wanted: Node, possible: Node): ReadonlyMap<number, number> {
  let cases = diagrams.and(wanted, possible);
  for (const level of diagrams.support(cases)) {
    const normal = normalValues(space.meanings[level]);
    if (normal === undefined) continue;
    const usual = diagrams.and(cases, diagrams.literal(level, normal));
    if (usual !== diagrams.no) cases = usual;
  }
  const heard = detectorsIn(diagrams, space, wanted);
  for (const { number, certain } of heard) {
    const outside = diagrams.and(cases, diagrams.literal(number, certain));
    if (outside !== diagrams.no) cases = outside;
  }
  const matters = new Set([...diagrams.support(wanted), ...heard.map(({ number }) => number)]);
  const irrelevant = diagrams.support(cases).filter((level) => !matters.has(level));
  const full = diagrams.pick(diagrams.exists(cases, irrelevant));
  const facts = new Map(full);
  const forced = (some: ReadonlyMap<number, number>): boolean =>
    diagrams.restrictAll(diagrams.implies(possible, wanted), some) === diagrams.yes;
  if (!forced(facts)) return facts;
  // Detectors are left out first, since their numbers say as much, what is normal next, then the last declared.
  const rank = (level: number): number => {
    if (heard.some(({ detector }) => detector === level)) return 0;
    const value = facts.get(level);
    return value !== undefined && normalValues(space.meanings[level])?.includes(value) ? 1 : 2;
  };
  const order = [...facts.keys()].sort((a, b) => rank(a) - rank(b) || b - a);
  for (const level of order) {
    if (heard.some(({ detector, number }) => number === level && facts.has(detector))) continue;
    const fewer = new Map(facts);
    fewer.delete(level);
    if (forced(fewer)) facts.delete(level);
  }
  return facts;
}

/** The detectors that a diagram reads, with their numbers and the cells in which their answers are certain. */
function detectorsIn(diagrams: Diagrams, space: Space, wanted: Node) {
  return diagrams.support(wanted).flatMap((detector) => {
    const meaning = space.meanings[detector];
    if (meaning?.kind !== 'detector') return [];
    const number = levelOf(space, meaning.detector.number);
    const measured = space.meanings[number];
    if (measured?.kind !== 'number' || !measured.condition.number) throw new Error('a detector measures a number');
    const range = measured.condition.number;
    const certain = measured.cells.flatMap((cell, at) => (isCertain(meaning.detector, range, cell) ? [at] : []));
    return [{ detector, number, certain }];
  });
}
