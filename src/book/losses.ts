/**
 * What is seen when a supply is lost: every item's behaviour in normal cases against the same cases with one condition, or
 * the fewest that it takes, away from its normal value.
 */
import {
  atRest,
  type Behaviour,
  type Compiled,
  type Fit,
  IMPOSSIBLE,
  idOf,
  type Meaning,
  normalValue,
  normalValues,
  type SettledFit,
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
        comparison(compiled, behaviour, fit, cause).some(([normally, then]) => then === lost && normally !== lost),
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

/** One row for all aircraft on which the same differs. */
function rowsOf(compiled: Compiled, behaviour: Behaviour, cause: Cause): LossRow[] {
  const differing = compiled.fits.flatMap((fit) => {
    const changes = changesOn(compiled, behaviour, fit, cause);
    return changes.length > 0 ? [{ fit, changes }] : [];
  });
  return [...Map.groupBy(differing, ({ changes }) => JSON.stringify(changes)).values()].map((alike) => {
    const changes = alike[0]?.changes ?? [];
    return {
      kind: kindOf(behaviour, changes),
      item: { ...listedItem(behaviour.item), title: attributeTitle(behaviour) },
      changes,
      effectivity: effectivityOf(
        compiled,
        alike.map(({ fit }) => fit),
      ),
    };
  });
}

function kindOf({ item }: Behaviour, changes: LossRow['changes']): LossKind {
  if (item.kind === 'message') return 'message';
  if (item.kind === 'supply') return changes.some(({ then }) => then.text === 'lost') ? 'lost' : 'moved';
  return changes.every(({ then }) => then.glyph === 'dark') ? 'dark' : 'other';
}

function changesOn(compiled: Compiled, behaviour: Behaviour, fit: Fit, cause: Cause): LossRow['changes'] {
  const pairs = comparison(compiled, behaviour, fit, cause);
  return pairs
    .filter(([normally, then]) => normally !== then)
    .map(([normally, then]) => ({
      normally: stateView(compiled, behaviour.attribute, normally),
      then: stateView(compiled, behaviour.attribute, then),
      always: pairs.filter(([from]) => from === normally).length === 1,
    }));
}

/**
 * What an item is in the normal cases of a fit and what it is then, each pair once. A mode that cannot stand then goes on at
 * once.
 */
function comparison(compiled: Compiled, behaviour: Behaviour, fit: Fit, cause: Cause): [number, number][] {
  const { diagrams, space, outcomes } = compiled;
  const form = inNormalPositions(compiled, behaviour.forms[fit.index] as Node);
  const isMode = (level: number): boolean => space.meanings[level]?.kind === 'sequence';
  // Modes follow conditions that the item itself does not read.
  if (!diagrams.support(form).some((level) => cause.has(level) || isMode(level))) return [];
  const normals = new Map(
    space.meanings.flatMap((meaning, level): [number, number][] => {
      const value = normalValue(meaning);
      return value === undefined || isMode(level) ? [] : [[level, value]];
    }),
  );
  const lossy = new Map([...normals, ...cause]);
  const pairs = fit.settled.flatMap((settled) => {
    const follows = diagrams.support(form).some(isMode);
    const lost = follows ? atRest(compiled, settled, form, lossy) : standing(compiled, settled, form, lossy, []);
    // Where sequences come to rest can hang on modes that the item itself does not read: they too must be able to stand.
    const usual = standing(compiled, settled, form, normals, diagrams.support(lost));
    const modes = normalModes(compiled, usual);
    const [normally, then] = [usual, lost].map((node) => diagrams.restrictAll(node, modes)) as [Node, Node];
    const both = diagrams.apply('normally and then', normally, then, (a, b) => outcomes.ofPair([a, b]));
    return diagrams.terminals(both);
  });
  return [...new Set(pairs)]
    .sort((a, b) => outcomes.compare(a, b))
    .map((pair) => outcomes.pair(pair))
    .filter((pair) => !pair.includes(IMPOSSIBLE))
    .map(([a, b]) => [a, b]);
}

/** The form with cases that a control makes abnormal taken out: a lamp check is nothing that a loss does. */
function inNormalPositions({ diagrams, space }: Compiled, form: Node): Node {
  let usual = form;
  for (const level of diagrams.support(form)) {
    const meaning = space.meanings[level];
    const values = meaning?.kind === 'control' ? normalValues(meaning) : undefined;
    if (values) usual = diagrams.ite(diagrams.literal(level, values), usual, diagrams.terminal(IMPOSSIBLE));
  }
  return usual;
}

/** A form where some facts hold and the case can stand, as far as it and what else is `read` say. */
function standing(
  { diagrams, possible }: Compiled,
  { index }: SettledFit,
  form: Node,
  facts: ReadonlyMap<number, number>,
  read: readonly number[],
): Node {
  const here = diagrams.restrictAll(form, facts);
  const happens = (possible[index] as Compiled['possible'][number]).only([...diagrams.support(here), ...read], facts);
  return diagrams.ite(happens, here, diagrams.terminal(IMPOSSIBLE));
}

/** The normal modes of sequences that have one, as far as they can stand. */
function normalModes({ diagrams, space }: Compiled, node: Node): Map<number, number> {
  const modes = new Map<number, number>();
  for (const level of diagrams.support(node)) {
    const meaning = space.meanings[level];
    const normal = normalValue(meaning);
    if (meaning?.kind !== 'sequence' || normal === undefined) continue;
    const usual = diagrams.restrictAll(node, new Map([...modes, [level, normal]]));
    if (usual !== diagrams.terminal(IMPOSSIBLE)) modes.set(level, normal);
  }
  return modes;
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
