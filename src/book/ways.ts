/**
 * How an item comes to be as it is: for each state on each group of aircraft a plain case, the fewest facts that are
 * enough for it, and the fewest movements that lead there.
 */
import {
  absentValue,
  type Behaviour,
  because,
  type Compiled,
  type Facts,
  fewestMovements,
  type Group,
  levelsBehind,
  normalValue,
  type On,
  type SettledFit,
  type Step,
  valueIds,
} from '../compile/index.ts';
import type { Node } from '../logic/index.ts';
import { type Control, type Item, withSmallInitial } from '../model/index.ts';
import { attributeTitle, groupAnchor } from './attributes.ts';
import type { Inline, WaysView, WayView } from './book.ts';
import { cellText, stateView, text } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { settledOf } from './fits.ts';
import { cubeWords } from './phrases.ts';
import { meaningAt } from './tables.ts';

/** The most situations that the search for movements looks at, for one state on one group. */
const MOST_SITUATIONS = 2_000;

/** Of all that can be seen of the item, single lamps apart, where it is not always the same. */
export function waysOf(compiled: Compiled, item: Item): WaysView[] {
  return compiled.behaviours
    .filter((behaviour) => behaviour.item === item && behaviour.attribute.lamp === undefined)
    .flatMap((behaviour): WaysView[] => {
      const told = behaviour.groups.flatMap((group) => {
        const ways = waysOn(compiled, behaviour, group);
        return ways.length > 1 ? [{ group, ways }] : [];
      });
      // Groups that differ in other cases may have the same ways.
      const groups = [...Map.groupBy(told, ({ ways }) => JSON.stringify(ways)).values()].map((same) => {
        const [{ group, ways }] = same as [(typeof told)[number]];
        const fits = same.flatMap((each) => each.group.fits);
        return { id: `${groupAnchor(behaviour, group)}-ways`, effectivity: effectivityOf(compiled, fits), ways };
      });
      const id = `${item.id}-${behaviour.attribute.id}-ways`;
      return groups.length > 0 ? [{ id, title: attributeTitle(behaviour), groups }] : [];
    });
}

/** One way for each state that is certain in some case, in the author's order. */
function waysOn(compiled: Compiled, behaviour: Behaviour, group: Group): WayView[] {
  const { outcomes, diagrams } = compiled;
  const [fit] = group.fits;
  const [settled] = fit?.settled ?? [];
  if (!fit || !settled) return [];
  const reached = new Set(diagrams.terminals(group.form));
  return behaviour.attribute.states.flatMap((state): WayView[] => {
    const outcome = outcomes.ofState(state.id);
    if (!reached.has(outcome)) return [];
    const on = settledOf(group.fits);
    const given = plainCase(compiled, settled, diagrams.casesOf(group.form, outcome), diagrams.support(group.form));
    const reasons = because(diagrams, group.form, given);
    return [
      {
        state: stateView(compiled, behaviour.attribute, outcome),
        example: factWords(compiled, fitted(compiled, given), on),
        reasons: reasons.size < given.size ? factWords(compiled, reasons, on) : [],
        ...(fit.settled.length > 1 ? {} : movementsTo(compiled, behaviour, group, settled, state.id, given)),
      },
    ];
  });
}

/** From the plainest case of all where controls alone lead there, or else with conditions as in the example. */
function movementsTo(
  compiled: Compiled,
  behaviour: Behaviour,
  group: Group,
  fit: SettledFit,
  state: string,
  example: Facts,
): Pick<WayView, 'start' | 'steps'> {
  const { diagrams, outcomes } = compiled;
  const moves = (level: number): boolean => ['control', 'sequence'].includes(meaningAt(compiled, level).kind);
  const still = (facts: Facts): Map<number, number> => new Map([...facts].filter(([level]) => !moves(level)));
  const seen = levelsBehind(compiled, fit, behaviour);
  const possible = (compiled.possible[fit.index] as Compiled['possible'][number]).only(seen);
  const plainly = plainCase(compiled, fit, possible, seen);
  const outcome = outcomes.ofState(state);
  const leads = diagrams.terminals(diagrams.restrictAll(group.form, still(plainly))).includes(outcome);
  const changed = new Map([...still(example)].filter(([level, value]) => plainly.get(level) !== value));
  const within = leads ? possible : diagrams.restrictAll(possible, still(example));
  const start = leads ? plainly : new Map([...plainCase(compiled, fit, within, seen), ...still(example)]);
  const on = [fit];
  const steps = fewestMovements(compiled, fit, behaviour, [state], start, MOST_SITUATIONS);
  return {
    start: leads ? [] : factWords(compiled, changed, on),
    ...(steps ? { steps: steps.map((step) => stepWords(compiled, step, on)) } : {}),
  };
}

/**
 * A case out of a set: conditions at their normal or first value as far as they can be, then sequences in their first mode,
 * numbers low, and controls in the first position that they stay in. A value for each of the levels.
 */
function plainCase(compiled: Compiled, fit: SettledFit, set: Node, levels: readonly number[]): Map<number, number> {
  const { diagrams, space } = compiled;
  const rank = (level: number): number => ORDER.indexOf(meaningAt(compiled, level).kind);
  const facts = new Map<number, number>();
  let left = set;
  for (const level of levels.toSorted((a, b) => rank(a) - rank(b) || a - b)) {
    const size = space.variables[level]?.size ?? 0;
    const values = [
      ...new Set([...plainValues(compiled, level), ...Array.from({ length: size }, (_, value) => value)]),
    ];
    const value = values.find((each) => diagrams.restrict(left, level, each) !== diagrams.no);
    if (value === undefined) throw new Error(`no case of fit ${fit.index} is left`);
    facts.set(level, value);
    left = diagrams.restrict(left, level, value);
  }
  return new Map([...facts].sort(([a], [b]) => a - b));
}

const ORDER = ['condition', 'lamp', 'sequence', 'number', 'control'];

/** The values to try first. */
function plainValues(compiled: Compiled, level: number): number[] {
  const meaning = meaningAt(compiled, level);
  const normal = normalValue(meaning);
  if (normal !== undefined) return [normal];
  if (meaning.kind === 'sequence') return [valueIds(meaning).indexOf(meaning.sequence.initial)];
  if (meaning.kind !== 'control') return [];
  return meaning.values.flatMap((positions, value) =>
    [...positions].some(([control, index]) => isOrdinary(control.positions[index])) ? [value] : [],
  );
}

/** Whether a control can be left there, and nobody will wonder. */
function isOrdinary(position: Control['positions'][number] | undefined): boolean {
  return position?.returns === undefined && position?.abnormal !== true;
}

/** Without controls that are absent: that goes without saying. */
function fitted(compiled: Compiled, facts: Facts): Facts {
  return new Map(
    [...facts].filter(([level, value]) => {
      const meaning = meaningAt(compiled, level);
      return meaning.kind !== 'control' || value !== absentValue(meaning);
    }),
  );
}

function factWords(compiled: Compiled, facts: Facts, on: On): Inline[] {
  return cubeWords(
    compiled,
    [...facts.keys()],
    [...facts.values()].map((value) => [value]),
    on,
  );
}

/** "set the logo switch to ON", "hold the lamp check at PRESSED", "wait until the APU is in the mode running". */
function stepWords(compiled: Compiled, step: Step, on: On): Inline[] {
  if (step.kind === 'wait') {
    const mode = step.sequence.modes.find(({ id }) => id === step.mode);
    return [text(`wait until ${step.sequence.noun} is in the mode ${mode?.title ?? step.mode}`)];
  }
  const meaning = meaningAt(compiled, step.level);
  const position = meaning.kind === 'control' ? meaning.values[step.value]?.get(step.control) : undefined;
  const springs = step.control.positions[position ?? -1]?.returns !== undefined;
  const title = withSmallInitial(step.control.title);
  return [text(springs ? `hold the ${title} at ` : `set the ${title} to `), ...cellText(meaning, [step.value], on)];
}
