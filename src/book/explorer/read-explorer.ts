/** A packed fleet as one whose cases can be followed. Definitions have only what is asked of them; the rest of them is empty. */
import { type ExplorableFit, Explorer, type Meaning, Outcomes, spaceOf } from '../../compile/index.ts';
import { Diagrams, loadPacked, type Node } from '../../logic/index.ts';
import type { Attribute } from '../../model/index.ts';
import type { PackedComparison } from '../comparison/packed-comparison.ts';
import { outcomeOf } from '../comparison/read-comparison.ts';
import { meaningOf, NOWHERE, type ReadDefinitions, readDefinitions } from '../comparison/read-definitions.ts';
import type { ExploredFleet } from './explored-fleet.ts';
import type { PackedExplorer } from './packed-explorer.ts';

/** Throws a `PackedError` where the diagrams are damaged. */
export function readExplorer(words: PackedComparison, packed: PackedExplorer): ExploredFleet {
  const definitions = readDefinitions(words);
  const { items, aircraft, fits, settled, options, panels } = definitions;
  const meanings = packed.meanings.map((meaning) => hiddenOr(meaning, definitions));
  const space = spaceOf(meanings);
  const levels = new Map(packed.meanings.map(({ level }, at) => [level, at]));
  const levelOf = (level: number): number => levels.get(level) ?? -1;
  const tested = packed.diagrams.levels.map(levelOf);
  const diagrams = new Diagrams(space.variables, {
    order: [...tested, ...meanings.keys()].filter((level, at, all) => all.indexOf(level) === at),
  });
  const outcomes = new Outcomes();
  const terminals = new Map<number, number>();
  for (const [terminal, meaning] of packed.outcomes) terminals.set(terminal, outcomeOf(outcomes, meaning, terminals));
  // What holds and what does not are the first two outcomes, which stay as they are.
  const roots = loadPacked(diagrams, packed.diagrams, levelOf).map((root) =>
    diagrams.map('read', root, (terminal) => terminals.get(terminal) ?? terminal),
  );
  const nodes = (places: readonly number[]): Node[] => places.map((place) => roots[place] as Node);
  const on = packed.on.map((each, index): ExplorableFit => {
    const guards = nodes(each.guards);
    return {
      fit: settled[index] as ExplorableFit['fit'],
      constraints: nodes(each.constraints),
      possible: nodes(each.possible),
      guards: packed.leaps.map((_, leap) => {
        const [now, later, event] = guards.slice(3 * leap, 3 * leap + 3) as [Node, Node, Node];
        return { now, later, event };
      }),
      behaviours: nodes(each.behaviours),
      hearings: each.hearings.map((pairs) =>
        pairs.flatMap((during, at) =>
          at % 2 === 0 ? [] : [{ becomes: roots[pairs[at - 1] ?? -1], during: roots[during] as Node }],
        ),
      ),
      start: new Map(each.start.flatMap((value, level): [number, number][] => (value < 0 ? [] : [[level, value]]))),
    };
  });
  const explorer = new Explorer({
    ...{ space, diagrams, outcomes, fits, on },
    fleet: { items, options },
    attributes: items.flatMap((item) => item.attributes.map((attribute) => ({ item, attribute }))),
    leaps: packed.leaps.map(([level, from, to]) => ({ level: levelOf(level), from, to })),
    sounds: packed.sounds.map(({ triggers, ...sound }) => ({
      sound,
      triggers: triggers.map(({ level, ...trigger }) =>
        level === undefined ? {} : { ...trigger, level: levelOf(level) },
      ),
    })),
    detectors: packed.meanings.flatMap((each) =>
      each.kind === 'detector' ? [{ level: levelOf(each.level), number: levelOf(each.number), rises: each.rises }] : [],
    ),
    unstated: new Map(
      packed.meanings.flatMap((each): [number, string][] =>
        each.kind === 'unstated' ? [[levelOf(each.level), each.query]] : [],
      ),
    ),
  });
  return { explorer, asOf: words.asOf, aircraft, panels, delays: packed.delays };
}

function hiddenOr(packed: PackedExplorer['meanings'][number], definitions: ReadDefinitions): Meaning {
  if (packed.kind === 'detector') {
    const { id, title } = packed;
    const said = { says: '', saysNot: '', by: '>', value: '0', tolerance: '0', number: '' } as const;
    return { kind: 'detector', detector: { ...said, id, title, place: NOWHERE } };
  }
  if (packed.kind === 'unstated') {
    const item = definitions.items.find(({ id }) => id === packed.id);
    const attribute = item?.attributes.find(({ id }) => id === packed.attribute);
    if (!item || !attribute) throw new Error(`no attribute is called ${packed.id}.${packed.attribute}`);
    return { kind: 'unstated', item, attribute: attribute satisfies Attribute };
  }
  return meaningOf(packed, definitions);
}
