/** Holds expected tables of timelines to the oracle. */
import { type Oracle, replay } from '../oracle/index.ts';
import type { TimelineEntry } from './behaviour.ts';
import { isSame, readLines } from './csv.ts';
import { attributeCalled, textOf } from './oracle-words.ts';

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
