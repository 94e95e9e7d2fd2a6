/** Holds an expected table of a sound to the oracle, change by change. */
import type { Case, Fit, Oracle } from '../oracle/index.ts';
import type { SoundEntry } from './behaviour.ts';
import { readTable } from './csv.ts';
import { matches } from './oracle-words.ts';

/** One thing that moves first, and the case after all that this brings with it. */
interface Change {
  readonly moved: string;
  readonly after: Case;
}

/** Tries every change of one thing over all that the table, the triggers and the sequences among them name. */
export function judgeSoundByOracle(oracle: Oracle, { sound, on, table }: SoundEntry): string[] {
  const { columns, rows } = readTable(table, 'heard');
  const variables = variablesOf(oracle, sound, columns);
  const met = new Set<number>();
  const complaints = oracle.aircraft
    .filter(({ registration }) => on?.includes(registration) ?? true)
    .flatMap(({ fit }) => {
      const heard = new Map<string, Set<boolean>>();
      const expected = new Map<string, string>();
      for (const before of oracle.cases(fit, variables)) {
        for (const { moved, after } of changesFrom(oracle, fit, before, variables)) {
          const about = rows.filter(({ cells }) =>
            columns.every((column, at) => {
              const [from = '-', to] = (cells[at] ?? '-').split('->').map((cell) => cell.trim());
              if ((to !== undefined) !== (column === moved) || !matches(oracle, before, column, from)) return false;
              return to === undefined || matches(oracle, after, column, to);
            }),
          );
          for (const { line } of about) met.add(line);
          const key = `${JSON.stringify(seen(oracle, before))}, ${moved} to ${after[moved]}`;
          heard.set(key, (heard.get(key) ?? new Set()).add(isHeard(oracle, fit, sound, before, after)));
          expected.set(key, [...new Set(about.map(({ result }) => result))].join(' and ') || 'no');
        }
      }
      return [...heard].flatMap(([key, answers]) => {
        const found = answers.size > 1 ? 'yes/no' : answers.has(true) ? 'yes' : 'no';
        // A number that moves within one cell of the table may move either way.
        const isPart = expected.get(key) === 'yes/no' && found === 'no';
        return isPart || found === expected.get(key) ? [] : [`${key}: ${found}, not ${expected.get(key)}`];
      });
    });
  return [...complaints, ...rows.filter(({ line }) => !met.has(line)).map(({ line }) => `line ${line} never happens`)];
}

function variablesOf(oracle: Oracle, id: string, columns: readonly string[]): readonly string[] {
  const { sounds, sequences } = oracle.content;
  const read = (texts: readonly (string | undefined)[]): string[] =>
    texts.flatMap((text) => (text === undefined ? [] : oracle.variablesOf(text)));
  const named = sounds
    .get(id)!
    .triggers.flatMap(({ moves, becomes, while: during }) => [
      ...(moves === undefined ? [] : [moves]),
      ...read([becomes, during]),
    ]);
  const all = new Set([...columns, ...named]);
  // A set goes on over what is added to it meanwhile.
  for (const name of all) {
    for (const { when } of sequences.get(name)?.transitions ?? []) for (const each of read([when])) all.add(each);
  }
  return [...all];
}

function* changesFrom(oracle: Oracle, fit: Fit, before: Case, variables: readonly string[]): Iterable<Change> {
  const { detectors, sequences } = oracle.content;
  for (const moved of variables.filter((name) => before[name] !== undefined && !detectors.has(name))) {
    const first = sequences.has(moved) ? inTime(oracle, fit, before, moved) : oracle.valuesOn(fit, moved);
    for (const value of first) {
      if (value === before[moved]) continue;
      let starts: Case[] = [{ ...before, [moved]: value }];
      for (const name of variables.filter((each) => detectors.get(each)?.number === moved)) {
        starts = starts.flatMap((one) => ['no', 'yes'].map((answer) => ({ ...one, [name]: answer })));
      }
      for (const start of starts) {
        const after = atRest(oracle, fit, start);
        if (after[moved] !== before[moved] && oracle.canChange(fit, before, after)) yield { moved, after };
      }
    }
  }
}

/** The modes to which a delay may lead. */
function inTime(oracle: Oracle, fit: Fit, before: Case, id: string): string[] {
  return oracle.content.sequences
    .get(id)!
    .transitions.filter(({ from, when, holds, after, since }) => {
      const waits = holds !== undefined || after !== undefined || since !== undefined;
      return waits && from.includes(before[id]!) && (when === undefined || isTrue(oracle, fit, when, before));
    })
    .map(({ to }) => to);
}

/** The case after everything that is taken at once, in the order of the sequences and of their transitions. */
function atRest(oracle: Oracle, fit: Fit, given: Case): Case {
  for (const { id, transitions } of oracle.content.sequences.values()) {
    const taken = transitions.find(({ from, when, holds, after, since }) => {
      const waits = holds !== undefined || after !== undefined || since !== undefined;
      return !waits && from.includes(given[id] ?? '') && when !== undefined && isTrue(oracle, fit, when, given);
    });
    if (taken) return atRest(oracle, fit, { ...given, [id]: taken.to });
  }
  return given;
}

function isHeard(oracle: Oracle, fit: Fit, id: string, before: Case, after: Case): boolean {
  return oracle.content.sounds.get(id)!.triggers.some(({ moves, from, to, becomes, while: during }) => {
    const isAmong = (values: readonly string[] | undefined, given: Case): boolean =>
      values === undefined || values.includes(given[moves!]!);
    return (
      (moves === undefined || (before[moves] !== after[moves] && isAmong(from, before) && isAmong(to, after))) &&
      (becomes === undefined || (!isTrue(oracle, fit, becomes, before) && isTrue(oracle, fit, becomes, after))) &&
      (during === undefined || isTrue(oracle, fit, during, after))
    );
  });
}

/** Sounds and sequences read items as if quiet overrides did not exist. */
function isTrue({ meaning }: Oracle, fit: Fit, text: string, given: Case): boolean {
  return !meaning.truths(text, meaning.at(fit, given, true)).has(false);
}

function seen({ content }: Oracle, given: Case): Case {
  return Object.fromEntries(Object.entries(given).filter(([name]) => !content.detectors.has(name)));
}
