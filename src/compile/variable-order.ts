/** The order in which diagrams test the variables, found from what the rules read together. */
import { type Expression, type Mention, readsOf } from '../language/index.ts';
import type { Fleet } from '../model/index.ts';
import { expressionsOfSequence } from './cells.ts';
import { levelOf, type Meaning, type Space } from './space.ts';

/** Sets of levels that should stand close together. */
type Edges = readonly (readonly number[])[];

/** Rounds without gain after which the search ends, and rounds in all. */
const PATIENCE = 5;
const MOST_ROUNDS = 200;

/**
 * All levels, from the root down. Options come first, so that restriction to a fit only follows pointers. The others are
 * moved towards what they are read with, over and over, and the best order seen stands (F. Aloul, I. Markov, K. Sakallah,
 * "FORCE: a fast and easy-to-implement variable-ordering heuristic", 2003): diagrams grow beyond all bounds where a number
 * stands far from its detectors or a sequence from what it waits for.
 */
export function variableOrder(fleet: Fleet, space: Space): readonly number[] {
  const isOption = (level: number): boolean => space.meanings[level]?.kind === 'option';
  const levels = space.meanings.map((_, level) => level);
  const edges = edgesOf(fleet, space)
    .map((edge) => edge.filter((level) => !isOption(level)))
    .filter(({ length }) => length > 1);
  return [
    ...levels.filter(isOption),
    ...closeTogether(
      levels.filter((level) => !isOption(level)),
      edges,
    ),
  ];
}

function closeTogether(start: readonly number[], edges: Edges): readonly number[] {
  const edgesAt = new Map(start.map((level): [number, number[]] => [level, []]));
  edges.forEach((edge, index) => {
    for (const level of edge) edgesAt.get(level)?.push(index);
  });
  let order = start;
  let best = start;
  let least = spanOf(start, edges);
  for (let round = 0, idle = 0; round < MOST_ROUNDS && idle < PATIENCE; round += 1) {
    const places = placesOf(order);
    const centres = edges.map((edge) => mean(edge.map((level) => places.get(level) as number)));
    const pulled = new Map(
      order.map((level) => {
        const own = edgesAt.get(level) as number[];
        return [
          level,
          own.length === 0 ? (places.get(level) as number) : mean(own.map((edge) => centres[edge] as number)),
        ];
      }),
    );
    order = order.toSorted((a, b) => (pulled.get(a) as number) - (pulled.get(b) as number));
    const span = spanOf(order, edges);
    idle = span < least ? 0 : idle + 1;
    if (span < least) [best, least] = [order, span];
  }
  return best;
}

/** How far apart, in all, the ends of the edges stand. */
function spanOf(order: readonly number[], edges: Edges): number {
  const places = placesOf(order);
  return edges.reduce((sum, edge) => {
    const own = edge.map((level) => places.get(level) as number);
    return sum + Math.max(...own) - Math.min(...own);
  }, 0);
}

function placesOf(order: readonly number[]): ReadonlyMap<number, number> {
  return new Map(order.map((level, place) => [level, place]));
}

function mean(numbers: readonly number[]): number {
  return numbers.reduce((sum, each) => sum + each, 0) / numbers.length;
}

function edgesOf(fleet: Fleet, space: Space): Edges {
  const level = (id: string): number => levelOf(space, id);
  const leaves = leavesOf(fleet, space);
  return [
    ...fleet.never.map(({ expression }) => leaves([expression])),
    ...fleet.detectors.map(({ id, number }) => [level(id), level(number)]),
    ...fleet.detectorOrders.map(({ detectors }) => detectors.map(level)),
    ...fleet.sequences.map((sequence) => [
      level(sequence.id),
      ...sequence.stores.map(({ id }) => level(id)),
      ...leaves(expressionsOfSequence(sequence)),
    ]),
    ...fleet.items.flatMap((item) =>
      item.attributes.map((attribute) => leaves(attribute.rules.flatMap(({ when }) => when ?? []))),
    ),
    ...space.meanings.flatMap((meaning, own) =>
      meaning.kind === 'unstated' ? [unstatedEdge(meaning, own, leaves)] : [],
    ),
  ];
}

function unstatedEdge(
  { attribute }: Extract<Meaning, { kind: 'unstated' }>,
  own: number,
  leaves: (expressions: Iterable<Expression>) => readonly number[],
): readonly number[] {
  return [own, ...leaves(attribute.rules.flatMap(({ when }) => when ?? []))];
}

/** The variables that expressions read, signals and items followed down to them, each once. */
function leavesOf(fleet: Fleet, space: Space): (expressions: Iterable<Expression>) => readonly number[] {
  const signals = new Map(fleet.signals.map(({ id, expression }) => [id, expression]));
  const attributes = new Map(
    fleet.items.flatMap((item) => item.attributes.map((attribute) => [`${item.id} ${attribute.id}`, attribute])),
  );
  const known = new Map<string, readonly number[]>();
  const ofMention = (mention: Mention): readonly number[] => {
    const { kind, id, attribute } = mention;
    const key = `${kind} ${id} ${attribute ?? ''}`;
    const found = known.get(key);
    if (found) return found;
    // Definitions are not circular, but a report of one that is may not have stopped the run.
    known.set(key, []);
    const level = space.levelOf.get(kind === 'lamp' ? `${id}.${attribute}` : id);
    const signal = kind === 'signal' ? signals.get(id) : undefined;
    const rules = kind === 'item' ? (attributes.get(`${id} ${attribute}`)?.rules ?? []) : [];
    const below = [...(signal ? [signal] : []), ...rules.flatMap(({ when }) => when ?? [])];
    const levels = kind !== 'item' && level !== undefined ? [level] : all(below);
    known.set(key, levels);
    return levels;
  };
  const all = (expressions: Iterable<Expression>): readonly number[] => [
    ...new Set([...expressions].flatMap((each) => readsOf(each).flatMap(ofMention))),
  ];
  return all;
}
