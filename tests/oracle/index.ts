export { readContent, type ContentText } from './content.ts';
export { compares } from './decimal.ts';
export { read, type Algebra } from './expression.ts';
export { loadOracle, Oracle, type Case, type Fit, type OracleAircraft, type Outcome } from './oracle.ts';
