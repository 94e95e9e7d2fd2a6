/** Holds the expected tables, claims and groups to the oracle, which shares nothing with the program. */
import { type Case, compares, Oracle, type Outcome, readContent } from '../oracle/index.ts';
import type { AlikeEntry, ClaimEntry, Entry, TableEntry } from './behaviour.ts';
import { readTable } from './csv.ts';
import { isSame } from './judge-table.ts';

type Judged = TableEntry | ClaimEntry | AlikeEntry;

/** Sounds, timelines and findings are not. */
export function isJudgedByOracle(entry: Entry): entry is Judged {
  return 'item' in entry || 'claim' in entry || 'alike' in entry;
}

/** What is wrong with an entry by the oracle: nothing where it says the same. */
export function judgeByOracle(folder: string, entry: Judged): string[] {
  if ('item' in entry) return judgeTable(oracleOf(folder), entry);
  return 'claim' in entry ? judgeClaim(folder, entry) : judgeAlike(oracleOf(folder), entry);
}

const oracles = new Map<string, Oracle>();

function oracleOf(folder: string): Oracle {
  const oracle = oracles.get(folder) ?? new Oracle(readContent(folder));
  oracles.set(folder, oracle);
  return oracle;
}

function judgeTable(oracle: Oracle, entry: TableEntry): string[] {
  const [item, attribute] = attributeCalled(oracle, entry.item);
  const { columns, rows } = readTable(entry.table, 'state');
  const fits = new Map(oracle.aircraft.map(({ registration, fit }) => [registration, fit]));
  const wanted = new Set((entry.on ?? [...fits.keys()]).map((registration) => oracle.fitOf(registration)));
  const variables = [...new Set([...oracle.variables(item, attribute), ...columns])];
  const complaints: string[] = [];
  for (const fit of wanted) {
    for (const given of oracle.cases(fit, variables)) {
      if (entry.parts === 'normal' && !oracle.isNormal(given)) continue;
      const hits = rows.filter(({ cells }) =>
        cells.every((cell, at) => matches(oracle, given, columns[at] ?? '', cell)),
      );
      const where = `${fit.registrations.join(', ')}: ${JSON.stringify(given)}`;
      const [row] = hits;
      const { outcomes, depends } = oracle.behaviour(fit, item, attribute, given);
      const found = depends ? 'depends' : outcomes.map(textOf).join('/');
      if (!row || hits.length > 1) complaints.push(`${hits.length} rows are about ${where}`);
      else if (!isSame(row.result.startsWith('depends') ? 'depends' : row.result, found))
        complaints.push(`${found}, not ${row.result}, on ${where}`);
    }
  }
  return complaints;
}

function attributeCalled({ content }: Oracle, name: string): [item: string, attribute: string] {
  const [id = '', attribute] = name.split('.');
  const own = [...content.items.get(id)!.attributes.keys()];
  return [id, attribute ?? (own.length === 1 ? own[0]! : 'lamp')];
}

function matches({ content }: Oracle, given: Case, column: string, cell: string): boolean {
  if (cell === '-') return true;
  if (content.conditions.get(column)?.number) {
    return cell.split('&').every((part) => {
      const [, by = '', value = ''] = /^\s*(<=|>=|<|>|=)\s*(-?[\d.]+)/.exec(part) ?? [];
      return compares(given[column] ?? '', by, value);
    });
  }
  const words = cell.split('/').map((word) => word.trim());
  return words.includes(given[column] ?? counterpartValue(content, given, column) ?? 'absent');
}

/** What the position of the counterpart that is fitted in place of a control is called in the control's column. */
function counterpartValue({ controls }: Oracle['content'], given: Case, column: string): string | undefined {
  for (const [id, control] of controls) {
    const value = given[id];
    if (value === undefined) continue;
    if (control.counterpart === column) return control.positions.get(value)?.as ?? value;
    if (controls.get(column)?.counterpart !== id) continue;
    const same = [...controls.get(column)!.positions].find(([, { as }]) => as === value);
    return same?.[0] ?? value;
  }
  return undefined;
}

function textOf(outcome: Outcome | 'not-fitted'): string {
  if (outcome === 'not-fitted') return 'not fitted';
  if (typeof outcome === 'string') return outcome;
  return 'notStated' in outcome ? `not stated ${outcome.notStated}` : JSON.stringify(outcome);
}

/** The claim counts as one of the content's, so that numbers are tried around its thresholds too. */
function judgeClaim(folder: string, { claim, fails }: ClaimEntry): string[] {
  const content = readContent(folder);
  const oracle = new Oracle({ ...content, claims: [...content.claims, { sentence: '', holds: claim }] });
  const failing = oracle.aircraft.filter(({ fit }) =>
    oracle
      .candidates(fit)
      .some((one) =>
        [...oracle.cases(one, oracle.variablesOf(claim))].some((given) => !oracle.evaluate(one, claim, given)),
      ),
  );
  const found = failing.map(({ registration }) => registration);
  return found.toSorted().join() === fails.toSorted().join() ? [] : [`it fails on ${found.join(', ') || 'none'}`];
}

function judgeAlike(oracle: Oracle, { alike, groups }: AlikeEntry): string[] {
  const [item, attribute] = attributeCalled(oracle, alike);
  const groupOf = (registration: string): number => groups.findIndex((group) => group.includes(registration));
  return oracle.aircraft.flatMap((a) =>
    oracle.aircraft.flatMap((b) => {
      const expected = groupOf(a.registration) === groupOf(b.registration);
      if (oracle.alike(item, attribute, a.fit, b.fit) === expected) return [];
      return [`${a.registration} and ${b.registration} are ${expected ? 'not ' : ''}alike`];
    }),
  );
}
