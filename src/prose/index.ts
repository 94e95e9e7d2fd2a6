/** The author's text into HTML: the one way into this folder. */
export { type Block, type Resolve, renderProse } from './render-prose.ts';
