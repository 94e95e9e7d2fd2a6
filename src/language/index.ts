export type { Allowed } from './check.ts';
export { compareDecimals, isOnStep, parseDecimal, thresholdCut } from './decimal.ts';
export type * from './expression.ts';
export { type FitFacts, type UnguardedRead, unguardedReads } from './guards.ts';
export { isReservedWord } from './parse.ts';
export { print } from './print.ts';
export { type ExpressionSource, readExpression } from './read.ts';
export { type Mention, readsOf, referencesOf } from './references.ts';
