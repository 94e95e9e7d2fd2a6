/** Holds expected tables of timelines and sounds to the oracle. */
import { type Oracle, replay, soundsOf } from '../oracle/index.ts';
import type { SoundEntry, TimelineEntry } from './behaviour.ts';
import { isSame, readLines, readTable } from './csv.ts';
import { attributeCalled, matches, textOf } from './oracle-words.ts';

export function judgeTimelineByOracle(oracle: Oracle, { timeline, table }: TimelineEntry): string[] {
  const course = replay(oracle, timeline);
  const [[, ...names] = [], ...lines] = readLines(table);
  return lines.flatMap(([at = '', ...cells]) =>
    names.flatMap((name, index) => {
      const time = at.replace(/ s$/, '');
      const found = oracle.content.sequences.has(name)
        ? course.modeAt(name, time)
        : textOf(course.stateAt(...attributeCalled(oracle, name), time));
      return isSame(cells[index] ?? '', found) ? [] : [`${name} is ${found} at ${at}, not ${cells[index]}`];
    }),
  );
}

/** Tries every change of one thing over all that the table and the sound's triggers name. */
export function judgeSoundByOracle(oracle: Oracle, { sound, on, table }: SoundEntry): string[] {
  const { columns, rows } = readTable(table, 'heard');
  const complaints = new Set<string>();
  const met = new Set<number>();
  for (const { registration, fit } of oracle.aircraft) {
    if (on && !on.includes(registration)) continue;
    const variables = [...new Set([...columns, ...namedBy(oracle, sound)])];
    for (const before of oracle.cases(fit, variables)) {
      for (const moved of variables) {
        for (const value of oracle.valuesOn(fit, moved)) {
          const after = { ...before, [moved]: value };
          if (value === before[moved] || !oracle.canChange(fit, before, after)) continue;
          const about = rows.filter(({ cells }) =>
            columns.every((column, at) => {
              const [from = '-', to] = (cells[at] ?? '-').split('->').map((cell) => cell.trim());
              if ((to !== undefined) !== (column === moved) || !matches(oracle, before, column, from)) return false;
              return to === undefined || matches(oracle, after, column, to);
            }),
          );
          for (const { line } of about) met.add(line);
          const isHeard = soundsOf(oracle, fit, before, after).includes(sound);
          const isExpected = about.some(({ result }) => result === 'yes');
          if (isHeard !== isExpected) complaints.add(`${JSON.stringify(before)}, ${moved} to ${value}: ${isHeard}`);
        }
      }
    }
  }
  return [...complaints, ...rows.filter(({ line }) => !met.has(line)).map(({ line }) => `line ${line} never happens`)];
}

function namedBy(oracle: Oracle, id: string): string[] {
  const { triggers } = oracle.content.sounds.get(id)!;
  return triggers.flatMap(({ moves, becomes, while: during }) => [
    ...(moves === undefined ? [] : [moves]),
    ...[becomes, during].flatMap((text) => (text === undefined ? [] : oracle.variablesOf(text))),
  ]);
}
