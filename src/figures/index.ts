/** Figures: SVG out of data. Styled by `src/styles/figures.css`. */
export { type AircraftDrawing, aircraftFigure } from './aircraft.ts';
export { controlSvg } from './control.ts';
export { flowDrawings } from './flow.ts';
export { glyph } from './glyph.ts';
export { type Phases, phasesSvg } from './phases.ts';
export { qrCode } from './qr.ts';
export { statesSvg } from './states.ts';
export { timelineDrawings } from './timeline.ts';
export { type Drawings, WIDTHS } from './widths.ts';
