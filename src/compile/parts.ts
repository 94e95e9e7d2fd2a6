/**
 * Normal and abnormal cases. The normal part of a form has every condition at its normal value; the abnormal part is the
 * rest. Each is tabulated by itself.
 */
import { type Cube, cubeNode, type Diagrams, type Node, type StateTable, stateTable } from '../logic/index.ts';
import type { Compiled } from './compile.ts';
import type { Behaviour, Group } from './groups.ts';
import { IMPOSSIBLE } from './outcomes.ts';
import { levelOf, normalValue, type Space } from './space.ts';

export type Part = 'normal' | 'abnormal';

/** The form of one part; undefined when no case of it can happen, or when nothing in it is abnormal. */
export function partForm(diagrams: Diagrams, space: Space, form: Node, part: Part): Node | undefined {
  const live = withoutInert(diagrams, space, form);
  const normals = normalLevels(diagrams, space, live);
  if (part === 'normal') return orNothing(diagrams, diagrams.restrictAll(live, normals));
  const normal = diagrams.and(...[...normals].map(([level, value]) => diagrams.literal(level, [value])));
  return orNothing(diagrams, diagrams.ite(normal, diagrams.terminal(IMPOSSIBLE), live));
}

/**
 * The state table of one part of a group; undefined when the part is empty. The control `own` stands first, the one that
 * drives the attribute unless said.
 */
export function partTable(
  { diagrams, space }: Compiled,
  behaviour: Behaviour,
  group: Group,
  part: Part,
  own = behaviour.attribute.control,
): StateTable | undefined {
  const form = partForm(diagrams, space, group.form, part);
  if (form === undefined) return undefined;
  const options = { impossible: IMPOSSIBLE, ...(own === undefined ? {} : { own: levelOf(space, own) }) };
  if (part === 'normal') return stateTable(diagrams, form, options);
  // Normal cases are tabulated with the others, so that no row runs over them, and left out then.
  const normals = diagrams.map('usual', withoutInert(diagrams, space, group.form), (outcome) =>
    outcome === IMPOSSIBLE ? IMPOSSIBLE : USUAL,
  );
  const whole = diagrams.apply('with usual cases', form, normals, (abnormal, usual) =>
    abnormal === IMPOSSIBLE ? usual : abnormal,
  );
  const table = stateTable(diagrams, whole, options);
  const rows = table.rows.filter(({ outcome }) => outcome !== USUAL);
  return withConditions(diagrams, { ...table, rows }, form, [...normalLevels(diagrams, space, form).keys()]);
}

/** No outcome has this number: it marks normal cases. */
const USUAL = 2 ** 30;

/**
 * An abnormal table names, in every row, what is abnormal there: the conditions with a normal value stand in columns even
 * where they tell no rows apart, and each cell has only the values that occur in the row. Rows stay disjoint and complete.
 */
function withConditions(diagrams: Diagrams, table: StateTable, form: Node, levels: readonly number[]): StateTable {
  const columns = [...table.columns, ...levels.filter((level) => !table.columns.includes(level))];
  const possible = diagrams.map('possible', form, (outcome) => (outcome === IMPOSSIBLE ? 0 : 1));
  const occurring = (row: Cube, level: number): readonly number[] | undefined => {
    const cases = diagrams.and(possible, cubeNode(diagrams, table.columns, row));
    const size = diagrams.variables[level]?.size ?? 0;
    const values = Array.from({ length: size }, (_, value) => value);
    const found = values.filter((value) => diagrams.restrict(cases, level, value) !== diagrams.no);
    return found.length === values.length ? undefined : found;
  };
  return {
    ...table,
    columns,
    rows: table.rows.map((row) => ({
      ...row,
      cells: columns.map(
        (level, at) => row.cells[at] ?? (levels.includes(level) ? occurring(row.cells, level) : undefined),
      ),
    })),
  };
}

/** What a part is about: each condition with a normal value that matters to the form, with its values in that part. */
export function partNormals(
  { diagrams, space }: Compiled,
  form: Node,
  part: Part,
): [level: number, values: number[]][] {
  const normals = normalLevels(diagrams, space, withoutInert(diagrams, space, form));
  return [...normals].map(([level, normal]) => {
    const size = space.variables[level]?.size ?? 0;
    const abnormal = Array.from({ length: size }, (_, value) => value).filter((value) => value !== normal);
    return [level, part === 'normal' ? [normal] : abnormal];
  });
}

/** For each condition with a normal value that the form depends on: its level and that value. */
function normalLevels(diagrams: Diagrams, space: Space, form: Node): Map<number, number> {
  const normals = new Map<number, number>();
  for (const level of diagrams.support(form)) {
    const value = normalValue(space.meanings[level]);
    if (value !== undefined) normals.set(level, value);
  }
  return normals;
}

/**
 * Projects away the conditions with a normal value that change nothing on this group, so that they don't give it an
 * abnormal table which says the same as the normal one. A case that cannot happen with the normal value is left alone:
 * among the normal cases it would be false.
 */
function withoutInert(diagrams: Diagrams, space: Space, form: Node): Node {
  let live = form;
  for (const level of diagrams.support(form)) {
    const normal = normalValue(space.meanings[level]);
    if (normal === undefined) continue;
    const usual = diagrams.restrict(live, level, normal);
    const differing = diagrams.apply('unlike the normal case', live, usual, (given, normally) =>
      given === IMPOSSIBLE || given === normally ? 0 : 1,
    );
    if (differing === diagrams.no) live = usual;
  }
  return live;
}

function orNothing(diagrams: Diagrams, form: Node): Node | undefined {
  return form === diagrams.terminal(IMPOSSIBLE) ? undefined : form;
}
