/** Holds an expected table of a sound to its trigger tables. */
import {
  type Compiled,
  isHidden,
  levelOf,
  type SettledFit,
  type TriggerRow,
  triggerTable,
} from '../../src/compile/index.ts';
import type { Node } from '../../src/logic/index.ts';
import type { SoundEntry } from './behaviour.ts';
import { type Column, cellTest, columnOf, valuesOf } from './columns.ts';
import { readTable } from './csv.ts';
import { fitsOn } from './judge-table.ts';

/** One row: what moves, from and to which values of its level, and the cases of everything else. */
interface Row {
  readonly line: number;
  readonly level: number;
  readonly moves: readonly (readonly [from: number, to: number])[];
  readonly others: Node;
  readonly heard: string;
}

export function judgeSound(compiled: Compiled, { sound: id, on, table }: SoundEntry): string[] {
  const sound = compiled.fleet.sounds.find((each) => each.id === id);
  if (!sound) throw new Error(`no sound is called ${id}`);
  const rows = readRows(compiled, table);
  return fitsOn(compiled, on).flatMap(({ fit, registrations }) =>
    fit.settled.flatMap((settled) => {
      const found = triggerTable(compiled, sound, settled);
      const complaints = [
        ...rows.flatMap((row) => judgeRow(compiled, settled, row, found)),
        ...beyond(compiled, rows, found),
      ];
      return complaints.map((complaint) => `${id} on ${registrations}: ${complaint}`);
    }),
  );
}

function readRows(compiled: Compiled, table: string): Row[] {
  const { columns, rows } = readTable(table, 'heard');
  const named = columns.map((id) => columnOf(compiled, id));
  return rows.map(({ cells, result, line }) => {
    const moving = cells.findIndex((cell) => cell.includes('->'));
    const column = named[moving];
    const ends = cells[moving]?.split('->').map((cell) => cell.trim()) ?? [];
    if (!column || ends.length !== 2 || cells.filter((cell) => cell.includes('->')).length > 1) {
      throw new Error(`line ${line} does not tell what moves`);
    }
    const [from = [], to = []] = ends.map((cell) => levelsIn(column, cell));
    const { diagrams } = compiled;
    const others = cells.flatMap((cell, at) =>
      at === moving ? [] : [diagrams.literal(named[at]!.level, levelsIn(named[at]!, cell))],
    );
    return {
      line,
      level: column.level,
      moves: from.flatMap((a) =>
        to.flatMap((b) => (a === b && column.meaning.kind !== 'number' ? [] : [[a, b] as const])),
      ),
      others: diagrams.and(...others),
      heard: result,
    };
  });
}

/** The values of the column's level that a cell is about. Numbers must be cut as the content cuts them. */
function levelsIn(column: Column, cell: string): number[] {
  const values = valuesOf(column, [cell]);
  const test = cellTest(column, cell);
  const meant = new Set(values.filter(test).map(({ value }) => value));
  if (values.some((each) => meant.has(each.value) && !test(each)))
    throw new Error(`"${cell}" cuts finer than the content`);
  return [...meant];
}

function judgeRow(compiled: Compiled, fit: SettledFit, row: Row, found: readonly TriggerRow[]): string[] {
  const { diagrams } = compiled;
  let happens = false;
  const complaints = row.moves.flatMap(([from, to]) => {
    const here = found.filter(
      (each) => each.level === row.level && each.moves.some(([a, b]) => a === from && b === to),
    );
    const heard = diagrams.and(row.others, diagrams.or(...here.map((each) => before(compiled, each, each.when))));
    const either = diagrams.and(row.others, diagrams.or(...here.map((each) => before(compiled, each, each.either))));
    const possible = diagrams.and(
      row.others,
      diagrams.or(
        possibleAlone(compiled, fit, row.level, from, to),
        ...here.map((each) => before(compiled, each, each.possible)),
      ),
    );
    if (possible !== diagrams.no) happens = true;
    const wanted = { yes: [possible, diagrams.no], no: [diagrams.no, diagrams.no], 'yes/no': [diagrams.no, possible] };
    const [yes, open] = wanted[row.heard as keyof typeof wanted] ?? [];
    return heard === yes && either === open ? [] : [`line ${row.line} does not hold from ${from} to ${to}`];
  });
  return happens ? complaints : [...complaints, `nothing can move as line ${row.line} says`];
}

/** Cases of a row of a trigger table, with the values that what is forced to move has before. */
function before({ diagrams }: Compiled, { forced }: TriggerRow, cases: Node): Node {
  return diagrams.and(cases, ...forced.map(({ level, from }) => diagrams.literal(level, [from])));
}

/** Where one variable can move with nothing else. A mode moves only by its transitions, which the trigger table knows. */
function possibleAlone(
  { diagrams, space, possible, fleet }: Compiled,
  fit: SettledFit,
  level: number,
  from: number,
  to: number,
): Node {
  if (space.meanings[level]?.kind === 'sequence') return diagrams.no;
  // A detector may answer anew to the number that moves.
  const answering = fleet.detectors
    .filter(({ number }) => levelOf(space, number) === level)
    .map(({ id }) => levelOf(space, id));
  const [before, after] = [from, to].map((value) =>
    diagrams.exists(diagrams.restrict(possible[fit.index]?.whole ?? diagrams.no, level, value), answering),
  ) as [Node, Node];
  const both = diagrams.and(before, after);
  return diagrams.exists(
    both,
    diagrams.support(both).filter((each) => isHidden(space.meanings[each])),
  );
}

/** Changes that are heard, or may be, and that no row is about. */
function beyond(compiled: Compiled, rows: readonly Row[], found: readonly TriggerRow[]): string[] {
  const { diagrams, space } = compiled;
  return found.flatMap((one) =>
    one.moves.flatMap(([from, to]) => {
      const about = rows.filter((row) => row.level === one.level && row.moves.some(([a, b]) => a === from && b === to));
      const rest = diagrams.and(
        before(compiled, one, diagrams.or(one.when, one.either)),
        diagrams.not(diagrams.or(...about.map(({ others }) => others))),
      );
      return rest === diagrams.no ? [] : [`no row is about ${space.variables[one.level]?.id} from ${from} to ${to}`];
    }),
  );
}
