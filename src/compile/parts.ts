/**
 * Normal and abnormal cases. The normal part of a form has every condition at its normal value and every control in a normal
 * position; the abnormal part is the rest. Each is tabulated by itself.
 */
import { type Cube, cubeNode, type Diagrams, type Node, type StateTable } from '../logic/index.ts';
import type { Compiled } from './compile.ts';
import type { Behaviour, Group } from './groups.ts';
import { knownTable } from './known-tables.ts';
import { IMPOSSIBLE } from './outcomes.ts';
import { levelOf, normalValues, type Space } from './space.ts';

export type Part = 'normal' | 'abnormal';

/**
 * The form of one part; undefined when no case of it can happen, or when nothing in it is abnormal. The variable at the level
 * `apart` counts as normal whatever it is: the control of whose positions one by one something is said.
 */
export function partForm(diagrams: Diagrams, space: Space, form: Node, part: Part, apart?: number): Node | undefined {
  const live = withoutInert(diagrams, space, form, apart);
  const normals = normalLevels(diagrams, space, live, apart);
  const impossible = diagrams.terminal(IMPOSSIBLE);
  if (part === 'normal') {
    let usual = live;
    for (const [level, values] of normals) {
      const common = commonTo(diagrams, usual, level, values);
      usual = common ?? diagrams.ite(diagrams.literal(level, values), usual, impossible);
    }
    return orNothing(diagrams, usual);
  }
  const normal = diagrams.and(...[...normals].map(([level, values]) => diagrams.literal(level, values)));
  return orNothing(diagrams, diagrams.ite(normal, impossible, live));
}

/**
 * The state table of one part of a group; undefined when the part is empty. The control `own` stands first, the one that
 * drives the attribute unless said. `previous` is the order of columns that an earlier table had, kept while it costs no row.
 */
export function partTable(
  { diagrams, space }: Compiled,
  behaviour: Behaviour,
  group: Group,
  part: Part,
  own = behaviour.attribute.control,
  previous?: readonly number[],
): StateTable | undefined {
  const form = partForm(diagrams, space, group.form, part);
  if (form === undefined) return undefined;
  const first = own === undefined ? undefined : levelOf(space, own);
  if (part === 'normal') return knownTable(diagrams, form, first, previous);
  // Normal cases are tabulated with the others, so that no row runs over them, and left out then.
  const normals = diagrams.map('usual', withoutInert(diagrams, space, group.form), (outcome) =>
    outcome === IMPOSSIBLE ? IMPOSSIBLE : USUAL,
  );
  const whole = diagrams.apply('with usual cases', form, normals, (abnormal, usual) =>
    abnormal === IMPOSSIBLE ? usual : abnormal,
  );
  const table = knownTable(diagrams, whole, first, previous);
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

/** What a part is about: what can be abnormal and matters to the form, with the values that occur in that part. */
export function partNormals(
  { diagrams, space }: Compiled,
  form: Node,
  part: Part,
): [level: number, values: number[]][] {
  const live = withoutInert(diagrams, space, form);
  return [...normalLevels(diagrams, space, live)].map(([level, normal]) => {
    const size = space.variables[level]?.size ?? 0;
    const all = Array.from({ length: size }, (_, value) => value);
    const occurs = (value: number): boolean => diagrams.restrict(live, level, value) !== diagrams.terminal(IMPOSSIBLE);
    return [level, all.filter((value) => normal.includes(value) === (part === 'normal') && occurs(value))];
  });
}

/** For each variable that the form depends on and that can be abnormal there: its level and its normal values. */
function normalLevels(diagrams: Diagrams, space: Space, form: Node, apart?: number): Map<number, readonly number[]> {
  const normals = new Map<number, readonly number[]>();
  for (const level of diagrams.support(form)) {
    const values = level === apart ? undefined : normalValues(space.meanings[level]);
    if (values !== undefined && canBeOther(diagrams, form, level, values)) normals.set(level, values);
  }
  return normals;
}

function canBeOther(diagrams: Diagrams, form: Node, level: number, values: readonly number[]): boolean {
  const size = diagrams.variables[level]?.size ?? 0;
  return Array.from({ length: size }, (_, value) => value).some(
    (value) => !values.includes(value) && diagrams.restrict(form, level, value) !== diagrams.terminal(IMPOSSIBLE),
  );
}

/** What the form is at each of the values that can happen, where that is one and the same. */
function commonTo(diagrams: Diagrams, form: Node, level: number, values: readonly number[]): Node | undefined {
  const impossible = diagrams.terminal(IMPOSSIBLE);
  const found = new Set(values.map((value) => diagrams.restrict(form, level, value)));
  found.delete(impossible);
  const [only = impossible, ...others] = found;
  return others.length === 0 ? only : undefined;
}

/**
 * Projects away what can be abnormal and changes nothing on this group, so that it doesn't give it an abnormal table which
 * says the same as the normal one. A case that cannot happen with the normal value is left alone: among the normal cases it
 * would be false.
 */
function withoutInert(diagrams: Diagrams, space: Space, form: Node, apart?: number): Node {
  let live = form;
  for (const level of diagrams.support(form)) {
    const normal = level === apart ? undefined : normalValues(space.meanings[level]);
    const usual = normal && commonTo(diagrams, live, level, normal);
    if (usual === undefined) continue;
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
