/**
 * What following a case by hand asks of a compiled fleet, so that a reader's copy of no more than that can be followed too:
 * which inputs can stand together, which transitions are taken when, and what each item is in an extended case.
 */
import type { Node } from '../../logic/index.ts';
import type { Attribute, Item, Sound, Transition, Trigger } from '../../model/index.ts';
import type { Facts } from '../because.ts';
import { inputConstraints } from '../care.ts';
import type { Worded } from '../comparable.ts';
import type { Compiled } from '../compile.ts';
import type { SettledFit } from '../fits.ts';
import { queryAt } from '../groups.ts';
import { type ModeStep, modeSteps } from '../mode-steps.ts';
import { isFittedOn } from '../positions.ts';
import type { Possible } from '../possible.ts';
import { levelOf, optionLevels, type Space, valueIds } from '../space.ts';
import { startingCase } from './starting-case.ts';

/** A transition from one mode to another; where it is taken hangs on the fit. */
export type Leap = Pick<ModeStep, 'level' | 'from' | 'to'>;
/** Where it is taken at once, where in time, and what must have happened in the mode before. */
export type Guard = Pick<ModeStep, 'now' | 'later' | 'event'>;

/** What sets a sound off beside the diagrams: which level must move, from and to which values; absent: any. */
export interface HeardAt {
  readonly level?: number;
  readonly from?: readonly number[];
  readonly to?: readonly number[];
}
/** False before and true after, and true after. */
export interface Hearing {
  readonly becomes: Node | undefined;
  readonly during: Node;
}

/** A settled fit; no diagram reads an option. */
export interface ExplorableFit {
  readonly fit: SettledFit;
  /** What must hold of inputs and of the answers of detectors. */
  readonly constraints: readonly Node[];
  /** What holds in exactly the cases that can happen, modes among them. */
  readonly possible: readonly Node[];
  /** Parallel to the leaps. */
  readonly guards: readonly Guard[];
  /** Parallel to the attributes: from extended cases to outcomes. */
  readonly behaviours: readonly Node[];
  /** Parallel to the sounds, by trigger; none of a sound that the fit lacks. */
  readonly hearings: readonly (readonly Hearing[])[];
  /** A normal case that can stand, without what is hidden from readers. */
  readonly start: Facts;
}

export interface Explorable extends Worded, Pick<Compiled, 'fits'> {
  readonly attributes: readonly { readonly item: Item; readonly attribute: Attribute }[];
  /** In their order of priority. */
  readonly leaps: readonly Leap[];
  readonly sounds: readonly {
    readonly sound: Pick<Sound, 'id' | 'title' | 'sounds'>;
    readonly triggers: readonly HeardAt[];
  }[];
  /** The level of each detector and of its number, and whether it trips as the number rises. */
  readonly detectors: readonly { readonly level: number; readonly number: number; readonly rises: boolean }[];
  /** The levels of answers that nobody has given, with the query that asks for each. */
  readonly unstated: ReadonlyMap<number, string>;
  /** Parallel to the settled fits. */
  readonly on: readonly ExplorableFit[];
}

/** The transitions behind the leaps, each as often as there are modes that it leads from. */
export function transitionsOfLeaps({ fleet }: Pick<Compiled, 'fleet'>): Transition[] {
  return fleet.sequences.flatMap(({ transitions }) =>
    transitions.flatMap((transition) => transition.from.map(() => transition)),
  );
}

/** The fleet as its cases can be followed. */
export function explorable(compiled: Compiled): Explorable {
  const { fleet, space, diagrams, expressions, settled, behaviours } = compiled;
  const on = settled.map((fit) => {
    const options = optionLevels(space, fit);
    const here = (node: Node): Node => diagrams.restrictAll(node, options);
    const constraints = inputConstraints(fleet, space, diagrams, expressions, fit);
    const steps = modeSteps(compiled, here);
    return {
      steps,
      explorable: {
        fit,
        possible: (compiled.possible[fit.index] as Possible).constraints.filter((node) => node !== diagrams.yes),
        constraints: [...new Set(constraints)].filter((node) => node !== diagrams.yes),
        guards: steps.map(({ now, later, event }) => ({ now, later, event })),
        behaviours: behaviours.map(({ node }) => here(node)),
        hearings: fleet.sounds.map((sound) => (isFittedOn(sound, fit) ? hearingsOf(compiled, sound, here) : [])),
        start: startingCase(compiled, fit),
      },
    };
  });
  return {
    ...compiled,
    attributes: behaviours,
    leaps: (on[0]?.steps ?? []).map(({ level, from, to }) => ({ level, from, to })),
    sounds: fleet.sounds.map((sound) => ({
      sound,
      triggers: sound.triggers.map((trigger) => heardAt(space, trigger)),
    })),
    detectors: fleet.detectors.map(({ id, number, by }) => ({
      level: levelOf(space, id),
      number: levelOf(space, number),
      rises: by.startsWith('>'),
    })),
    unstated: new Map(
      space.meanings.flatMap(({ kind }, level) => (kind === 'unstated' ? [[level, queryAt(space, level)]] : [])),
    ),
    on: on.map((each) => each.explorable),
  };
}

function hearingsOf(
  { diagrams, expressions }: Pick<Compiled, 'diagrams' | 'expressions'>,
  { triggers }: Sound,
  here: (node: Node) => Node,
): Hearing[] {
  return triggers.map(({ becomes, while: during }) => ({
    becomes: becomes && here(expressions.compile(becomes, true)),
    during: during ? here(expressions.compile(during, true)) : diagrams.yes,
  }));
}

function heardAt(space: Space, { moves, from, to }: Trigger): HeardAt {
  if (moves === undefined) return {};
  const level = levelOf(space, moves);
  const ids = idsAt(space, level, moves);
  const among = (values: readonly string[]): number[] => [...ids.keys()].filter((at) => values.includes(ids[at] ?? ''));
  return { level, ...(from ? { from: among(from) } : {}), ...(to ? { to: among(to) } : {}) };
}

/** The ids of a variable's values; of a control that shares it, those of its own positions. */
function idsAt(space: Space, level: number, id: string): readonly string[] {
  const meaning = space.meanings[level];
  if (!meaning) throw new Error(`no variable is called ${id}`);
  if (meaning.kind !== 'control') return valueIds(meaning);
  const own = meaning.controls.find((control) => control.id === id);
  return meaning.values.map((value) => (own ? (own.positions[value.get(own) ?? -1]?.id ?? '') : ''));
}
