/** What the positions of a control do to sequences: the transitions that wait for one of them. */
import {
  type Compiled,
  controlMeaning,
  type Fit,
  isHidden,
  levelOf,
  positionsOf,
  type SettledFit,
  transitionGuard,
  valueOfPosition,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import { minimalCover, type Node, sparse } from '../logic/index.ts';
import type { Control, Position, Sequence, Transition } from '../model/index.ts';
import { sequenceAddress } from './addresses.ts';
import type { ControlledSequence, Inline } from './book.ts';
import { plain, text } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { expressionWords } from './expression-words.ts';
import { namedIn } from './mentions.ts';
import { delayWords } from './pages/sequence.ts';
import { cubeWords } from './phrases.ts';
import { positionLegend } from './positions.ts';

/** What would take more alternatives is said in the author's words, with the control itself in them. */
const MOST_ALTERNATIVES = 3;

/** One entry for each sequence that waits for it, for aircraft on which all positions do the same. */
export function controlledSequences(compiled: Compiled, control: Control): ControlledSequence[] {
  const fitted = compiled.fits.filter((fit) => positionsOf(control, fit).length > 0);
  return compiled.fleet.sequences.flatMap((sequence) => {
    const say = (fit: Fit): ControlledSequence['positions'] => positionsOn(compiled, control, sequence, fit);
    const groups = Map.groupBy(fitted, (fit) => JSON.stringify(say(fit)));
    return [...groups.values()].flatMap((fits): ControlledSequence[] => {
      const positions = say(fits[0] as Fit);
      if (positions.every(({ sentences }) => sentences.length === 0)) return [];
      return [
        {
          sequence: { to: sequenceAddress(sequence), title: sequence.title },
          noun: sequence.noun,
          effectivity: effectivityOf(compiled, fits),
          positions,
        },
      ];
    });
  });
}

function positionsOn(
  compiled: Compiled,
  control: Control,
  sequence: Sequence,
  fit: Fit,
): ControlledSequence['positions'] {
  // What hangs on the control through some item is told on the page of that.
  const isNamed = ({ guard }: Transition): boolean =>
    guard !== undefined &&
    namedIn(compiled.fleet, [guard.when]).some(({ kind, id }) => kind === 'control' && id === control.id);
  return positionsOf(control, fit).map((index) => ({
    legend: plain(positionLegend(control.positions[index] as Position, fit.settled)),
    sentences: sequence.transitions.filter(isNamed).flatMap((transition) => {
      const words = fit.settled.map((settled) =>
        transitionWords(compiled, control, index, sequence, transition, settled),
      );
      // Of an aircraft with unknown options the first that says anything is told.
      const [first] = words.filter((each) => each.length > 0);
      return first ? [first] : [];
    }),
  }));
}

/** "Takes the APU from stopped to opening with the battery switch at ON." Empty where the position has nothing to do with it. */
function transitionWords(
  compiled: Compiled,
  control: Control,
  position: number,
  sequence: Sequence,
  transition: Transition,
  fit: SettledFit,
): Inline[] {
  const { diagrams, space, expressions, fleet } = compiled;
  const level = levelOf(space, control.id);
  const options = new Map(
    space.meanings.flatMap((meaning, at): [number, number][] => {
      if (meaning.kind !== 'option') return [];
      return [[at, meaning.option.values.findIndex(({ id }) => id === fit.options.get(meaning.option.id))]];
    }),
  );
  const { now, later } = transitionGuard(transition, space, diagrams, expressions, (node) =>
    diagrams.restrictAll(node, options),
  );
  const guard = diagrams.or(now, later);
  const value = valueOfPosition(controlMeaning(space, control), control, position);
  const here = diagrams.restrict(guard, level, value);
  const isTaken = (compiled.families[fit.index] ?? []).some((family) => family.taken.has(transition));
  if (!isTaken || !diagrams.support(guard).includes(level) || here === diagrams.no) return [];
  // A fit need not reach every mode that it could leave so.
  const own = levelOf(space, sequence.id);
  const modes = (compiled.possible[fit.index] as Compiled['possible'][number]).only([own]);
  const from = transition.from.filter((mode) => {
    const at = sequence.modes.findIndex(({ id }) => id === mode);
    return diagrams.restrict(modes, own, at) !== diagrams.no;
  });
  const title = (mode: string): string => sequence.modes.find(({ id }) => id === mode)?.title ?? mode;
  const delay = delayWords(fleet, transition);
  return [
    text(`Takes ${sequence.noun} from ${list(from.map(title))} to ${title(transition.to)}`),
    ...whenWords(compiled, transition, here, new Map([[level, value]]), fit),
    ...(delay.length === 0 ? [] : [text(', '), ...delay]),
    text('.'),
  ];
}

/** " with the battery switch at ON"; in the author's words where it waits for what readers see as a number. */
function whenWords(
  compiled: Compiled,
  { guard }: Transition,
  here: Node,
  given: ReadonlyMap<number, number>,
  fit: SettledFit,
): Inline[] {
  const { diagrams, space, fleet } = compiled;
  const columns = diagrams.support(here);
  if (guard && columns.some((each) => isHidden(space.meanings[each])))
    return [text(' '), ...expressionWords(fleet, guard.when)];
  const possible = (compiled.possible[fit.index] as Compiled['possible'][number]).only(columns, given);
  const [on, off] = [here, diagrams.not(here)].map((cases) => diagrams.and(cases, possible)) as [Node, Node];
  if (off === diagrams.no) return [];
  const { cubes } = minimalCover(diagrams, columns, on, off);
  if (guard && cubes.length > MOST_ALTERNATIVES) return [text(' '), ...expressionWords(fleet, guard.when)];
  return sparse(diagrams, columns, cubes, on).flatMap((cube, at) => [
    text(at === 0 ? ' ' : ', or '),
    ...cubeWords(compiled, columns, cube, [fit]),
  ]);
}
