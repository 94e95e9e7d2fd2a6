/** What sets a sound off on one settled fit: the movements as a table, and a plain sentence where it can be that plain. */
import {
  type Compiled,
  IMPOSSIBLE,
  isHidden,
  levelsBehindSound,
  type On,
  type SettledFit,
  type TriggerRow,
  triggerTable,
  variableTitle,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Node } from '../logic/index.ts';
import { type Sound, withSmallInitial } from '../model/index.ts';
import type { Inline } from './book.ts';
import type { TriggerRowView, TriggerTableView } from './book-time.ts';
import { cellText, columnTitle, text } from './cells.ts';
import { cubeWords } from './phrases.ts';
import { coversOf } from './sentences.ts';
import { meaningAt } from './tables.ts';

/** Without its id, so that two fits with the same table can be told. */
export function triggerTableView(compiled: Compiled, sound: Sound, fit: SettledFit): Omit<TriggerTableView, 'id'> {
  const rows = triggerTable(compiled, sound, fit);
  return {
    sentence: sentence(compiled, sound, rows, fit),
    rows: alikeTogether(rows.flatMap((row) => rowsOf(compiled, row, [fit]))).map((row) =>
      rowView(compiled, row, [fit]),
    ),
  };
}

/** Values before and after, each of which may go over into each. */
interface Moves {
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** A row as it is told: what moves, what has to move with it, and when it is heard. */
interface Row extends Moves, Pick<TriggerRowView, 'cases' | 'heard'> {
  readonly level: number;
  readonly forced: readonly (Moves & { readonly level: number })[];
}

function rowsOf(compiled: Compiled, row: TriggerRow, on: On): Row[] {
  const { level } = row;
  const forced = row.forced.map((each) => ({ level: each.level, from: [each.from], to: [each.to] }));
  return bySource(row.moves).flatMap((moves) =>
    casesOf(compiled, row, on).map((heard) => ({ level, ...moves, forced, ...heard })),
  );
}

/** Rows that differ only in how one other thing has to move with it are told as one, as far as values go together. */
function alikeTogether(rows: readonly Row[]): Row[] {
  const key = ({ forced, ...row }: Row): string => JSON.stringify([row, forced.map(({ level }) => level)]);
  return [...Map.groupBy(rows, key).values()].flatMap((alike) => {
    const [first] = alike as [Row, ...Row[]];
    const [with1, ...others] = first.forced;
    if (!with1 || others.length > 0 || alike.length === 1) return alike;
    const pairs = alike.flatMap(({ forced: [each] }) => (each ? pairsOf(each) : []));
    return bySource(pairs).flatMap(({ from, to }) =>
      runs(from).flatMap((start) =>
        runs(to).map((end): Row => ({ ...first, forced: [{ level: with1.level, from: start, to: end }] })),
      ),
    );
  });
}

function pairsOf({ from, to }: Moves): [number, number][] {
  return from.flatMap((before) => to.map((after): [number, number] => [before, after]));
}

/** Values that touch, together: cells of numbers are said as an interval. */
function runs(values: readonly number[]): number[][] {
  return values
    .toSorted((a, b) => a - b)
    .reduce<number[][]>((found, value) => {
      const last = found.at(-1);
      if (last?.at(-1) !== value - 1) return [...found, [value]];
      return [...found.slice(0, -1), [...last, value]];
    }, []);
}

function rowView(compiled: Compiled, { level, from, to, forced, cases, heard }: Row, on: On): TriggerRowView {
  const meaning = meaningAt(compiled, level);
  return {
    moves: columnTitle(meaning, on),
    from: cellText(meaning, from, on),
    to: cellText(meaning, to, on),
    forced: forced.flatMap((each, at) => [...(at === 0 ? [] : [text(', ')]), ...forcedWords(compiled, each, on)]),
    cases,
    heard,
  };
}

/** Movements from the values that lead to the same ones, together. */
function bySource(moves: readonly (readonly [number, number])[]): { from: number[]; to: number[] }[] {
  const targets = [...Map.groupBy(moves, ([from]) => from)].map(([from, each]) => ({
    from,
    to: each.map(([, to]) => to),
  }));
  return [...Map.groupBy(targets, ({ to }) => to.join(' ')).values()].map((same) => ({
    from: same.map(({ from }) => from),
    to: same[0]?.to ?? [],
  }));
}

function forcedWords(compiled: Compiled, { level, from, to }: Row['forced'][number], on: On): Inline[] {
  const meaning = meaningAt(compiled, level);
  return [
    ...columnTitle(meaning, on),
    text(': '),
    ...cellText(meaning, from, on),
    text(' \u2192 '),
    ...cellText(meaning, to, on),
  ];
}

const HEARD = 2;
const SILENT = 3;
const EITHER = 4;

/** In which cases it is heard, and in which it may be, in words. */
function casesOf(compiled: Compiled, row: TriggerRow, on: On): Pick<TriggerRowView, 'cases' | 'heard'>[] {
  const { diagrams } = compiled;
  const terminal = (value: number): Node => diagrams.terminal(value);
  const [when, either, possible] = relevant(compiled, [row.when, row.either, row.possible]);
  const form = diagrams.ite(
    when,
    terminal(HEARD),
    diagrams.ite(either, terminal(EITHER), diagrams.ite(possible, terminal(SILENT), terminal(IMPOSSIBLE))),
  );
  const covers = coversOf(compiled, form);
  return ([HEARD, EITHER] as const).flatMap((outcome) =>
    covers
      .filter((cover) => cover.outcome === outcome)
      .map(({ columns, cubes }) => ({
        heard: outcome === HEARD ? ('heard' as const) : ('may be heard' as const),
        // Where other things move along, the cases are those in which they do.
        cases:
          row.forced.length > 0 && cubes.every((cube) => cube.every((values) => values === undefined))
            ? [text('whenever they move so')]
            : cubes.flatMap((cube, at) => [
                ...(at === 0 ? [] : [text(', or ')]),
                ...cubeWords(compiled, columns, cube, on),
              ]),
      })),
  );
}

/** The same three sets over the variables that tell them apart; what only says which cases can happen is left out. */
function relevant(compiled: Compiled, [when, either, possible]: [Node, Node, Node]): [Node, Node, Node] {
  const { diagrams } = compiled;
  let silent = diagrams.and(possible, diagrams.not(diagrams.or(when, either)));
  let sets: [Node, Node] = [when, either];
  for (const level of diagrams.support(possible).toReversed()) {
    const without = [...sets, silent].map((set) => diagrams.exists(set, [level])) as [Node, Node, Node];
    const [a, b, c] = without;
    if (diagrams.or(diagrams.and(a, b), diagrams.and(a, c), diagrams.and(b, c)) !== diagrams.no) continue;
    sets = [a, b];
    silent = c;
  }
  return [...sets, diagrams.or(...sets, silent)];
}

/** "Heard at each movement of the seat-belt switch. Nothing else sets it off." Empty where it takes the table to say. */
function sentence(compiled: Compiled, sound: Sound, rows: readonly TriggerRow[], fit: SettledFit): Inline[] {
  if (rows.length === 0) return [text('Nothing sets it off.')];
  const levels = [...new Set(rows.map(({ level }) => level))];
  const possible = (compiled.possible[fit.index] as Compiled['possible'][number]).only(
    levelsBehindSound(compiled, sound, fit),
  );
  const always = levels.filter((level) => isEachMovement(compiled, rows, level, possible));
  const nouns = always.map((level) => named(compiled, level, fit));
  const each = nouns.length === 0 ? '' : `Heard at each movement of ${list(nouns, 'and')}.`;
  const [only] = levels;
  if (always.length === levels.length) return [text(`${each} Nothing else sets it off.`)];
  if (nouns.length > 0) return [text(`${each} Other movements set it off too, as the table says.`)];
  if (levels.length > 1 || only === undefined) return [];
  return [text(`Set off by movements of ${named(compiled, only, fit)} alone.`)];
}

/** "the seat-belt switch", and a sequence by its noun. */
function named(compiled: Compiled, level: number, fit: SettledFit): string {
  const meaning = meaningAt(compiled, level);
  if (meaning.kind === 'sequence') return meaning.sequence.noun;
  return `the ${withSmallInitial(variableTitle(meaning, [fit]))}`;
}

/** Whether every movement that can happen, from any case, is heard whatever else the case says. Modes move by rules of their own. */
function isEachMovement(compiled: Compiled, rows: readonly TriggerRow[], level: number, possible: Node): boolean {
  const { diagrams, space } = compiled;
  const meaning = meaningAt(compiled, level);
  if (meaning.kind === 'sequence') return false;
  const own = rows.filter((row) => row.level === level);
  if (own.some(({ when, possible, either }) => when !== possible || either !== diagrams.no)) return false;
  const hidden = diagrams.support(possible).filter((each) => isHidden(space.meanings[each]));
  const before = (value: number): Node => diagrams.exists(diagrams.restrict(possible, level, value), hidden);
  const values = Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => value).filter(
    (value) => before(value) !== diagrams.no,
  );
  return values.every((from) =>
    values.every((to) => {
      if (from === to) return true;
      const heard = own
        .filter(({ moves }) => moves.some(([a, b]) => a === from && b === to))
        .map((row) =>
          diagrams.and(row.possible, ...row.forced.map((other) => diagrams.literal(other.level, [other.from]))),
        );
      return diagrams.implies(before(from), diagrams.or(...heard)) === diagrams.yes;
    }),
  );
}
