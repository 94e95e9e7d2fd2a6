export type * from './expression.ts';
