/** The least choice of columns that meets every row, by the HiGHS solver: nothing shared with the code under test. */
import loadSolver from 'highs';

// The package's types describe its CommonJS build; the build for modules has the loader itself as its default.
const solver = await (loadSolver as unknown as typeof loadSolver.default)();

/** The least total cost of columns such that each row has at least one, or exactly one; a row lists its columns. */
export function leastCost(
  rows: readonly (readonly number[])[],
  costs: readonly number[],
  each: 'at least one' | 'exactly one' = 'at least one',
): number {
  const relation = each === 'exactly one' ? '=' : '>=';
  if (rows.length === 0) return 0;
  const lines = [
    'Minimize',
    ` cost: ${costs.map((cost, column) => `${cost} x${column}`).join('\n + ')}`,
    'Subject To',
    ...rows.map((columns, row) => ` r${row}: ${columns.map((column) => `x${column}`).join('\n + ')} ${relation} 1`),
    'Binary',
    ...costs.map((_, column) => ` x${column}`),
    'End',
  ];
  const { Status, ObjectiveValue } = solver.solve(lines.join('\n'));
  if (Status !== 'Optimal') throw new Error(`the solver says ${Status}`);
  return Math.round(ObjectiveValue);
}
