export { type Catalogue, type Code, catalogue } from './catalogue.ts';
export type { Entry } from './define.ts';
export { type Diagnostic, Diagnostics, type Facts, type Place, type Related, type Severity, type SourceFile } from './diagnostic.ts';
export { list, quoted } from './list.ts';
export { didYouMean, nearestName } from './nearest.ts';
