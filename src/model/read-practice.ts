/** practice.yaml: sheets of questions that the book draws from what it has computed. */
import type { SourceFile } from '../diagnostics/index.ts';
import { type Context, OPTIONS_ALONE } from './context.ts';
import { PRACTICE_KINDS, type PracticeSet } from './fleet.ts';
import type { KnownFits } from './known-fits.ts';
import { practiceSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { type Entry, itemsUnder, readYaml, scalarUnder } from './yaml-source.ts';

/** What a set has where its author says nothing. */
const SHEETS = 1;
const QUESTIONS = 10;

/** A set whose id is known; what it refers to is read when all ids are. */
export interface DeclaredPractice {
  readonly id: string;
  /** Undefined after a report. `fits` is undefined while the aircraft cannot be read; `hasStages`: some procedure is there. */
  readonly read: (around: {
    readonly fits: KnownFits | undefined;
    readonly panels: readonly string[];
    readonly hasStages: boolean;
  }) => PracticeSet | undefined;
}

export function declarePractice(file: SourceFile | undefined, context: Context): DeclaredPractice[] {
  const { diagnostics, names } = context;
  const root = file && readYaml(file, diagnostics);
  if (!file || root?.kind !== 'map') return [];
  const shape = checkShape(practiceSchema, root, diagnostics);
  return root.entries.flatMap((entry): DeclaredPractice[] => {
    const fresh = names.declare(entry.key, 'practice', entry.keyPlace, entry.value);
    if (!fresh || !shape.sound(entry.key)) {
      names.break(entry.key);
      return [];
    }
    return [{ id: entry.key, read: (around) => readSet(entry, around, context) }];
  });
}

function readSet(
  { key, keyPlace, value: node }: Entry,
  { fits, panels, hasStages }: Parameters<DeclaredPractice['read']>[0],
  context: Context,
): PracticeSet | undefined {
  const { diagnostics, names } = context;
  if (!hasStages) diagnostics.report('SL531', {}, keyPlace);
  const only = scalarUnder(node, 'for');
  const wanted = only && context.expression(only, OPTIONS_ALONE);
  if (only && !wanted) return undefined;
  if (wanted && fits && !fits.witness([wanted])) diagnostics.report('SL530', {}, only.place);
  const number = (name: string, otherwise: number): number => Number(scalarUnder(node, name)?.written ?? otherwise);
  const words = (name: string): readonly string[] =>
    itemsUnder(node, name).flatMap((each) => (each.kind === 'scalar' ? [each.written] : []));
  const named = itemsUnder(node, 'panels').flatMap((each) =>
    each.kind === 'scalar' && names.resolve(each.written, ['panel'], each.place) ? [each.written] : [],
  );
  const kinds = words('kinds');
  return {
    ...context.defined(key, keyPlace, node),
    seed: number('seed', 0),
    sheets: number('sheets', SHEETS),
    questions: number('questions', QUESTIONS),
    kinds: kinds.length > 0 ? PRACTICE_KINDS.filter((kind) => kinds.includes(kind)) : PRACTICE_KINDS,
    ...(wanted ? { for: wanted } : {}),
    panels: words('panels').length > 0 ? named : panels,
  };
}
