/**
 * What is seen when a supply is lost: every item's behaviour in normal cases against the same cases with one condition, or
 * the fewest that it takes, away from its normal value.
 */
import {
  type Behaviour,
  type Compiled,
  type Group,
  IMPOSSIBLE,
  idOf,
  type Meaning,
  normalValue,
  valueIds,
  valueTitle,
  variableTitle,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Node } from '../logic/index.ts';
import { attributeTitle } from './attributes.ts';
import type { LossKind, LossRow, LossView } from './book-supplies.ts';
import { link, stateView, text, variableAddress } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { listedItem } from './links.ts';
import { meaningAt } from './tables.ts';

/** Conditions by level, each at a value that is not its normal one; in ascending order of levels. */
export type Cause = ReadonlyMap<number, number>;

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
  const { diagrams, outcomes } = compiled;
  const lost = outcomes.ofState('lost');
  const found: Cause[] = [];
  let tried = 0;
  for (let size = 1; size <= MOST_TOGETHER; size += 1) {
    for (const { form } of behaviour.groups) {
      const levels = diagrams.support(form).filter((level) => isCondition(meaningAt(compiled, level)));
      for (const cause of sets(compiled, levels, size)) {
        if (found.some((smaller) => [...smaller].every(([level, value]) => cause.get(level) === value))) continue;
        tried += 1;
        if (tried > MOST_TRIED) return found;
        const pairs = comparison(compiled, form, cause);
        if (pairs.some(([normally, then]) => then === lost && normally !== lost)) found.push(cause);
      }
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

export function causeTitle(compiled: Compiled, cause: Cause): string {
  const parts = [...cause].map(([level, value]) => {
    const meaning = meaningAt(compiled, level);
    return `${variableTitle(meaning)} ${valueTitle(meaning, value)}`;
  });
  return list(parts, 'and');
}

/** All that differs from the normal cases. */
export function lossView(compiled: Compiled, cause: Cause): LossView {
  const rows = compiled.behaviours.flatMap((behaviour) => rowsOf(compiled, behaviour, cause));
  return {
    id: anchorOf(compiled, cause),
    title: causeTitle(compiled, cause),
    cause: [...cause].flatMap(([level, value], at) => {
      const meaning = meaningAt(compiled, level);
      const words = link(variableAddress(meaning), variableTitle(meaning));
      return [...(at === 0 ? [] : [text(' and ')]), words, text(` ${valueTitle(meaning, value)}`)];
    }),
    rows: KINDS.flatMap((kind) => rows.filter((row) => row.kind === kind)),
  };
}

const KINDS: readonly LossKind[] = ['lost', 'moved', 'dark', 'other', 'message'];

/** One row for all groups in which the same differs. */
function rowsOf(compiled: Compiled, behaviour: Behaviour, cause: Cause): LossRow[] {
  const differing = behaviour.groups.flatMap((group) => {
    const changes = changesIn(compiled, behaviour, group, cause);
    return changes.length > 0 ? [{ group, changes }] : [];
  });
  return [...Map.groupBy(differing, ({ changes }) => JSON.stringify(changes)).values()].map((alike) => {
    const changes = alike[0]?.changes ?? [];
    return {
      kind: kindOf(behaviour, changes),
      item: { ...listedItem(behaviour.item), title: attributeTitle(behaviour) },
      changes,
      effectivity: effectivityOf(
        compiled,
        alike.flatMap(({ group }) => group.fits),
      ),
    };
  });
}

function kindOf({ item }: Behaviour, changes: LossRow['changes']): LossKind {
  if (item.kind === 'message') return 'message';
  if (item.kind === 'supply') return changes.some(({ then }) => then.text === 'lost') ? 'lost' : 'moved';
  return changes.every(({ then }) => then.glyph === 'dark') ? 'dark' : 'other';
}

function changesIn(compiled: Compiled, { attribute }: Behaviour, { form }: Group, cause: Cause): LossRow['changes'] {
  const pairs = comparison(compiled, form, cause);
  return pairs
    .filter(([normally, then]) => normally !== then)
    .map(([normally, then]) => ({
      normally: stateView(compiled, attribute, normally),
      then: stateView(compiled, attribute, then),
      always: pairs.filter(([from]) => from === normally).length === 1,
    }));
}

/**
 * What the cases of a form are normally and what they are then, each pair once. A mode that cannot stand then has given
 * way to another one.
 */
function comparison({ diagrams, space, outcomes }: Compiled, form: Node, cause: Cause): [number, number][] {
  const levels = diagrams.support(form);
  if (![...cause.keys()].some((level) => levels.includes(level))) return [];
  const isMode = (level: number): boolean => space.meanings[level]?.kind === 'sequence';
  const normals = (modes: boolean): Map<number, number> =>
    new Map(
      levels.flatMap((level): [number, number][] => {
        const value = normalValue(space.meanings[level]);
        return value === undefined || isMode(level) !== modes ? [] : [[level, value]];
      }),
    );
  const impossible = diagrams.terminal(IMPOSSIBLE);
  const inNormalMode = (node: Node): Node => {
    const usual = diagrams.restrictAll(node, normals(true));
    return usual === impossible ? node : usual;
  };
  const normally = inNormalMode(diagrams.restrictAll(form, normals(false)));
  const lost = diagrams.restrictAll(form, new Map([...normals(false), ...cause]));
  const anyMode = diagrams.fold('either', lost, diagrams.support(lost).filter(isMode), (a, b) => outcomes.either(a, b));
  const then = diagrams.apply(
    'where it can stand',
    diagrams.restrictAll(lost, normals(true)),
    anyMode,
    (here, other) => (here === IMPOSSIBLE ? other : here),
  );
  const pairs = diagrams.apply('normally and then', normally, then, (a, b) => outcomes.ofPair([a, b]));
  return diagrams
    .terminals(pairs)
    .map((pair) => outcomes.pair(pair))
    .filter((pair) => !pair.includes(IMPOSSIBLE))
    .map(([a, b]) => [a, b]);
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
