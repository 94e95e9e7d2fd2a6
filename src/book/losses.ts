/**
 * What is seen when a supply is lost: every item's behaviour in normal cases against the same cases with one condition, or
 * the fewest that it takes, away from its normal value.
 */
import {
  type Behaviour,
  type Compiled,
  idOf,
  type Meaning,
  normalValue,
  valueIds,
  valueTitle,
  variableTitle,
} from '../compile/index.ts';
import { withSmallInitial } from '../model/index.ts';
import type { Inline } from './book.ts';
import type { LossView } from './book-supplies.ts';
import { joined, link, plain, variableAddress } from './cells.ts';
import { type Cause, lossPairs } from './loss-forms.ts';
import { lossRows } from './loss-rows.ts';
import { meaningAt } from './tables.ts';

/** The most conditions that are taken away at once, and the most sets of them that are tried for one supply. */
const MOST_TOGETHER = 3;
const MOST_TRIED = 2_000;

/** Every feeding condition away from its normal value, then what else it takes to lose a supply. */
export function causes(compiled: Compiled): Cause[] {
  const { fleet, space } = compiled;
  const feeding = new Set(
    fleet.items.flatMap(({ supply, attributes }) => [
      ...supply,
      ...attributes.flatMap(({ lamp }) => lamp?.supply ?? []),
    ]),
  );
  const single = space.meanings.flatMap((meaning, level): Cause[] =>
    meaning.kind === 'condition' && feeding.has(meaning.condition.id)
      ? abnormalValues(meaning).map((value) => new Map([[level, value]]))
      : [],
  );
  const others = compiled.behaviours
    .filter(({ item }) => item.kind === 'supply')
    .flatMap((behaviour) => causesOf(compiled, behaviour));
  return [...new Map([...single, ...others].map((cause) => [anchorOf(compiled, cause), cause])).values()];
}

/** The smallest sets of conditions that take a supply away which is there in a normal case, on some aircraft. */
export function causesOf(compiled: Compiled, behaviour: Behaviour): Cause[] {
  const { diagrams, outcomes, fits } = compiled;
  const lost = outcomes.ofState('lost');
  const levels = [...new Set(behaviour.forms.flatMap((form) => diagrams.support(form)))]
    .filter((level) => isCondition(meaningAt(compiled, level)))
    .sort((a, b) => a - b);
  const found: Cause[] = [];
  let tried = 0;
  for (let size = 1; size <= MOST_TOGETHER; size += 1) {
    for (const cause of sets(compiled, levels, size)) {
      if (found.some((smaller) => [...smaller].every(([level, value]) => cause.get(level) === value))) continue;
      tried += 1;
      if (tried > MOST_TRIED) return found;
      const takesAway = fits.some((fit) =>
        lossPairs(compiled, behaviour, fit, cause).some(([normally, then]) => then === lost && normally !== lost),
      );
      if (takesAway) found.push(cause);
    }
  }
  return found;
}

export function anchorOf(compiled: Compiled, cause: Cause): string {
  const parts = [...cause].map(([level, value]) => {
    const meaning = meaningAt(compiled, level);
    return `${idOf(meaning)}-${valueIds(meaning)[value] ?? value}`;
  });
  return `with-${parts.join('-and-')}`.toLowerCase();
}

/** What can follow "with": the author's words, or else the title and the value. */
function saidOf(meaning: Meaning, value: number): string {
  const says = meaning.kind === 'condition' ? meaning.condition.values?.[value]?.says : undefined;
  if (says?.startsWith('with ')) return says.slice('with '.length);
  return `the ${withSmallInitial(variableTitle(meaning))} ${valueTitle(meaning, value)}`;
}

/** "the left main bus lost and the battery flat". */
export function causeTitle(compiled: Compiled, cause: Cause): string {
  return plain(causeWords(compiled, cause));
}

function causeWords(compiled: Compiled, cause: Cause): Inline[] {
  const parts = [...cause].map(([level, value]) => {
    const meaning = meaningAt(compiled, level);
    return link(variableAddress(meaning), saidOf(meaning, value));
  });
  return joined(parts, ' and ');
}

/** All that differs from the normal cases. */
export function lossView(compiled: Compiled, cause: Cause): LossView {
  return {
    id: anchorOf(compiled, cause),
    title: causeTitle(compiled, cause),
    cause: causeWords(compiled, cause),
    rows: lossRows(compiled, cause),
  };
}

function isCondition(meaning: Meaning): boolean {
  return meaning.kind === 'condition' && normalValue(meaning) !== undefined;
}

function abnormalValues(meaning: Meaning): number[] {
  const normal = normalValue(meaning);
  return normal === undefined ? [] : valueIds(meaning).flatMap((_, value) => (value === normal ? [] : [value]));
}

function* sets(compiled: Compiled, levels: readonly number[], size: number): Iterable<Cause> {
  if (size === 0) {
    yield new Map();
    return;
  }
  for (const [at, level] of levels.entries()) {
    for (const value of abnormalValues(meaningAt(compiled, level))) {
      for (const rest of sets(compiled, levels.slice(at + 1), size - 1)) yield new Map([[level, value], ...rest]);
    }
  }
}
