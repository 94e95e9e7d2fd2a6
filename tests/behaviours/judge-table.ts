/** Holds an expected state table to the compiled fleet, case by case. */
import { type Compiled, type Fit, IMPOSSIBLE } from '../../src/compile/index.ts';
import type { Node } from '../../src/logic/index.ts';
import type { TableEntry } from './behaviour.ts';
import { type Case, caseText, isNormal, possibleCases, type Variables, variablesOf } from './cases.ts';
import { cellTest } from './columns.ts';
import { isSame, readTable } from './csv.ts';

type CompiledBehaviour = Compiled['behaviours'][number];

/** What is wrong with the table, or with what was computed: nothing where they agree. */
export function judgeTable(compiled: Compiled, entry: TableEntry): string[] {
  const behaviour = behaviourCalled(compiled, entry.item);
  return fitsOn(compiled, entry.on).flatMap(({ fit, registrations }) =>
    judgeOnFit(compiled, entry, behaviour, fit).map((complaint) => `${entry.item} on ${registrations}: ${complaint}`),
  );
}

function judgeOnFit(compiled: Compiled, entry: TableEntry, behaviour: CompiledBehaviour, fit: Fit): string[] {
  const { diagrams } = compiled;
  const form = behaviour.forms[fit.index] as Node;
  const { columns, rows } = readTable(entry.table, 'state');
  const variables = variablesOf(
    compiled,
    columns,
    rows.map(({ cells }) => cells),
    diagrams.support(form),
  );
  const tests = rows.map(({ cells }) => cells.map((cell, at) => cellTest(variables.columns[at]!, cell)));
  const met = new Set<number>();
  const complaints: string[] = [];
  for (const so of possibleCases(compiled, fit, variables)) {
    if (entry.parts === 'normal' && !isNormal(variables.columns, so)) continue;
    const hits = [...tests.keys()].filter((row) => tests[row]?.every((test, at) => test(valueAt(variables, so, at))));
    for (const row of hits) met.add(row);
    const [row] = hits;
    const found = outcomeText(compiled, form, so);
    const where = caseText(variables.columns, so);
    if (row === undefined) complaints.push(`no row is about ${where}: ${found}`);
    else if (hits.length > 1)
      complaints.push(`lines ${hits.map((hit) => rows[hit]?.line).join(' and ')} are about ${where}`);
    else if (!isSame(rows[row]!.result, found)) complaints.push(`${found}, not ${rows[row]!.result}, with ${where}`);
  }
  const idle = [...rows.keys()].filter((row) => !met.has(row)).map((row) => `no case is in line ${rows[row]?.line}`);
  return [...complaints, ...idle];
}

function valueAt({ columns }: Variables, so: Case, at: number): NonNullable<ReturnType<Case['get']>> {
  const value = so.get(columns[at]?.level ?? -1);
  if (!value) throw new Error(`column ${at} has no value`);
  return value;
}

/** The outcome of a case. */
function outcomeText(compiled: Compiled, form: Node, so: Case): string {
  const { diagrams } = compiled;
  const levels = diagrams.support(form);
  const end = diagrams.restrictAll(form, new Map(levels.map((level) => [level, so.get(level)?.value ?? 0])));
  return textOfOutcome(compiled, diagrams.valueOf(end) ?? IMPOSSIBLE);
}

/** An outcome as tables write it, states that it may be in the order of the alphabet. */
export function textOfOutcome(compiled: Compiled, terminal: number): string {
  const meaning = compiled.outcomes.meaning(terminal);
  switch (meaning.kind) {
    case 'state':
      return meaning.state;
    case 'not stated':
      return `not stated ${meaning.query}`;
    case 'either':
      return meaning.of
        .map((each) => textOfOutcome(compiled, each))
        .sort()
        .join('/');
    case 'depends':
      return `depends on ${meaning.options.join('+')}`;
    default:
      return meaning.kind;
  }
}

/** "item.attribute", or an item with one attribute, or with one called "lamp". */
export function behaviourCalled({ behaviours }: Compiled, name: string): CompiledBehaviour {
  const [id, attribute] = name.split('.');
  const own = behaviours.filter(({ item }) => item.id === id);
  const wanted = attribute ?? (own.length === 1 ? own[0]?.attribute.id : 'lamp');
  const found = own.find((each) => each.attribute.id === wanted);
  if (!found) throw new Error(`nothing is called ${name}`);
  return found;
}

/** The fits of the aircraft with these registrations, or of all. */
export function fitsOn(
  { fits, fleet }: Compiled,
  on: readonly string[] | undefined,
): { fit: Fit; registrations: string }[] {
  for (const registration of on ?? []) {
    if (!fleet.aircraft.some((aircraft) => aircraft.registration === registration)) {
      throw new Error(`no aircraft is ${registration}`);
    }
  }
  return fits.flatMap((fit) => {
    const here = fit.aircraft.map(({ registration }) => registration).filter((each) => on?.includes(each) ?? true);
    return here.length > 0 ? [{ fit, registrations: here.join(', ') }] : [];
  });
}
