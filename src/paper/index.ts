export { type Composed, type Composition, compose, type Limits, type Measured, STEP, type Wanted } from './compose.ts';
export { type PackBlock, type Piece, pack } from './pack.ts';
export { type Orientation, PAPERS, type PaperName, pageSize, paperSize, type Size } from './sizes.ts';
