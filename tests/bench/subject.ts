/** What is measured: a problem, and the ways to compile it with the code of src/. */
import {
  absentValue,
  type Compiled,
  compileFleet,
  difference,
  idOf,
  NOT_FITTED,
  partTable,
  valueIds,
  valueOfPosition,
} from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { type Diagrams, type Node, type StateTable, stateTable } from '../../src/logic/index.ts';
import { type Fleet, readFleet } from '../../src/model/index.ts';
import type { ScaleContent } from '../compile/scale-content.ts';
import { problemOf, SCALE_STATES } from './families.ts';
import { compileProblem, IMPOSSIBLE } from './ours.ts';
import type { Problem } from './problem.ts';

export interface Made {
  readonly diagrams: Diagrams;
  /** By item: from all variables to outcomes. */
  readonly nodes: readonly Node[];
  /** By item, then by fit: the normal forms. */
  readonly forms: readonly (readonly Node[])[];
  /** The tables of an item, of all fit groups. */
  readonly tables: (item: number) => readonly StateTable[];
  /** The difference table of two fits, where there are fits of a fleet. */
  readonly difference?: (item: number, a: number, b: number) => StateTable | undefined;
  /** A case of the problem as values by level. */
  readonly values: (each: readonly number[]) => readonly number[];
  /** The problem's outcome for a terminal. */
  readonly outcome: (terminal: number) => number;
}

export interface Subject {
  readonly name: string;
  readonly about: string;
  readonly problem: Problem;
  /** Whether `compile` does with it all that a content needs. */
  readonly isFleet: boolean;
  readonly compile: () => Made;
}

export function ruleListSubject(name: string, about: string, problem: Problem): Subject {
  return {
    name,
    about,
    problem,
    isFleet: false,
    compile: () => {
      const made = compileProblem(problem);
      const { diagrams, forms } = made;
      return {
        ...made,
        tables: (item) =>
          [...new Set(forms[item])].map((form) => stateTable(diagrams, form, { impossible: IMPOSSIBLE })),
        values: (each) => each,
        outcome: (terminal) => terminal,
      };
    },
  };
}

export function readContent(content: ScaleContent): Fleet {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(
    Object.entries(content.files).map(([path, text]) => ({ path, text })),
    diagnostics,
  );
  if (!fleet || diagnostics.all.length > 0) throw new Error(diagnostics.all.map(({ code }) => code).join(', '));
  return fleet;
}

export function compiledFleet(fleet: Fleet): Compiled {
  const diagnostics = new Diagnostics();
  const compiled = compileFleet(fleet, diagnostics);
  if (!compiled || diagnostics.all.length > 0) throw new Error(diagnostics.all.map(({ code }) => code).join(', '));
  return compiled;
}

export function fleetSubject(name: string, about: string, content: ScaleContent): Subject {
  const fleet = readContent(content);
  const problem = problemOf(content);
  return { name, about, problem, isFleet: true, compile: () => madeOf(compiledFleet(fleet), problem) };
}

function madeOf(compiled: Compiled, problem: Problem): Made {
  const { behaviours, diagrams, fits, outcomes } = compiled;
  const at = valuesIn(compiled, problem);
  return {
    diagrams,
    nodes: behaviours.map(({ node }) => node),
    forms: behaviours.map(({ forms }) => forms),
    tables: (item) => {
      const behaviour = behaviours[item] as (typeof behaviours)[number];
      return behaviour.groups
        .flatMap((group) =>
          (['normal', 'abnormal'] as const).map((part) => partTable(compiled, behaviour, group, part)),
        )
        .filter((table) => table !== undefined);
    },
    difference: (item, a, b) => {
      const [here, there] = [fits[a], fits[b]];
      const behaviour = behaviours[item];
      return here && there && behaviour && difference(compiled, behaviour, here, there).table;
    },
    values: at,
    outcome: (terminal) =>
      SCALE_STATES.indexOf(terminal === NOT_FITTED ? 'not fitted' : (outcomes.statesIn(terminal)[0] ?? '')),
  };
}

/** Cases of the problem as values by level: the same variables, in another order. */
function valuesIn({ space }: Compiled, problem: Problem): (each: readonly number[]) => readonly number[] {
  const variableAt = new Map(problem.variables.map(({ id }, variable) => [id, variable]));
  const mapped = space.meanings.map((meaning, level) => {
    const variable = variableAt.get(idOf(meaning)) as number;
    const size = problem.variables[variable]?.size as number;
    const values = Array.from({ length: size }, (_, value) => {
      if (meaning.kind !== 'control') return value;
      const known = value < meaning.control.positions.length;
      return known ? valueOfPosition(meaning, meaning.control, value) : absentValue(meaning);
    });
    const inSpace = meaning.kind === 'number' ? space.variables[level]?.size : valueIds(meaning).length;
    if (meaning.kind !== 'control' && inSpace !== size) throw new Error(`${idOf(meaning)} has other values`);
    return { variable, values };
  });
  return (each) => mapped.map(({ variable, values }) => values[each[variable] as number] as number);
}
