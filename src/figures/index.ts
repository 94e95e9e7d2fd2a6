/** Figures: SVG out of data. Styled by `src/styles/figures.css`. */
export { FLOW_WIDTHS, type FlowDrawings, flowDrawings } from './flow.ts';
export { glyph } from './glyph.ts';
export { statesSvg } from './states.ts';
export { timelineSvg } from './timeline.ts';
