export { type ContentText, readContent } from './content.ts';
export { compares } from './decimal.ts';
export { type Algebra, read } from './expression.ts';
export { type Case, type Fit, loadOracle, Oracle, type OracleAircraft, type Outcome } from './oracle.ts';
