export { atRest } from './at-rest.ts';
export { because, type Facts } from './because.ts';
export { detectorCuts } from './cells.ts';
export { type Comparable, comparable, type Formed, type Worded } from './comparable.ts';
export { type Compiled, type CompileOptions, compileFleet, holdsOn } from './compile.ts';
export { caseVerdict, type Difference, difference, type Verdict } from './difference.ts';
export { effectivityText, holdersText, timeText } from './effectivity.ts';
export {
  type Explorable,
  type ExplorableFit,
  explorable,
  type HeardAt,
  transitionsOfLeaps,
} from './explore/explorable.ts';
export { Explorer, type Wait } from './explore/explorer.ts';
export type { Act, Situation, World } from './explore/situation.ts';
export { fewestChanges } from './fewest-changes.ts';
export { reportFindings } from './findings.ts';
export { type Fit, fitOfAircraft, type Holder, type SettledFit } from './fits.ts';
export { groupsOf, inputForm } from './forms.ts';
export { type Behaviour, formOfFit, type Group, groupFits, holdersOf } from './groups.ts';
export { type LoneSetting, loneSettings } from './lone-settings.ts';
export { fewestMovements, levelsBehind, type Step } from './movements.ts';
export { IMPOSSIBLE, NOT_FITTED, type OutcomeMeaning, Outcomes } from './outcomes.ts';
export { type Part, partForm, partNormals, partTable } from './parts.ts';
export { isFittedOn, positionsOf } from './positions.ts';
export { Possible } from './possible.ts';
export { type ProcedureCourse, type StageCases, type StagePosition, stageForms } from './procedures/index.ts';
export {
  absentValue,
  type ControlMeaning,
  controlMeaning,
  controlMeanings,
  idOf,
  isHidden,
  levelOf,
  type Meaning,
  normalValue,
  normalValues,
  type Space,
  spaceOf,
  valueIds,
  valueOfPosition,
} from './space.ts';
export { type Supposition, suppose } from './suppose.ts';
export {
  type Course,
  type CourseFault,
  type CourseRow,
  decimalText,
  type Fraction,
  replay,
  secondsText,
} from './time/index.ts';
export { type TransitionGuard, transitionGuard } from './transition-guard.ts';
export { levelsBehindSound, type Movement, type TriggerRow, triggerTable } from './triggers.ts';
export { limitText } from './within-limit.ts';
export {
  controlsOn,
  formatNumber,
  legendOn,
  legendsOf,
  type On,
  valuesTitle,
  valueTitle,
  variableTitle,
} from './words.ts';
