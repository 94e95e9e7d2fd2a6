export type { Allowed } from './check.ts';
export {
  addDecimals,
  compareDecimals,
  isOnStep,
  multiplyDecimal,
  parseDecimal,
  subtractDecimals,
  thresholdCut,
} from './decimal.ts';
export { durationWords } from './duration-words.ts';
export type * from './expression.ts';
export { type FitFacts, type UnguardedRead, unguardedReads } from './guards.ts';
export { print } from './print.ts';
export { type ExpressionSource, readCell, readDuration, readExpression, readGuard } from './read.ts';
export { type Mention, readsOf, referencesOf } from './references.ts';
export { ownAttribute } from './said.ts';
export { isLampWord, isReservedWord, isSayable } from './words.ts';
