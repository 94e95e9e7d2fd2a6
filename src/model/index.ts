export type * from './fleet.ts';
