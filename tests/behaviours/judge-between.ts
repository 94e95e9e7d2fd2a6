/** Holds to the replay between which times a change may come, by the tolerance of its delays. */
import type { Course } from '../../src/compile/index.ts';
import type { Between } from './behaviour.ts';
import { ofSeconds, type Time } from './times.ts';

/** What is wrong with one expected change: nothing where it comes at that time and may come between these. */
export function judgeBetween({ steps }: Course, { moves, to, at, between }: Between): string[] {
  const change = steps
    .filter((step) => isSameTime(step.at, ofSeconds(at)))
    .flatMap(({ changes }) => changes)
    .find((each) => each.sequence.id === moves && each.to === to);
  if (!change) return [`${moves} does not go to ${to} at ${at}`];
  const { range } = change;
  if (!range) return [`${moves} goes to ${to} exactly at ${at}`];
  const [earliest, latest] = between.split(' to ').map(ofSeconds) as [Time, Time];
  return isSameTime(range.earliest, earliest) && isSameTime(range.latest, latest)
    ? []
    : [`${moves} goes to ${to} from ${text(range.earliest)} to ${text(range.latest)}, not ${between}`];
}

function isSameTime(a: Time, b: Time): boolean {
  return a.over * b.under === b.over * a.under;
}

function text({ over, under }: Time): string {
  return `${Number(over) / Number(under)} s`;
}
