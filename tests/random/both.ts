/** A content as the program compiles it and as the oracle reads it, and how each says one case in the other's words. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { absentValue, type Compiled, compileFleet, type Fit, type Meaning, valueIds } from '../../src/compile/index.ts';
import { type Diagnostic, Diagnostics } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { writeFiles } from '../helpers/temporary-folder.ts';
import { type Case, loadOracle, type Oracle, type Fit as OracleFit } from '../oracle/index.ts';

export interface Both {
  readonly compiled: Compiled | undefined;
  readonly found: readonly Diagnostic[];
  /** Loaded when it is asked for: what the program refuses to read, the oracle need not be able to. */
  readonly oracle: () => Oracle;
}

/** By level: the value of the diagram's variable. */
export type Levels = ReadonlyMap<number, number>;

export function both(files: Readonly<Record<string, string>>): Both {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(
    Object.entries(files).map(([path, text]) => ({ path, text })),
    diagnostics,
  );
  const compiled = fleet && compileFleet(fleet, diagnostics);
  return { compiled, found: diagnostics.all, oracle: () => oracleOf(files) };
}

export function oracleOf(files: Readonly<Record<string, string>>): Oracle {
  const folder = mkdtempSync(join(tmpdir(), 'switchleaf-random-'));
  try {
    writeFiles(folder, files);
    return loadOracle(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The program's fit with the same options as one of the oracle. */
export function fitLike({ fits }: Compiled, { id }: OracleFit): Fit {
  const found = fits.find(({ options }) => [...options.values()].join('/') === id);
  if (!found) throw new Error(`no fit is ${id}`);
  return found;
}

/** The diagram's values of a case. Counterparts share a variable, which has the value of the one that is fitted. */
export function levelsOf({ space }: Compiled, levels: readonly number[], given: Case): Map<number, number> {
  return new Map(
    levels.map((level) => {
      const meaning = space.meanings[level] as Meaning;
      if (meaning.kind === 'control') {
        const fitted = meaning.controls.find(({ id }) => given[id] !== undefined);
        return [level, fitted ? positionValue(meaning, fitted.id, given[fitted.id] as string) : absentValue(meaning)];
      }
      const written = given[space.variables[level]?.id ?? ''];
      const size = space.variables[level]?.size ?? 0;
      return [level, Array.from({ length: size }, (_, at) => at).findIndex((at) => isValue(meaning, at, written))];
    }),
  );
}

/** The value of a control's variable for a position of one of the controls that share it. */
export function positionValue(
  meaning: Extract<Meaning, { kind: 'control' }>,
  control: string,
  position: string,
): number {
  const found = meaning.controls.find(({ id }) => id === control);
  if (!found) throw new Error(`${control} does not count as ${meaning.control.id}`);
  const place = found.positions.findIndex(({ id }) => id === position);
  return meaning.values.findIndex((each) => each.get(found) === place);
}

/** Whether a value of a variable, as the case has it, is the diagram's value. Numbers go from 0 by 0.5. */
function isValue(meaning: Meaning, value: number, written: string | undefined): boolean {
  if (meaning.kind === 'sequence' && value === absentValue(meaning)) return written === undefined;
  if (meaning.kind !== 'number') return valueIds(meaning)[value] === written;
  const step = BigInt(Math.round(Number(written) * 2));
  const cell = meaning.cells[value];
  return cell !== undefined && cell.first <= step && step <= cell.last;
}

/** "dark", "dark/lit", "not stated Q-1", "depends on grade: dark or lit": the program's outcome, sorted, so that both sides say it alike. */
export function said({ outcomes }: Pick<Compiled, 'outcomes'>, outcome: number): string {
  const meaning = outcomes.meaning(outcome);
  switch (meaning.kind) {
    case 'state':
      return meaning.state;
    case 'not stated':
      return `not stated ${meaning.query}`;
    case 'either':
      return meaning.of
        .map((each) => said({ outcomes }, each))
        .sort()
        .join('/');
    case 'depends':
      return dependsText(
        meaning.options,
        meaning.of.map((each) => said({ outcomes }, each)),
      );
    default:
      return meaning.kind;
  }
}

/** "depends on grade, kit: dark or dark/lit": what the aircraft that it may be say, each once. */
export function dependsText(options: readonly string[], all: readonly string[]): string {
  return `depends on ${options.join(', ')}: ${[...new Set(all)].sort().join(' or ')}`;
}

type OracleOutcome = ReturnType<Oracle['byCandidate']>[number]['outcomes'][number];

/** The same of what the oracle says of one aircraft. */
export function textOfOutcome(outcome: OracleOutcome): string {
  if (outcome === 'not-fitted') return 'not fitted';
  if (typeof outcome === 'string') return outcome;
  return 'notStated' in outcome ? `not stated ${outcome.notStated}` : JSON.stringify(outcome);
}
