/** The logic core: decision diagrams and what is computed from them. Pure, and knows nothing of lighting. */
export { Diagrams, type DiagramsOptions, type Variable, type Work } from './diagrams.ts';
export { type Node, NodeLimitError, TERMINAL_LEVEL } from './unique-table.ts';
