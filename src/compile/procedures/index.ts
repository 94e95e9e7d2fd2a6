export { type StageCases, type StagePosition, wantedOn } from './course.ts';
export { judgeProcedures, type ProcedureCourse } from './judge.ts';
export { stageForms } from './seen.ts';
