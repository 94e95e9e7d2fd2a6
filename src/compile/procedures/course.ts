/** A procedure on one fit: for each stage where everything stands, and the cases that can be then. */
import { thresholdCut } from '../../language/index.ts';
import type { Node } from '../../logic/index.ts';
import {
  type Control,
  holdsOnFit,
  type Procedure,
  type Stage,
  type StageFact,
  type WantedPosition,
} from '../../model/index.ts';
import type { SettledFit } from '../fits.ts';
import { modeSteps } from '../mode-steps.ts';
import type { Possible } from '../possible.ts';
import { controlMeaning, levelOf, type Meaning, optionLevels, valueIds, valueOfPosition } from '../space.ts';
import {
  type Fitted,
  fittedOn,
  type Ground,
  modeLevels,
  restPosition,
  startModes,
  startValues,
  type Values,
} from './ground.ts';
import { settled } from './settle.ts';

/** One control in one stage on one fit. */
export interface StagePosition {
  readonly control: Control;
  /** By index. */
  readonly position: number;
  /** What the stage says of it; absent where an earlier one did, or none. */
  readonly wanted?: WantedPosition;
  /** The position that it springs back to; absent where it stays. */
  readonly back?: number;
}

/** A stage on one settled fit. */
export interface StageCases {
  readonly stage: Stage;
  /** Every control that is fitted, in the order of the fleet. */
  readonly positions: readonly StagePosition[];
  /** What may be said of inputs, with what earlier stages have said. Without the answers of detectors. */
  readonly values: Values;
  /** The levels that this stage or an earlier one speaks of. */
  readonly said: ReadonlySet<number>;
  /** The modes that this stage asks for. */
  readonly modes: Values;
  /** What is certain, modes too. */
  readonly facts: ReadonlyMap<number, number>;
  /** All cases that can be, given the facts: a Boolean diagram over what they leave open. `no` where none can. */
  readonly cases: Node;
}

/** The stages of a procedure on a fit, in order. After one that cannot happen the sequences are as before it. */
export function courseOn(ground: Ground, procedure: Procedure, fit: SettledFit): StageCases[] {
  const fitted = fittedOn(ground, fit);
  let before: Pick<StageCases, 'values' | 'said'> = { values: startValues(ground, fitted), said: new Set() };
  let modes = startModes(ground, fit);
  const at = new Map<string, number>();
  return procedure.stages.map((stage) => {
    const positions = positionsIn(stage, fit, fitted, at);
    for (const { control, position, back } of positions) at.set(control.id, back ?? position);
    const next = inputsIn(ground, stage, fit, before, positions);
    const reached = casesIn(ground, fit, next, modes);
    if (reached.cases !== ground.diagrams.no) modes = reached.modes;
    before = next;
    return {
      stage,
      positions,
      values: next.values,
      said: next.said,
      modes: next.modes,
      facts: reached.facts,
      cases: reached.cases,
    };
  });
}

/** The position that a stage wants of a control on a fit; undefined where it says nothing of it. */
export function wantedOn(
  wanted: readonly WantedPosition[],
  fit: Pick<SettledFit, 'options'>,
): WantedPosition | undefined {
  return wanted.find(({ when }) => when === undefined || holdsOnFit(when, fit.options) === true);
}

/** Where the fitted controls stand; `at` says where the stage before left them. */
function positionsIn(stage: Stage, fit: SettledFit, fitted: Fitted, at: ReadonlyMap<string, number>): StagePosition[] {
  return [...fitted].map(([control, has]): StagePosition => {
    const stood = at.get(control.id) ?? restPosition(control, has);
    const entry = stage.positions.find((each) => each.control === control.id);
    const wanted = entry && wantedOn(entry.wanted, fit);
    const position = has.find((index) => control.positions[index]?.id === wanted?.position);
    if (wanted === undefined || position === undefined) return { control, position: stood };
    const back = control.positions.findIndex(({ id }) => id === control.positions[position]?.returns);
    return { control, position, wanted, ...(back < 0 ? {} : { back }) };
  });
}

interface StageInputs extends Pick<StageCases, 'values' | 'said' | 'modes'> {
  /** Where controls stand for a moment, by level. */
  readonly held: Values;
}

function inputsIn(
  ground: Ground,
  stage: Stage,
  fit: SettledFit,
  before: Pick<StageCases, 'values' | 'said'>,
  positions: readonly StagePosition[],
): StageInputs {
  const { space } = ground;
  const values = new Map(before.values);
  const said = new Set(before.said);
  const modes = new Map<number, readonly number[]>();
  const held = new Map<number, readonly number[]>();
  for (const fact of stage.facts) {
    const level = levelOf(space, fact.id);
    const meaning = space.meanings[level] as Meaning;
    const some = valuesOf(meaning, fact);
    if (meaning.kind !== 'sequence') values.set(level, some);
    // A sequence that the fit lacks has no mode to be in.
    else if (isFitted(ground, fit, level)) modes.set(level, some);
    said.add(level);
  }
  for (const { control, position, wanted, back } of positions) {
    const level = levelOf(space, control.id);
    const value = (index: number): number[] => [valueOfPosition(controlMeaning(space, control), control, index)];
    values.set(level, value(back ?? position));
    if (back !== undefined) held.set(level, value(position));
    if (wanted) said.add(level);
  }
  return { values, said, modes, held };
}

/** The values of a variable that a stage speaks of; of a number the cells that lie in its range, or in part. */
function valuesOf(meaning: Meaning, { values, range }: StageFact): number[] {
  if (meaning.kind === 'number' && range && meaning.condition.number) {
    const [first] = thresholdCut(meaning.condition.number, '>=', range.from) ?? [0n];
    const [, last] = thresholdCut(meaning.condition.number, '<=', range.to) ?? [0n, 0n];
    return meaning.cells.flatMap((cell, at) => (cell.last >= first && cell.first <= last ? [at] : []));
  }
  return valueIds(meaning).flatMap((id, value) => (values?.includes(id) ? [value] : []));
}

interface Reached extends Pick<StageCases, 'facts' | 'cases'> {
  /** Without inputs: where the next stage begins. */
  readonly modes: Node;
}

/** First the acts, as long as nothing waits; then what the stage says, until nothing moves any more. */
function casesIn(ground: Ground, fit: SettledFit, inputs: StageInputs, start: Node): Reached {
  const { diagrams, space } = ground;
  const modes = modeLevels(ground);
  let now = start;
  if (inputs.held.size > 0) {
    const released = tiedTo(ground, fit, inputs);
    const values = new Map([...inputs.values, ...inputs.held].filter(([level]) => !released.has(level)));
    now = run(ground, fit, values, released, now, new Map(), false).modes;
  }
  const { facts, cases } = run(ground, fit, inputs.values, new Set(), now, inputs.modes, true);
  const open = inputLevels(ground).filter((level) => !facts.has(level));
  const can = (ground.possible[fit.index] as Possible).only([...open, ...modes], facts);
  const all = diagrams.and(cases, can);
  const certain = new Map(facts);
  for (const level of diagrams.support(all)) {
    const size = space.variables[level]?.size ?? 0;
    const left = Array.from({ length: size }, (_, value) => value).filter(
      (value) => diagrams.restrict(all, level, value) !== diagrams.no,
    );
    const [only] = left;
    if (left.length === 1 && only !== undefined) certain.set(level, only);
  }
  return {
    facts: certain,
    cases: diagrams.restrictAll(all, certain),
    modes: diagrams.exists(all, inputLevels(ground)),
  };
}

/** Where the sequences come to from `start` with these inputs, those `asked` for standing still. */
function run(
  ground: Ground,
  fit: SettledFit,
  values: Values,
  free: ReadonlySet<number>,
  start: Node,
  asked: Values,
  patient: boolean,
): { readonly facts: ReadonlyMap<number, number>; readonly cases: Node; readonly modes: Node } {
  const { diagrams, space, inputs } = ground;
  const facts = new Map<number, number>();
  const several: Node[] = [];
  for (const [level, some] of values) {
    const [only] = some;
    if (some.length === 1 && only !== undefined) facts.set(level, only);
    else several.push(diagrams.literal(level, some));
  }
  const open = inputLevels(ground).filter((level) => !facts.has(level));
  const given = diagrams.and((inputs[fit.index] as Possible).only([...open, ...free], facts), ...several);
  const standing = [...asked].map(([level, some]) => diagrams.literal(level, some));
  const begin = diagrams.and(given, diagrams.exists(start, [...asked.keys()]), ...standing);
  const known = new Map([...optionLevels(space, fit), ...facts]);
  const steps = modeSteps(ground, (node) => diagrams.restrictAll(node, known)).filter(({ level }) => !asked.has(level));
  const cases = settled(diagrams, begin, steps, modeLevels(ground), patient);
  return { facts, cases, modes: diagrams.exists(cases, inputLevels(ground)) };
}

/** Everything that is not an option, a mode, a store or an answer that nobody has given. */
function inputLevels({ space }: Ground): number[] {
  return space.meanings.flatMap(({ kind }, level) =>
    kind === 'option' || kind === 'sequence' || kind === 'store' || kind === 'unstated' ? [] : [level],
  );
}

function isFitted({ families, space }: Ground, fit: SettledFit, level: number): boolean {
  return (families[fit.index] ?? []).some(({ sequences }) => sequences.some(({ id }) => levelOf(space, id) === level));
}

/** The conditions that no stage has spoken of and that what never happens ties to a control that is held. */
function tiedTo(
  { fleet, space, diagrams, expressions }: Ground,
  fit: SettledFit,
  { held, said }: StageInputs,
): Set<number> {
  const options = optionLevels(space, fit);
  return new Set(
    fleet.never.flatMap(({ expression }) => {
      const levels = diagrams.support(diagrams.restrictAll(expressions.compile(expression), options));
      if (!levels.some((level) => held.has(level))) return [];
      return levels.filter((level) => {
        const kind = space.meanings[level]?.kind;
        return (kind === 'condition' || kind === 'number') && !said.has(level);
      });
    }),
  );
}
