/**
 * The state tables of random families, proved by the solver: on every case that can happen each is complete, has no overlap
 * and says what the rules say, by a translation of the files that shares nothing with src/logic.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type Compiled,
  type Fit,
  idOf,
  type Meaning,
  partNormals,
  partTable,
  valueIds,
} from '../../src/compile/index.ts';
import type { StateTable } from '../../src/logic/index.ts';
import { PATIENCE, PROVED, shardOf } from '../helpers/trials.ts';
import type { Oracle, Fit as OracleFit } from '../oracle/index.ts';
import { type Fault, type Judge, type JudgedTable, type Prover, startProver, type TableCell } from '../oracle/z3.ts';
import { both, fitLike, positionValue } from './both.ts';
import { type Family, written } from './family.ts';
import { randomFamily } from './random-family.ts';
import { filesText } from './report.ts';
import { shrunk } from './shrink.ts';

export const SHARDS = 2;
const FIRST_SEED = 20_261_301;
/** Neither unknown options nor latches, open queries and quiet overrides, of which the solver knows nothing. */
const REACH = { everything: false };

export function proveShard(shard: number): void {
  describe(`tables of random families before the solver, shard ${shard + 1} of ${SHARDS}`, () => {
    let prover: Prover;
    const proved = { sound: 0, tables: 0, long: 0, either: 0, restricted: 0 };
    const numbers = shardOf(PROVED, shard, SHARDS).map((at) => FIRST_SEED + at);
    beforeAll(async () => {
      prover = await startProver();
    });
    afterAll(() => prover.end());

    it(
      'are complete, without overlap and right',
      async () => {
        for (const number of numbers) {
          const family = randomFamily(number, REACH);
          const tables = tablesOf(family);
          if (!tables) continue;
          const faults = await faultsOf(prover, family);
          if (faults.length > 0) expect.fail(await report(prover, number, family));
          proved.sound += 1;
          proved.tables += tables.list.length;
          proved.long += tables.list.filter(({ rows }) => rows.length >= 3).length;
          proved.either += tables.list.filter(({ rows }) => rows.some(({ state }) => typeof state !== 'string')).length;
          proved.restricted += family.never.length > 0 ? 1 : 0;
        }
      },
      PATIENCE,
    );

    it('are many and not trivial', () => {
      const share = (count: number): number => (100 * count) / numbers.length;
      expect(share(proved.sound)).toBeGreaterThan(75);
      expect(share(proved.tables)).toBeGreaterThan(500);
      expect(share(proved.long)).toBeGreaterThan(80);
      expect(share(proved.either)).toBeGreaterThan(10);
      expect(share(proved.restricted)).toBeGreaterThan(35);
    });

    it(
      'would not be called right with another state in one row, or without a row',
      async () => {
        let broken = 0;
        for (const number of numbers.slice(0, 10)) {
          const tables = tablesOf(randomFamily(number, REACH));
          const table = tables?.list.find(({ rows }) => rows.length > 1);
          if (!tables || !table) continue;
          const [first, second, ...others] = table.rows as [JudgedTable['rows'][number], JudgedTable['rows'][number]];
          const judge = prover.judgeOf(tables.oracle);
          expect(kindsOf(await judge.table({ ...table, rows: [second, ...others] }))).toContain('gap');
          const swapped = { ...first, state: second.state };
          const faults = kindsOf(await judge.table({ ...table, rows: [swapped, second, ...others] }));
          if (first.state !== second.state) expect(faults).toEqual(['wrong state']);
          broken += 1;
        }
        expect(broken).toBeGreaterThan(4);
      },
      PATIENCE,
    );
  });
}

const kindsOf = (faults: readonly Fault[]): string[] => faults.map(({ kind }) => kind);

async function faultsOf(prover: Prover, family: Family): Promise<string[]> {
  const tables = tablesOf(family);
  if (!tables) return [];
  const judge: Judge = prover.judgeOf(tables.oracle);
  const faults: string[] = [];
  for (const table of tables.list) {
    const found = await judge.table(table);
    faults.push(...found.map((fault) => `${table.item} on ${table.fit}, ${table.part}: ${JSON.stringify(fault)}`));
  }
  return faults;
}

async function report(prover: Prover, number: number, family: Family): Promise<string> {
  const least = await shrunk(family, async (smaller) => (await faultsOf(prover, smaller)).length > 0);
  return `family ${number}, made small: ${(await faultsOf(prover, least)).join('\n')}\n\n${filesText(least)}`;
}

/** Every table of a sound family on every fit of its group; undefined where the rules are not sound. */
function tablesOf(family: Family): { readonly oracle: Oracle; readonly list: readonly JudgedTable[] } | undefined {
  const { compiled, found, oracle: load } = both(written(family));
  if (!compiled || found.some(({ code }) => code !== 'SL406' && code !== 'SL412')) return undefined;
  const oracle = load();
  const list = compiled.behaviours.flatMap((behaviour) =>
    behaviour.groups.flatMap((group) =>
      (['normal', 'abnormal'] as const).flatMap((part) => {
        const table = partTable(compiled, behaviour, group, part);
        if (!table || !group.fits.some((fit) => isFittedOn(oracle, fit, behaviour.item.id))) return [];
        const normals = partNormals(compiled, group.form, part).map(([level]) => level);
        const of = { item: behaviour.item.id, attribute: behaviour.attribute.id, part };
        return oracle.fits
          .filter((fit) => group.fits.includes(fitLike(compiled, fit)))
          .map((fit): JudgedTable => {
            const judgedNormal = normals.map((level) =>
              fittedName(oracle, compiled.space.meanings[level] as Meaning, fit),
            );
            return { ...of, judgedNormal, fit: fit.id, ...neutral(compiled, oracle, table, fit) };
          });
      }),
    ),
  );
  return { oracle, list };
}

const isFittedOn = (oracle: Oracle, fit: Fit, item: string): boolean =>
  oracle.fits.some((each) => each.id === [...fit.options.values()].join('/') && oracle.isFitted(each, item));

/** The name of a variable on a fit: of controls that count as one, the one that is fitted. */
function fittedName(oracle: Oracle, meaning: Meaning, fit: OracleFit): string {
  const fitted = meaning.kind === 'control' && meaning.controls.find(({ id }) => oracle.isFitted(fit, id));
  return fitted ? fitted.id : idOf(meaning);
}

/** A table in the words of the content: the controls that are fitted, numbers from one step to another. */
function neutral(
  compiled: Compiled,
  oracle: Oracle,
  table: StateTable,
  fit: OracleFit,
): Pick<JudgedTable, 'columns' | 'rows'> {
  const columns = table.columns.map((level) => {
    const meaning = compiled.space.meanings[level] as Meaning;
    return { meaning, id: fittedName(oracle, meaning, fit) };
  });
  return {
    columns: columns.map(({ id }) => id),
    rows: table.rows.map(({ cells, outcome }) => {
      const states = compiled.outcomes.statesIn(outcome);
      return {
        cells: cells.map((cell, at): TableCell => {
          const column = columns[at];
          return cell && column ? neutralCell(oracle, fit, column.meaning, column.id, cell) : null;
        }),
        state: states.length === 1 ? (states[0] as string) : states,
      };
    }),
  };
}

function neutralCell(oracle: Oracle, fit: OracleFit, meaning: Meaning, id: string, cell: readonly number[]): TableCell {
  if (meaning.kind === 'number') {
    const [first, last] = [meaning.cells[cell[0] ?? 0], meaning.cells[cell.at(-1) ?? 0]];
    const text = (step: bigint | undefined): string => String(Number(step) / 2);
    return { from: text(first?.first), to: text(last?.last) };
  }
  if (meaning.kind !== 'control') return { values: cell.map((value) => valueIds(meaning)[value] ?? '') };
  const positions = oracle.valuesOn(fit, id);
  // A control that isn't fitted stands nowhere: a row with it there holds, one without holds nothing.
  if (positions.length === 0) return cell.includes(valueIds(meaning).length) ? null : { values: [] };
  return { values: positions.filter((position) => cell.includes(positionValue(meaning, id, position))) };
}
