/** Holds what is expected to the oracle, which shares nothing with the program. Findings are not judged. */
import { Oracle, readContent } from '../oracle/index.ts';
import type { AlikeEntry, ClaimEntry, Entry, FindingEntry, TableEntry } from './behaviour.ts';
import { isSame, readTable } from './csv.ts';
import { judgeSoundByOracle } from './judge-sound-by-oracle.ts';
import { judgeStageByOracle } from './judge-stage.ts';
import { judgeTimelineByOracle } from './judge-time-by-oracle.ts';
import { attributeCalled, matches, textOf } from './oracle-words.ts';

export type Judged = Exclude<Entry, FindingEntry>;

export function isJudgedByOracle(entry: Entry): entry is Judged {
  return !('finding' in entry);
}

/** What is wrong with an entry by the oracle: nothing where it says the same. */
export function judgeByOracle(folder: string, entry: Judged): string[] {
  if ('item' in entry) return judgeTable(folder, entry);
  if ('claim' in entry) return judgeClaim(folder, entry);
  const oracle = oracleOf(folder);
  if ('alike' in entry) return judgeAlike(oracle, entry);
  if ('stage' in entry) return judgeStageByOracle(oracle, entry);
  return 'sound' in entry ? judgeSoundByOracle(oracle, entry) : judgeTimelineByOracle(oracle, entry);
}

const oracles = new Map<string, Oracle>();

/** `holds` count as claims of the content, so that numbers are tried around their thresholds too. */
function oracleOf(folder: string, ...holds: readonly string[]): Oracle {
  const key = [folder, ...holds].join(' | ');
  const content = readContent(folder);
  const claims = [...content.claims, ...holds.map((each) => ({ sentence: '', holds: each }))];
  const oracle = oracles.get(key) ?? new Oracle({ ...content, claims });
  oracles.set(key, oracle);
  return oracle;
}

function judgeTable(folder: string, entry: TableEntry): string[] {
  const { columns, rows } = readTable(entry.table, 'state');
  const { conditions } = oracleOf(folder).content;
  const comparisons = rows.flatMap(({ cells }) =>
    cells.flatMap((cell, at) => {
      const isNumber = conditions.get(columns[at] ?? '')?.number !== undefined && cell !== '-';
      return isNumber ? cell.split('&').map((part) => `${columns[at]} ${part.trim()}`) : [];
    }),
  );
  const oracle = oracleOf(folder, ...new Set(comparisons));
  const [item, attribute] = attributeCalled(oracle, entry.item);
  const registrations = entry.on ?? oracle.aircraft.map(({ registration }) => registration);
  const fits = new Set(registrations.map((registration) => oracle.fitOf(registration)));
  const variables = [...new Set([...oracle.variables(item, attribute), ...columns])];
  return [...fits].flatMap((fit) => {
    const complaints: string[] = [];
    const met = new Set<number>();
    for (const given of oracle.cases(fit, variables)) {
      if (entry.parts === 'normal' && !oracle.isNormal(given)) continue;
      const [row, ...others] = rows.filter(({ cells }) =>
        cells.every((cell, at) => matches(oracle, given, columns[at] ?? '', cell)),
      );
      const { outcomes, depends } = oracle.behaviour(fit, item, attribute, given);
      const found = depends ? 'depends' : outcomes.map(textOf).join('/');
      const expected = row?.result.startsWith('depends') ? 'depends' : (row?.result ?? 'said in no row');
      if (row) met.add(row.line);
      if (others.length > 0) complaints.push(`several rows are about ${JSON.stringify(given)}`);
      else if (!isSame(expected, found)) complaints.push(`${found}, not ${expected}, in ${JSON.stringify(given)}`);
    }
    const idle = rows.filter(({ line }) => !met.has(line)).map(({ line }) => `no case is in line ${line}`);
    return [...complaints, ...idle].map(
      (complaint) => `${entry.item} on ${fit.registrations.join(', ')}: ${complaint}`,
    );
  });
}

function judgeClaim(folder: string, { claim, fails }: ClaimEntry): string[] {
  const oracle = oracleOf(folder, claim);
  const variables = oracle.variablesOf(claim);
  const failing = oracle.aircraft.filter(({ fit }) =>
    oracle
      .candidates(fit)
      .some((one) => [...oracle.cases(one, variables)].some((given) => !oracle.evaluate(one, claim, given))),
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
