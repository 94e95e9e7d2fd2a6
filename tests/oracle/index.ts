export type { ContentText } from './content.ts';
export { compares } from './decimal.ts';
export { type Algebra, read } from './expression.ts';
export { decidingOptions, type Fit, type OracleAircraft } from './fits.ts';
export type { Case, Outcome } from './meaning.ts';
export { type Behaviour, loadOracle, Oracle } from './oracle.ts';
export { readContent } from './read-content.ts';
export { type Change, changesOn, soundsOf } from './sounds.ts';
export { Course, type Movement, replay, type Step } from './timed.ts';
