/** The logic core: decision diagrams and what is computed from them. Pure, and knows nothing of lighting. */

export { type Cube, cubeNode, sparse } from './cover.ts';
export { crc32 } from './crc32.ts';
export { type DecisionGraph, decisionGraph, type GraphEdge, type GraphVertex } from './decision-graph.ts';
export { Diagrams, type DiagramsOptions, type Variable, type Work } from './diagrams.ts';
export { PackedEvaluator, unpack } from './evaluate-packed.ts';
export { LimitError, type Limits, type Resource, type Share } from './limits.ts';
export { loadPacked } from './load-packed.ts';
export { type MinimalCover, type MinimalCoverOptions, minimalCover } from './minimal-cover.ts';
export { type PackedDiagrams, pack } from './packed.ts';
export { primes } from './primes.ts';
export { PackedError } from './read-packed.ts';
export { type StateTable, stateTable, type TableOptions, type TableRow } from './state-table.ts';
export { type Node, TERMINAL_LEVEL } from './unique-table.ts';
export { verifyTable } from './verify-table.ts';
