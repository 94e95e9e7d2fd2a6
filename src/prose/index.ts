/** Notes into HTML: the one way into this folder. */
export { renderNote, type Block, type Resolve } from './render-note.ts';
