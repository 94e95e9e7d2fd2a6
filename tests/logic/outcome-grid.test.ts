/** The cells over which the search for fewer rows goes. */
import { describe, expect, test } from 'vitest';
import { Diagrams, type Node } from '../../src/logic/index.ts';
import { OutcomeGrid } from '../../src/logic/outcome-grid.ts';
import { TableSpace } from '../../src/logic/table-space.ts';
import { diagramOf, IMPOSSIBLE, outcomeOf, ruleList, seeds } from './rule-lists.ts';
import { allCases, variablesOf } from './truth-tables.ts';

describe('a grid of cells', () => {
  test('has the outcome of every case, and no place for a value that cannot happen unless an interval runs over it', () => {
    const seen = { grids: 0, impossibleValues: 0, sharedPlaces: 0 };
    for (const seed of seeds(200)) {
      const list = ruleList(seed, { variables: 5, size: 4, rules: 6 });
      const diagrams = new Diagrams(list.variables);
      const space = new TableSpace(diagrams, diagramOf(diagrams, list), IMPOSSIBLE);
      const grid = OutcomeGrid.of(space) as OutcomeGrid;
      seen.grids += 1;
      expect(grid.size).toBe(grid.axes.reduce((product, { places }) => product * places.length, 1));
      for (const each of allCases(list.variables.map(({ size }) => size))) {
        const standsAt = space.levels.map((level, column) => {
          const axis = grid.axes[column];
          seen.sharedPlaces += axis?.places.some((values) => values.length > 1) ? 1 : 0;
          return axis?.places.findIndex((values) => values.includes(each[level] as number)) as number;
        });
        if (standsAt.includes(-1)) {
          seen.impossibleValues += 1;
          expect(outcomeOf(list, each)).toBe(IMPOSSIBLE);
          continue;
        }
        const cell = standsAt.reduce((sum, place, column) => sum + place * (grid.strides[column] as number), 0);
        expect(grid.outcome(cell)).toBe(outcomeOf(list, each));
        expect(standsAt.map((_, column) => grid.place(cell, column))).toEqual(standsAt);
      }
      for (const [column, { ordered, places }] of grid.axes.entries()) {
        const held = places.flat().toSorted((a, b) => a - b);
        const { size } = diagrams.variables[space.levels[column] as number] as { size: number };
        expect(held).toEqual(ordered ? Array.from({ length: size }, (_, value) => value) : space.occurring[column]);
      }
    }
    expect(seen.impossibleValues).toBeGreaterThan(50);
    expect(seen.sharedPlaces).toBeGreaterThan(50);
  });

  test('is not made where a set of places does not fit a word, nor where there are too many cells', () => {
    expect(gridOf([30], ([value = 0]) => value)?.size).toBe(30);
    expect(gridOf([31], ([value = 0]) => value)).toBeUndefined();
    // Three of its columns would be narrow enough.
    expect(gridOf([31, 2, 2, 2], sum)).toBeUndefined();
    expect(gridOf([16, 16, 16], sum)?.size).toBe(4096);
    expect(gridOf([17, 16, 16], sum)).toBeUndefined();
  });
});

const sum = (each: readonly number[]): number => each.reduce((total, value) => total + value, 0);

/** The grid of a function of ordered variables. */
function gridOf(sizes: readonly number[], outcome: (each: readonly number[]) => number): OutcomeGrid | undefined {
  const diagrams = new Diagrams(
    variablesOf(
      sizes,
      sizes.map(() => true),
    ),
  );
  const nodeOf = (each: readonly number[]): Node => {
    const level = each.length;
    if (level === sizes.length) return diagrams.terminal(outcome(each));
    return Array.from({ length: sizes[level] as number }, (_, value) => value).reduceRight<Node>(
      (rest, value) => diagrams.ite(diagrams.literal(level, [value]), nodeOf([...each, value]), rest),
      diagrams.terminal(0),
    );
  };
  return OutcomeGrid.of(new TableSpace(diagrams, nodeOf([]), -1));
}
