/** Holds an expected table of a timeline to its replay. */
import { type Compiled, type Course, replay } from '../../src/compile/index.ts';
import type { TimelineEntry } from './behaviour.ts';
import { isSame, readLines } from './csv.ts';
import { judgeBetween } from './judge-between.ts';
import { textOfOutcome } from './judge-table.ts';
import { ofSeconds } from './times.ts';

type Row = Course['rows'][number];

export function judgeTimeline(compiled: Compiled, { timeline: id, table, changes = [] }: TimelineEntry): string[] {
  const timeline = compiled.fleet.timelines.find((each) => each.id === id);
  if (!timeline) throw new Error(`no timeline is called ${id}`);
  const course = replay(compiled, timeline);
  const [[, ...names] = [], ...lines] = readLines(table);
  const complaints = lines.flatMap(([at = '', ...cells]) =>
    names.flatMap((name, index) => {
      const row = course.rows.find((each) => isCalled(each, name));
      if (!row) throw new Error(`${id} does not show ${name}`);
      const found = valueAt(compiled, row, at);
      return isSame(cells[index] ?? '', found) ? [] : [`${name} is ${found} at ${at}, not ${cells[index]}`];
    }),
  );
  return [...complaints, ...changes.flatMap((change) => judgeBetween(course, change))];
}

/** "item.attribute", or the id of a sequence. */
function isCalled(row: Row, name: string): boolean {
  return name === (row.kind === 'sequence' ? row.sequence.id : `${row.item.id}.${row.attribute.id}`);
}

/** What stands from a time on, after all that happens at that very time. */
function valueAt(compiled: Compiled, { spans }: Row, at: string): string {
  const time = ofSeconds(at);
  const span = spans.findLast(({ from }) => from.over * time.under <= time.over * from.under);
  const end = spans.at(-1)?.until;
  if (!span || !end || time.over * end.under > end.over * time.under)
    throw new Error(`${at} lies outside of the timeline`);
  return typeof span.value === 'number' ? textOfOutcome(compiled, span.value) : span.value;
}
