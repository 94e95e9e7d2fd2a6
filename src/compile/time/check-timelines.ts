/** Timelines are judged: what they expect must come, and what they set must be possible. */
import type { Diagnostics, Place } from '../../diagnostics/index.ts';
import type { Timeline } from '../../model/index.ts';
import type { CourseFault } from './course.ts';
import { secondsText } from './fraction.ts';
import type { Ground } from './inputs.ts';
import { replay } from './replay.ts';
import { changeWords } from './words.ts';

/** Replays every timeline of the fleet and reports what goes wrong in it. */
export function checkTimelines(ground: Ground, diagnostics: Diagnostics): void {
  for (const timeline of ground.fleet.timelines) {
    const { faults } = replay(ground, timeline);
    const impossible = faults.filter((fault) => fault.kind === 'never');
    for (const fault of faults) {
      if (fault.kind !== 'never') reportFault(fault, timeline, diagnostics);
      // What one step leaves out is missing after all that follow: said once, where it begins.
      else if (impossible.find(({ never }) => never === fault.never) === fault)
        reportImpossible(
          fault,
          impossible.filter((each) => each !== fault && each.never === fault.never),
          diagnostics,
        );
    }
  }
}

type Impossible = Extract<CourseFault, { kind: 'never' }>;

function reportImpossible(
  { at, never, step }: Impossible,
  later: readonly Impossible[],
  diagnostics: Diagnostics,
): void {
  const related = [
    { place: never.place, label: 'this never happens' },
    ...later.map((each) => ({ place: each.step.place, label: `still so from ${secondsText(each.at)} on` })),
  ];
  const facts = { at: secondsText(at), later: later.map((each) => secondsText(each.at)) };
  diagnostics.report('SL431', facts, step.place, related);
}

function reportFault(fault: Exclude<CourseFault, Impossible>, timeline: Timeline, diagnostics: Diagnostics): void {
  const at = secondsText(fault.at);
  switch (fault.kind) {
    case 'expected': {
      const { expect, instead, since } = fault;
      const related = since.map(({ at: time, change }) => ({
        place: change.transition.place,
        label: changeWords(change, time),
      }));
      diagnostics.report('SL430', { expected: asWritten(expect.holds.place), at, instead }, expect.place, related);
      break;
    }
    case 'endless': {
      const sequences = fault.sequences.map(({ title }) => title);
      const related = fault.sequences.map(({ title, place }) => ({ place, label: title }));
      diagnostics.report('SL432', { sequences, at, many: fault.many }, timeline.place, related);
      break;
    }
    case 'detector': {
      const { input, order } = fault;
      const related = order ? [{ place: order.place, label: 'the order' }] : [];
      const facts = { detector: input.id, value: input.value, at, order: order !== undefined };
      diagnostics.report('SL433', facts, input.place, related);
      break;
    }
    case 'not stated': {
      const related = [{ place: fault.expression.place, label: 'read here' }];
      diagnostics.report('SL434', { expression: asWritten(fault.expression.place), at }, timeline.place, related);
    }
  }
}

/** The author's own words, on one line. */
function asWritten({ file, start, end }: Place): string {
  return file.text.slice(start, end).replace(/\s+/g, ' ');
}
