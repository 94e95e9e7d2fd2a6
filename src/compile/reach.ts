/**
 * Which sequences are followed together, and what that says of the cases of a fit. Sequences that read each other, or that
 * one reader reads, are a family: their modes may never occur at the same time.
 */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Fleet, Sequence, Transition } from '../model/index.ts';
import type { Expressions } from './expressions.ts';
import type { SettledFit } from './fits.ts';
import { type Family, ModeSearch, supportOf } from './mode-search.ts';
import type { Possible } from './possible.ts';
import { levelOf, optionLevels, type Space } from './space.ts';
import { type TransitionGuard, transitionGuard } from './transition-guard.ts';

/**
 * The families of the sequences that are fitted. `inputs` are the cases that can happen as far as inputs decide; `readers`
 * are the diagrams of whatever reads modes: the sequences that one of them reads are followed together too, since their
 * modes may never occur at the same time. `known`: what was found on other fits, to be found once.
 */
export function familiesOn(
  fleet: Fleet,
  space: Space,
  diagrams: Diagrams,
  expressions: Expressions,
  fit: SettledFit,
  inputs: Possible,
  readers: readonly Node[],
  known: Map<string, Family>,
): Family[] {
  const options = optionLevels(space, fit);
  const fitted = fleet.sequences.filter(
    (sequence) => diagrams.restrictAll(expressions.itemFitted(sequence), options) === diagrams.yes,
  );
  const guards = new Map(
    fitted.flatMap((sequence) =>
      sequence.transitions.map((transition): [Transition, TransitionGuard] => {
        const here = (node: Node): Node => diagrams.restrictAll(node, options);
        return [transition, transitionGuard(transition, space, diagrams, expressions, here)];
      }),
    ),
  );
  const together = readers.map((node) => diagrams.support(diagrams.restrictAll(node, options)));
  return coupled(fitted, space, diagrams, guards, together).map((sequences) => {
    const search = new ModeSearch(sequences, space, diagrams, guards, inputs);
    const family = known.get(search.key) ?? search.family();
    known.set(search.key, family);
    return family;
  });
}

/** The variables of sequences that are not fitted stand at "absent". */
export function absentModes(fleet: Fleet, space: Space, diagrams: Diagrams, families: readonly Family[]): Node[] {
  const fitted = new Set(families.flatMap(({ sequences }) => sequences));
  return fleet.sequences
    .filter((sequence) => !fitted.has(sequence))
    .map((sequence) => diagrams.literal(levelOf(space, sequence.id), [sequence.modes.length]));
}

/** Sequences in declared order, those together of which one reads the mode of the other, or that one reader reads. */
function coupled(
  sequences: readonly Sequence[],
  space: Space,
  diagrams: Diagrams,
  guards: ReadonlyMap<Transition, TransitionGuard>,
  together: readonly (readonly number[])[],
): Sequence[][] {
  let groups: Sequence[][] = [];
  for (const sequence of sequences) {
    const read = new Set(
      sequence.transitions.flatMap((transition) => {
        return supportOf(diagrams, guards.get(transition) as TransitionGuard);
      }),
    );
    const isRead = (other: Sequence): boolean => read.has(levelOf(space, other.id));
    const reads = (other: Sequence): boolean =>
      other.transitions.some((transition) => {
        const level = levelOf(space, sequence.id);
        return supportOf(diagrams, guards.get(transition) as TransitionGuard).includes(level);
      });
    const readers = together.filter((levels) => levels.includes(levelOf(space, sequence.id)));
    const meets = (other: Sequence): boolean => readers.some((levels) => levels.includes(levelOf(space, other.id)));
    const touched = groups.filter((group) => group.some((other) => isRead(other) || reads(other) || meets(other)));
    groups = [...groups.filter((group) => !touched.includes(group)), [...touched.flat(), sequence]];
  }
  const place = (sequence: Sequence): number => sequences.indexOf(sequence);
  return groups
    .map((group) => group.toSorted((a, b) => place(a) - place(b)))
    .toSorted((a, b) => place(a[0] as Sequence) - place(b[0] as Sequence));
}
