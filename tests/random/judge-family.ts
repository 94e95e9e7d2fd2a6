/** Holds what the program makes of one family to what the oracle says of it. */
import {
  type Behaviour,
  because,
  type Compiled,
  difference,
  type Group,
  IMPOSSIBLE,
  NOT_FITTED,
  partNormals,
  partTable,
} from '../../src/compile/index.ts';
import type { StateTable } from '../../src/logic/index.ts';
import type { Oracle } from '../oracle/index.ts';
import { both, fitLike, type Levels, said } from './both.ts';
import { type Complaint, firstOf, type Kind } from './complaint.ts';
import { type Family, written } from './family.ts';
import { judgeClaims, judgeFaults } from './judge-findings.ts';
import { keyOf, type SeenCases, seenBehaviour, shownLevels } from './seen-behaviour.ts';
import { expectedDifference } from './seen-difference.ts';

/** What was compared, to show that it was enough. */
export interface Seen {
  /** Whether the rules are sound: only then there is something to compare beside the faults. */
  readonly sound: boolean;
  /** Codes that say neither gap nor overlap nor anything of claims: none should be there. */
  readonly others: readonly string[];
  readonly cases: number;
  readonly differences: number;
  readonly reasons: number;
  readonly kinds: ReadonlySet<Kind>;
}

/** The codes about gaps, overlaps, fits without cases and claims: all that a random family may be told. */
const EXPECTED = /^SL4(?:0[12346]|12)$/;

export function judgeFamily(family: Family): { readonly complaint: Complaint | undefined; readonly seen: Seen } {
  const { compiled, found, oracle: load } = both(written(family));
  const others = found.map(({ code }) => code).filter((code) => !EXPECTED.test(code));
  const kinds = new Set<Kind>();
  const tally = { cases: 0, differences: 0, reasons: 0 };
  const seen = (sound: boolean): Seen => ({ sound, others, ...tally, kinds });
  if (others.length > 0) return { complaint: undefined, seen: seen(false) };
  const oracle = load();
  const faults = judgeFaults(oracle, found, family.overrides.length === 0);
  const sound = found.every(({ code }) => code === 'SL406' || code === 'SL412');
  if (faults || !sound) return { complaint: faults, seen: seen(sound) };
  if (!compiled) return { complaint: { kind: 'nothing', text: 'nothing was compiled' }, seen: seen(sound) };
  if (family.latches.length > 0) kinds.add('a latch');
  const complaint =
    judgeClaims(oracle, found, kinds) ??
    firstOf(compiled.behaviours, (each) => judgeBehaviour(compiled, oracle, each, kinds, tally));
  if (hasImpossible(oracle)) kinds.add('a case that never happens');
  if (overrideDecides(oracle, family)) kinds.add('an override that decides');
  return { complaint, seen: seen(sound) };
}

function judgeBehaviour(
  compiled: Compiled,
  oracle: Oracle,
  behaviour: Behaviour,
  kinds: Set<Kind>,
  tally: { cases: number; differences: number; reasons: number },
): Complaint | undefined {
  const name = `${behaviour.item.id}.${behaviour.attribute.id}`;
  const seen = oracle.fits.map((fit) => {
    const levels = shownLevels(compiled, behaviour, oracle, fit);
    return { fit, levels, cases: seenBehaviour(compiled, oracle, behaviour, levels, fit) };
  });
  const about = (kind: string, text: string): Complaint => ({ kind, text: `${name}: ${text}` });
  for (const { fit, levels, cases } of seen) {
    const form = behaviour.forms[fitLike(compiled, fit).index] as number;
    const wrong = wrongForm(compiled, form, levels, cases);
    if (wrong) return about('normal form', `on ${fit.id} ${wrong}`);
    const unreasonable = wrongReason(compiled, form, levels, cases, tally);
    if (unreasonable) return about('because', `on ${fit.id} ${unreasonable}`);
    tally.cases += cases.size;
    noteOutcomes(
      [...cases.values()].map(({ expected }) => expected),
      kinds,
    );
  }
  if (isAbsentSomewhere(oracle, behaviour)) kinds.add('an absent control');
  if (behaviour.groups.length > 1) kinds.add('unlike groups');
  const tables = behaviour.groups.map((group) => ({
    group,
    parts: (['normal', 'abnormal'] as const).map((part) => partTable(compiled, behaviour, group, part)),
  }));
  for (const { group, parts } of tables) {
    if (parts.some((table) => (table?.rows.length ?? 0) >= 3)) kinds.add('a table of three rows');
    const unusual = partNormals(compiled, group.form, 'abnormal');
    if (unusual.some(([level]) => compiled.space.meanings[level]?.kind === 'control'))
      kinds.add('an abnormal position');
    for (const { fit, cases } of seen.filter((each) => group.fits.includes(fitLike(compiled, each.fit)))) {
      const wrong = wrongTables(compiled, oracle, group, parts, cases);
      if (wrong) return about('state table', `on ${fit.id} ${wrong}`);
    }
  }
  for (const [at, a] of seen.entries()) {
    for (const b of seen.slice(at + 1)) {
      const [here, there] = [fitLike(compiled, a.fit), fitLike(compiled, b.fit)];
      const isAlike = behaviour.forms[here.index] === behaviour.forms[there.index];
      const between = `between ${a.fit.id} and ${b.fit.id}`;
      if (isAlike !== oracle.alike(behaviour.item.id, behaviour.attribute.id, a.fit, b.fit))
        return about('fit groups', `${between} ${isAlike ? 'alike' : 'unlike'}`);
      const expected = expectedDifference(compiled, oracle, a, b);
      const found = difference(compiled, behaviour, here, there);
      if (!isAlike) tally.differences += 1;
      if (found.verdict !== expected.verdict)
        return about('difference', `${between} "${found.verdict}", not "${expected.verdict}"`);
      const wrong = found.table && wrongDifference(compiled, found.table, expected.cases);
      if (wrong) return about('difference', `${between} ${wrong}`);
    }
  }
  return undefined;
}

/** How a normal form disagrees with the cases of its fit, as the oracle has them: another outcome, or cases that can't happen. */
export function wrongForm(
  { diagrams, ...compiled }: Compiled,
  form: number,
  levels: readonly number[],
  cases: SeenCases,
) {
  for (const { at, given, expected } of cases.values()) {
    const outcome = diagrams.valueOf(diagrams.restrictAll(form, at));
    const text = outcome === undefined ? 'open' : said(compiled, outcome);
    if (text !== expected) return `${text}, not ${expected}, in ${JSON.stringify(given)}`;
  }
  // What isn't fitted is one group, whatever can happen there.
  if (form === diagrams.terminal(NOT_FITTED)) return undefined;
  const possible = diagrams.map('is possible', form, (outcome) => (outcome === IMPOSSIBLE ? 0 : 1));
  const count = diagrams.satCount(possible, levels);
  return count === BigInt(cases.size) ? undefined : `${count} cases, not ${cases.size}`;
}

/** Every case in one row of one of the two tables, which says what the oracle says; what is normal among the normal ones. */
function wrongTables(
  compiled: Compiled,
  oracle: Oracle,
  group: Group,
  [normal, abnormal]: readonly (StateTable | undefined)[],
  cases: SeenCases,
): string | undefined {
  const about = partNormals(compiled, group.form, 'normal');
  for (const { at, given, expected } of cases.values()) {
    // The normal table is about the cases in which what it does not name is normal; the abnormal one names all it is about.
    const isUsual = about.every(([level, values]) => values.includes(at.get(level) ?? -1));
    if (oracle.isNormal(given) && !isUsual) return `the normal case ${JSON.stringify(given)} counts as abnormal`;
    const found = [...(isUsual ? rowsWith(compiled, normal, at) : []), ...rowsWith(compiled, abnormal, at)];
    if (found.length !== 1 || found[0] !== expected)
      return `rows with [${found.join(', ')}], not ${expected}, hold ${JSON.stringify(given)}`;
  }
  return undefined;
}

/** What the rows that hold a case say. */
function rowsWith(compiled: Compiled, table: StateTable | undefined, at: Levels): string[] {
  if (!table) return [];
  return table.rows
    .filter(({ cells }) => table.columns.every((level, place) => cells[place]?.includes(at.get(level) ?? -1) ?? true))
    .map(({ outcome }) => said(compiled, outcome));
}

function wrongDifference(
  compiled: Compiled,
  table: StateTable,
  cases: Iterable<{ readonly at: Levels; readonly here: string; readonly there: string }>,
): string | undefined {
  for (const { at, here, there } of cases) {
    const rows = table.rows.filter(({ cells }) =>
      table.columns.every((level, place) => cells[place]?.includes(at.get(level) ?? -1) ?? true),
    );
    const found = rows.map(({ outcome }) =>
      compiled.outcomes
        .pair(outcome)
        .map((each) => said(compiled, each))
        .join(' > '),
    );
    const expected = here === there ? [] : [`${here} > ${there}`];
    if (found.join() !== expected.join()) return `[${found.join(', ')}], not [${expected.join(', ')}], at ${keyOf(at)}`;
  }
  return undefined;
}

/** How many cases of each fit are explained. */
const EXPLAINED = 2;

/** The facts of a reason are of the case, leave no other outcome, and no fewer do. */
function wrongReason(
  { diagrams }: Compiled,
  form: number,
  levels: readonly number[],
  cases: SeenCases,
  tally: { reasons: number },
): string | undefined {
  const all = [...cases.values()];
  const stride = Math.max(1, Math.floor(all.length / EXPLAINED));
  for (const { at, given, expected } of all.filter((_, place) => place % stride === 0)) {
    const forces = (some: readonly number[]): boolean =>
      all.every((other) => other.expected === expected || some.some((level) => other.at.get(level) !== at.get(level)));
    const facts = because(diagrams, form, at);
    const where = `in ${JSON.stringify(given)}: ${JSON.stringify([...facts])}`;
    if ([...facts].some(([level, value]) => at.get(level) !== value)) return `facts of another case ${where}`;
    if (!forces([...facts.keys()])) return `facts that force nothing ${where}`;
    if (subsets(levels, facts.size - 1).some(forces)) return `more facts than are needed ${where}`;
    tally.reasons += 1;
  }
  return undefined;
}

/** The subsets of exactly this size; none below 0. More facts force no less, so the smaller ones need no trial. */
function subsets(levels: readonly number[], size: number): number[][] {
  if (size < 0) return [];
  if (size === 0) return [[]];
  return levels.flatMap((level, at) => subsets(levels.slice(at + 1), size - 1).map((rest) => [level, ...rest]));
}

function noteOutcomes(expected: readonly string[], kinds: Set<Kind>): void {
  if (expected.some((each) => each.startsWith('depends'))) kinds.add('depends on what is unknown');
  if (expected.some((each) => each.startsWith('not stated'))) kinds.add('not stated');
  if (expected.some((each) => each.includes('/') && !each.startsWith('depends'))) kinds.add('may be either');
}

/** A control that the attribute reads is fitted on some aircraft only. */
function isAbsentSomewhere(oracle: Oracle, { item, attribute }: Behaviour): boolean {
  return oracle
    .ownVariables(item.id, attribute.id)
    .filter((name) => oracle.content.controls.has(name))
    .some((name) => new Set(oracle.fits.map((fit) => oracle.isFitted(fit, name))).size > 1);
}

/** Some combination of what the nevers read can't happen on some fit. */
function hasImpossible(oracle: Oracle): boolean {
  return oracle.content.never.some((text) =>
    oracle.fits.some((fit) => {
      const names = oracle.variablesOf(text);
      const every = names.reduce((all, name) => all * Math.max(1, oracle.valuesOn(fit, name).length), 1);
      return [...oracle.cases(fit, names)].length < every;
    }),
  );
}

/** In some case on some fit an item would be something else without the overrides. */
function overrideDecides(oracle: Oracle, family: Family): boolean {
  if (family.overrides.length === 0) return false;
  const without = both(written({ ...family, overrides: [], claims: [] })).oracle();
  return oracle.fits
    .flatMap((fit) => oracle.candidates(fit))
    .some((fit) =>
      family.items.some(({ id, kind }) => {
        const attribute = kind === 'message' ? 'display' : 'lamp';
        for (const given of oracle.cases(fit, oracle.extendedVariables(id, attribute))) {
          if (
            JSON.stringify(oracle.state(fit, id, attribute, given)) !==
            JSON.stringify(without.state(fit, id, attribute, given))
          )
            return true;
        }
        return false;
      }),
    );
}
