/** Where sequences come to rest while inputs stay as they are. */
import type { Diagrams, Node } from '../../logic/index.ts';
import type { ModeStep } from '../mode-steps.ts';

/**
 * The cases that sequences come to from those of `start`, Boolean diagrams over inputs and modes: what waits for no delay
 * first, in the order of the steps, then, with `patient`, whatever else can be taken, in any order. Where no sequence can go
 * on they stay; where they never come to rest, they are in any of the cases that they come back to for ever.
 */
export function settled(
  diagrams: Diagrams,
  start: Node,
  steps: readonly ModeStep[],
  modes: readonly number[],
  patient: boolean,
): Node {
  let atOnce = diagrams.no;
  const moves: Move[] = steps.map(({ level, from, to, now }) => {
    const when = diagrams.and(now, diagrams.literal(level, [from]), diagrams.not(atOnce));
    atOnce = diagrams.or(atOnce, when);
    return { level, to, when };
  });
  if (patient) {
    for (const { level, from, to, later, event } of steps) {
      const when = diagrams.and(later, event, diagrams.literal(level, [from]), diagrams.not(atOnce));
      moves.push({ level, to, when });
    }
  }
  let reached = start;
  for (let fresh = start; fresh !== diagrams.no; reached = diagrams.or(reached, fresh)) {
    const from = fresh;
    const next = moves.map(({ level, to, when }) =>
      diagrams.and(diagrams.exists(diagrams.and(from, when), [level]), diagrams.literal(level, [to])),
    );
    fresh = diagrams.and(diagrams.or(...next), diagrams.not(reached));
  }
  const resting = diagrams.and(reached, diagrams.not(diagrams.or(...moves.map(({ when }) => when))));
  let restful = resting;
  for (let fresh = resting; fresh !== diagrams.no; restful = diagrams.or(restful, fresh)) {
    const to = fresh;
    const before = moves.map((move) => diagrams.and(move.when, diagrams.restrict(to, move.level, move.to)));
    fresh = diagrams.and(diagrams.or(...before), reached, diagrams.not(restful));
  }
  const restless = diagrams.and(reached, diagrams.not(restful));
  if (restless === diagrams.no) return resting;
  const again = recurrent(diagrams, restless, moves, modes);
  return diagrams.or(resting, diagrams.and(again, diagrams.not(atOnce)));
}

interface Move {
  readonly level: number;
  readonly to: number;
  readonly when: Node;
}

/** Of cases that lead to each other alone: those that all they lead to leads back to. Few modes make up such cases. */
function recurrent(diagrams: Diagrams, cases: Node, moves: readonly Move[], modes: readonly number[]): Node {
  const inputs = diagrams.support(cases).filter((level) => !modes.includes(level));
  const places = combinations(diagrams, diagrams.exists(cases, inputs), modes);
  const at = (node: Node, place: ReadonlyMap<number, number>): Node => diagrams.restrictAll(node, place);
  // Whether one leads to another, by inputs; first in one step, then in any number.
  const leads = places.map((from) =>
    places.map((to) =>
      diagrams.or(
        ...moves.flatMap(({ level, to: mode, when }) =>
          isMove(from, to, level, mode) ? [diagrams.and(at(when, from), at(cases, from))] : [],
        ),
      ),
    ),
  );
  for (const via of places.keys()) {
    for (const row of leads) {
      const first = row[via] as Node;
      if (first === diagrams.no) continue;
      for (const to of places.keys()) {
        row[to] = diagrams.or(row[to] as Node, diagrams.and(first, leads[via]?.[to] as Node));
      }
    }
  }
  const kept = places.map((place, one) => {
    const back = places.map((_, other) =>
      diagrams.implies(leads[one]?.[other] as Node, other === one ? diagrams.yes : (leads[other]?.[one] as Node)),
    );
    const here = [...place].map(([level, mode]) => diagrams.literal(level, [mode]));
    return diagrams.and(cases, ...here, ...back);
  });
  return diagrams.or(...kept);
}

function isMove(
  from: ReadonlyMap<number, number>,
  to: ReadonlyMap<number, number>,
  level: number,
  mode: number,
): boolean {
  return to.get(level) === mode && [...from].every(([each, value]) => each === level || to.get(each) === value);
}

/** Every way to give the levels values that a Boolean diagram over them allows. */
function combinations(diagrams: Diagrams, node: Node, levels: readonly number[]): Map<number, number>[] {
  const [level, ...others] = levels;
  if (node === diagrams.no) return [];
  if (level === undefined) return [new Map()];
  const size = diagrams.variables[level]?.size ?? 0;
  return Array.from({ length: size }, (_, value) => value).flatMap((value) =>
    combinations(diagrams, diagrams.restrict(node, level, value), others).map(
      (rest) => new Map([[level, value], ...rest]),
    ),
  );
}
