/** Notes into HTML: the one way into this folder. */
export { type Block, type Resolve, renderNote } from './render-note.ts';
