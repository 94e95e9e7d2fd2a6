/** What is so in a stage: what its author says, and the modes that sequences have come to. */
import { type Compiled, type Fit, formatNumber, levelOf, type StageCases, valuesTitle } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { Sequence, StageFact } from '../../model/index.ts';
import { conditionAddress, sequenceAddress } from '../addresses.ts';
import type { FactView } from '../book-procedures.ts';
import { effectivityOf } from '../effectivity.ts';
import { meaningAt } from '../tables.ts';
import { type CourseStage, onFit } from './stands.ts';

/** What a stage and those before it say of conditions, the latest word of each. */
export type Said = ReadonlyMap<string, StageFact>;

/** What the stage at an index of the course says, and what has come about in it; and what is so since an earlier one. */
export function factsOf(
  compiled: Compiled,
  course: readonly CourseStage[],
  at: number,
): { readonly facts: FactView[]; readonly kept: FactView[] } {
  const here = course[at] as CourseStage;
  const named = new Set(here.stage.facts.map(({ id }) => id));
  const said: Said = new Map(
    course.slice(0, at + 1).flatMap(({ stage }) => stage.facts.map((fact): [string, StageFact] => [fact.id, fact])),
  );
  const conditions = compiled.fleet.conditions.flatMap(({ id }) => {
    const fact = said.get(id);
    return fact ? [{ id, view: conditionView(compiled, fact) }] : [];
  });
  // Latches are told by what they light.
  const sequences = compiled.fleet.sequences.filter(({ kind }) => kind === 'sequence');
  const modes = sequences.map((sequence) => {
    const views = modeViews(compiled, here, sequence);
    const before = course[at - 1];
    const moved =
      before !== undefined && JSON.stringify(views) !== JSON.stringify(modeViews(compiled, before, sequence));
    return { now: moved || named.has(sequence.id), views };
  });
  return {
    facts: [
      ...conditions.filter(({ id }) => named.has(id)).map(({ view }) => view),
      ...modes.filter(({ now }) => now).flatMap(({ views }) => views),
    ],
    kept: [
      ...conditions.filter(({ id }) => !named.has(id)).map(({ view }) => view),
      ...modes.filter(({ now }) => !now).flatMap(({ views }) => views),
    ],
  };
}

function conditionView(compiled: Compiled, { id, values, range }: StageFact): FactView {
  const condition = compiled.fleet.conditions.find((each) => each.id === id);
  if (!condition) throw new Error(`no condition is called ${id}`);
  const { number } = condition;
  const say = (decimal: string): string => formatNumber(decimal);
  const numbers = (): string => {
    if (!number || !range) return '';
    if (range.from === number.from && range.to === number.to) return 'any value';
    const last = `${say(range.to)} ${number.unit}`;
    return range.from === range.to ? last : `${say(range.from)} to ${last}`;
  };
  const titles = (condition.values ?? []).filter((value) => values?.includes(value.id)).map(({ title }) => title);
  return {
    what: { to: conditionAddress(condition), title: condition.title },
    value: number ? numbers() : list(titles),
    effectivity: effectivityOf(compiled, compiled.fits),
  };
}

/** The modes of a sequence in a stage, by aircraft; none on those that lack it. */
function modeViews(compiled: Compiled, stage: CourseStage, sequence: Sequence): FactView[] {
  const level = levelOf(compiled.space, sequence.id);
  const words = (fit: Fit): string => {
    const values = new Set(onFit(stage, fit).flatMap((cases) => modesIn(compiled, cases, level)));
    values.delete(sequence.modes.length);
    const sorted = [...values].sort((a, b) => a - b);
    return sorted.length === 0 ? '' : valuesTitle(meaningAt(compiled, level), sorted);
  };
  return [...Map.groupBy(compiled.fits, words)].flatMap(([value, fits]): FactView[] =>
    value === ''
      ? []
      : [
          {
            what: { to: sequenceAddress(sequence), title: sequence.title },
            value,
            effectivity: effectivityOf(compiled, fits),
          },
        ],
  );
}

function modesIn({ diagrams, space }: Compiled, { facts, cases }: StageCases, level: number): number[] {
  const certain = facts.get(level);
  if (certain !== undefined) return [certain];
  const all = Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => value);
  return all.filter((value) => diagrams.restrict(cases, level, value) !== diagrams.no);
}
