export { checkTimelines } from './check-timelines.ts';
export type { Course, CourseFault, CourseRow, CourseStep, ModeChange, Span } from './course.ts';
export { findRun } from './find-run.ts';
export { decimalText, type Fraction, secondsText } from './fraction.ts';
export { replay } from './replay.ts';
