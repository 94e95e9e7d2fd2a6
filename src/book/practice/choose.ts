/** One thing of which something is so in a scene, and others that nearly would be: the answers to choose from. */
import type { Behaviour } from '../../compile/index.ts';
import type { Node } from '../../logic/index.ts';
import type { Pool } from './draft.ts';
import { isNear, NOT_SO, reasons, SO, stated, surely } from './proof.ts';
import type { Facts, Scene, Subject } from './scene.ts';
import { changeOf, ownLevels } from './state.ts';

/** As many answers as there may be, the right one among them, and as few. */
const OPTIONS = 4;
const FEWEST = 3;

/** Something that can be chosen: the form says where it is so, and `also` what must be certain beside that. */
export interface Candidate {
  readonly behaviour: Behaviour;
  readonly asked: Node;
  readonly also?: Node;
  /** What must be certain in place of `asked` itself, which only compares: what it is on each of two aircraft. */
  readonly sides?: (scene: Scene) => readonly Node[];
  /** Whether it is so on another aircraft. */
  readonly elsewhere?: (scene: Scene) => boolean;
}

export interface Chosen {
  readonly right: Candidate;
  /** The right one first. */
  readonly all: readonly Candidate[];
  /** What the right one rests on. */
  readonly why: Facts;
  /** What the question states. */
  readonly facts: Facts;
}

/** One that is so, the `aim` before others, and some that are not and nearly would be; undefined where the scene has no such. */
export function choose(
  pool: Pool,
  subjects: readonly Subject[],
  scene: Scene,
  candidates: readonly Candidate[],
  aim?: Behaviour,
): Chosen | undefined {
  const { compiled, random } = pool;
  const certain = random.shuffled(candidates).flatMap((candidate): Certain[] => {
    const result = surely(compiled, candidate.asked, scene.values);
    const also = !candidate.also || surely(compiled, candidate.also, scene.values) === SO;
    return result !== undefined && also ? [{ ...candidate, result }] : [];
  });
  const isAim = ({ behaviour }: Candidate): number => Number(behaviour === aim);
  const so = certain.filter(({ result }) => result === SO).toSorted((a, b) => isAim(b) - isAim(a));
  for (const right of so) {
    const chosen = besides(pool, subjects, scene, right, certain);
    if (chosen) return chosen;
  }
  return undefined;
}

interface Certain extends Candidate {
  readonly result: typeof SO | typeof NOT_SO;
}

/** The wrong ones for a right one. */
function besides(
  { compiled }: Pool,
  subjects: readonly Subject[],
  scene: Scene,
  right: Certain,
  certain: readonly Certain[],
): Chosen | undefined {
  const reasonsFor = ({ behaviour, asked, also, sides }: Candidate): (Facts | undefined)[] => [
    ...(sides?.(scene) ?? [asked]).map((each) => reasons(compiled, each, scene.facts, ownLevels(compiled, behaviour))),
    ...(also ? [reasons(compiled, also, scene.facts)] : []),
  ];
  const [first, ...rest] = reasonsFor(right);
  // Of aircraft that are compared, the reasons on both.
  const why = right.sides ? joined([first, ...rest]) : first;
  const changed = scene.changed && [scene.changed.level];
  // What follows must rest on what is otherwise; what is left may have nothing to do with it.
  if (!why || (changed && !right.also && !changed.some((level) => why.has(level)))) return undefined;
  let parts: readonly (Facts | undefined)[] = [first, ...rest, changeOf(scene, changed ?? [])];
  let facts = stated(compiled, subjects, parts);
  let left = certain
    .filter(({ result, behaviour }) => result === NOT_SO && behaviour.item !== right.behaviour.item)
    .map((candidate) => ({ candidate, needs: reasonsFor(candidate) }));
  const isClose = (candidate: Candidate, known: Facts): boolean =>
    candidate.elsewhere?.(scene) || isNear(compiled, subjects, candidate.asked, known);
  const wrong: Candidate[] = [];
  while (facts && wrong.length < OPTIONS - 1) {
    // The one that takes the fewest further facts: a question of many is hard to read.
    const known = facts;
    const more = ({ needs }: (typeof left)[number]): number =>
      new Set(needs.flatMap((each) => [...(each?.keys() ?? [])].filter((level) => !known.has(level)))).size;
    const next = left.toSorted((a, b) => more(a) - more(b))[0];
    if (!next) break;
    left = left.filter((each) => each !== next);
    const { candidate, needs } = next;
    const together = stated(compiled, subjects, [...parts, ...needs]);
    if (!together || !isClose(candidate, together)) continue;
    wrong.push(candidate);
    parts = [...parts, ...needs];
    facts = together;
    left = left.filter(({ candidate: { behaviour } }) => behaviour.item !== candidate.behaviour.item);
  }
  // What others rest on is stated too, and may have moved one away.
  const all = facts;
  const close = all ? wrong.filter((each) => isClose(each, all)) : [];
  if (!all || close.length < FEWEST - 1) return undefined;
  return { right, all: [right, ...close], why, facts: all };
}

function joined(parts: readonly (Facts | undefined)[]): Facts | undefined {
  const known = parts.flatMap((each) => (each ? [...each] : []));
  return parts.includes(undefined) ? undefined : new Map(known.toSorted(([a], [b]) => a - b));
}
