/** The demo is as large and as varied as a reference for a whole fleet: counted in its model, compared by its diagrams. */
import { describe, expect, it } from 'vitest';
import { readFolder } from '../../src/cli/read-folder.ts';
import { compileFleet, isHidden, NOT_FITTED, type OutcomeMeaning } from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { type Expression, readsOf } from '../../src/language/index.ts';
import type { Node } from '../../src/logic/index.ts';
import { holdsOnFit, type Item, readFleet, UNKNOWN } from '../../src/model/index.ts';
import { demoFolder } from '../helpers/content.ts';

const files = readFolder(demoFolder, 'content', new Diagnostics());
const fleet = readFleet(files, new Diagnostics());
const compiled = fleet && compileFleet(fleet, new Diagnostics());
if (!fleet || !compiled) throw new Error('the demo is not sound');

/** Lights, signs and annunciators. */
const seen = fleet.items.filter(({ kind }) => kind !== 'message' && kind !== 'supply');
const messages = fleet.items.filter(({ kind }) => kind === 'message');

describe('the demo has', () => {
  it('five panels with what stands on them', () => {
    expect(fleet.panels).toHaveLength(5);
    expect(fleet.controls.length).toBeGreaterThanOrEqual(30);
    expect(seen.length).toBeGreaterThanOrEqual(60);
    expect(messages.length + fleet.sounds.length).toBeGreaterThanOrEqual(18);
    expect(fleet.conditions.length + fleet.signals.length).toBeGreaterThanOrEqual(30);
    for (const { controls, items } of fleet.panels) {
      expect(controls.length).toBeGreaterThan(3);
      expect(items.length).toBeGreaterThan(5);
    }
  });

  it('supplies that feed each other, and sequences in time', () => {
    const supplies = fleet.items.filter(({ kind }) => kind === 'supply');
    expect(supplies.length).toBeGreaterThanOrEqual(4);
    expect(supplies.some(({ supply }) => supply.length > 1)).toBe(true);
    expect(fleet.sequences.filter(({ kind }) => kind === 'sequence').length).toBeGreaterThanOrEqual(4);
    expect(fleet.timelines.length).toBeGreaterThanOrEqual(6);
  });

  it('24 aircraft and a training device in eight fits or more', () => {
    const kinds = fleet.aircraft.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'aircraft')).toHaveLength(24);
    expect(kinds.filter((kind) => kind === 'device')).toHaveLength(1);
    const fits = compiled.fits.filter(({ aircraft }) => aircraft.length > 0);
    expect(fits.length).toBeGreaterThanOrEqual(8);
  });

  it('nine options or more, some bound to others', () => {
    expect(fleet.options.length).toBeGreaterThanOrEqual(9);
    expect(new Set(fleet.constraints.map(({ option }) => option)).size).toBeGreaterThanOrEqual(3);
    expect(new Set(fleet.constraints.map(({ kind }) => kind))).toEqual(new Set(['requires', 'excludes']));
  });

  it('a campaign half done: one option that has changed on some aircraft by one order, and will on others', () => {
    const lines = (files.find(({ path }) => path === 'modifications.csv')?.text ?? '').trim().split('\n').slice(1);
    const orders = Map.groupBy(
      lines.map((line) => line.split(',')).filter((cells) => (cells[4] ?? '') !== ''),
      ([, option, value, , document]) => `${option} ${value} ${document}`,
    );
    const shares = [...orders.values()].map((all) => ({
      all: all.length,
      done: all.filter(([, , , date = '']) => date <= fleet.book.date).length,
    }));
    expect(shares.some(({ all, done }) => all >= 8 && done >= all / 3 && done <= (2 * all) / 3)).toBe(true);
  });

  it('an aircraft with words of its own on its panels, and one of which an option is not known', () => {
    const legends = [
      ...fleet.controls.flatMap(({ positions }) => positions.flatMap((position) => position.legends)),
      ...fleet.items.flatMap((item) => item.legends),
    ];
    const own = fleet.aircraft.filter(({ fit }) => legends.filter(({ when }) => readsOnlyHere(when, fit)).length >= 3);
    expect(own).toHaveLength(1);
    const unknown = fleet.aircraft.filter(({ fit }) => [...fit.values()].includes(UNKNOWN));
    expect(unknown).toHaveLength(1);
  });

  it('sources, open queries, claims, and notes with checked sentences', () => {
    expect(fleet.sources.length).toBeGreaterThanOrEqual(12);
    expect(fleet.queries.filter(({ answered }) => !answered)).toHaveLength(3);
    expect(fleet.queries.some(({ answered }) => answered)).toBe(true);
    expect(fleet.claims.length).toBeGreaterThanOrEqual(20);
    expect(fleet.notes.filter(({ claims }) => claims.length > 0).length).toBeGreaterThanOrEqual(25);
  });

  it('a procedure of twelve stages', () => {
    expect(fleet.procedures.map(({ stages }) => stages.length)).toEqual([12]);
  });
});

/** Whether an expression over options other than "always" holds on a fit. */
function readsOnlyHere(when: Expression, fit: ReadonlyMap<string, string>): boolean {
  return readsOf(when).length > 0 && holdsOnFit(when, fit) === true;
}

/** What an item's own rules read in the end, through signals and other items; options and overrides apart. */
function variablesOf(item: Item): Set<string> {
  const found = new Set<string>();
  const met = new Set<string>();
  const visit = (when: Expression): void => {
    for (const { id } of readsOf(when)) {
      const signal = fleet?.signals.find((each) => each.id === id);
      const other = fleet?.items.find((each) => each.id === id);
      const detector = fleet?.detectors.find((each) => each.id === id);
      if (!signal && !other && !fleet?.options.some((option) => option.id === id)) found.add(detector?.number ?? id);
      if (met.has(id)) continue;
      met.add(id);
      if (signal) visit(signal.expression);
      if (other) rulesOf(other);
    }
  };
  const rulesOf = ({ attributes }: Item): void => {
    for (const { rules } of attributes) for (const { when } of rules) if (when) visit(when);
  };
  rulesOf(item);
  return found;
}

describe('what is seen', () => {
  it('hangs on three things or more for at least half of the lights, signs and annunciators', () => {
    const rich = seen.filter((item) => variablesOf(item).size >= 3);
    expect(rich.length).toBeGreaterThanOrEqual(seen.length / 2);
  });

  it.each([
    ['lights, signs and annunciators', seen],
    ['messages', messages],
  ])('is not the same for any two %s where they are fitted, even if everything had another name', (_, items) => {
    const alike = Map.groupBy(items, itemSignature);
    expect([...alike.values()].filter(({ length }) => length > 1).map((some) => some.map(({ id }) => id))).toEqual([]);
  });

  it('is told apart by signatures that renaming leaves as they are', () => {
    const { diagrams, space } = compiled;
    const pairs = space.variables.flatMap(({ size }, level) =>
      size === 2 && !isHidden(space.meanings[level]) ? [level] : [],
    );
    const [a, b, c, d] = pairs as [number, number, number, number];
    const both = (one: number, other: number, value: number): Node =>
      diagrams.and(diagrams.literal(one, [value]), diagrams.literal(other, [value]));
    const outcomes = (node: Node): Node =>
      diagrams.map('as states', node, (holds) => compiled.outcomes.ofState(holds ? 'lit' : 'dark'));
    expect(formSignature(outcomes(both(a, b, 0)))).toBe(formSignature(outcomes(both(c, d, 1))));
    expect(formSignature(outcomes(both(a, b, 0)))).not.toBe(formSignature(outcomes(diagrams.literal(a, [0]))));
    // Equal counts all over, and yet another function: exactly one or three of three, beside no or two of them.
    const xor = (one: Node, other: Node): Node =>
      diagrams.ite(one, diagrams.ite(other, diagrams.no, diagrams.yes), other);
    const odd = xor(xor(diagrams.literal(a, [0]), diagrams.literal(b, [0])), diagrams.literal(c, [0]));
    expect(formSignature(outcomes(odd))).not.toBe(
      formSignature(outcomes(xor(diagrams.literal(a, [0]), diagrams.literal(b, [0])))),
    );
  });
});

/**
 * The same for two items whenever variables, values and states of one can be renamed so that it becomes the other. On which
 * aircraft it is fitted does not count.
 */
function itemSignature(item: Item): string {
  const attributes = (compiled?.behaviours ?? []).filter((behaviour) => behaviour.item === item);
  return sorted(
    attributes.map(({ forms }) => {
      const fitted = forms.filter((form) => form !== compiled?.diagrams.terminal(NOT_FITTED));
      return sorted([...new Set([...new Set(fitted)].map(formSignature))]);
    }),
  );
}

const sorted = (all: readonly string[]): string => JSON.stringify(all.toSorted());

/** How a state is told apart from others: not by its name. */
function colourOf(meaning: OutcomeMeaning): string {
  return meaning.kind === 'state' ? '' : meaning.kind;
}

/**
 * Counts of cases by outcome, in all, for each value of each variable, and for each two values of two of them: what renaming
 * changes the order of, and nothing else. Unlike signatures prove that two forms are unlike.
 */
function formSignature(form: Node): string {
  if (!compiled) throw new Error('the demo is not sound');
  const { diagrams, outcomes } = compiled;
  const levels = diagrams.support(form);
  const cases = diagrams.terminals(form).map((outcome) => {
    const node = diagrams.casesOf(form, outcome);
    return { node, colour: `${colourOf(outcomes.meaning(outcome))} ${diagrams.satCount(node, levels)}` };
  });
  const counts = (given: ReadonlyMap<number, number>): string => {
    const left = levels.filter((level) => !given.has(level));
    return sorted(
      cases.map(({ node, colour }) => `${colour} ${diagrams.satCount(diagrams.restrictAll(node, given), left)}`),
    );
  };
  const values = (level: number): number[] =>
    Array.from({ length: diagrams.variables[level]?.size ?? 0 }, (_, value) => value);
  const ofValue = (level: number, value: number): string => {
    const others = levels.filter((other) => other !== level);
    const pairs = others.map((other) =>
      sorted(
        values(other).map((each) =>
          counts(
            new Map(
              [
                [level, value],
                [other, each],
              ].toSorted(([x], [y]) => (x as number) - (y as number)) as [number, number][],
            ),
          ),
        ),
      ),
    );
    return counts(new Map([[level, value]])) + sorted(pairs);
  };
  const variables = levels.map((level) => sorted(values(level).map((value) => ofValue(level, value))));
  return sorted([...cases.map(({ colour }) => colour), ...variables]);
}
