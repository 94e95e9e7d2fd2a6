export { type Catalogue, type Code, catalogue } from './catalogue.ts';
export {
  type Diagnostic,
  Diagnostics,
  type Facts,
  type Place,
  type Related,
  type Severity,
  type SourceFile,
} from './diagnostic.ts';
export {
  explain,
  type FormatOptions,
  formatAll,
  formatText,
  inOrder,
  type JsonDiagnostic,
  severityOf,
  summary,
  toJson,
} from './format.ts';
export { LineIndex, type Position } from './line-index.ts';
export { list, quoted } from './list.ts';
export { nearestName } from './nearest.ts';
