/** queries.yaml: questions to the owners of documents. */
import type { Diagnostics, SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Query } from './fleet.ts';
import { queriesSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { type Entry, entryOf, readYaml, scalarUnder } from './yaml-source.ts';

/** The queries as they stand in the file; what they cite is read when the documents are known. */
export interface DeclaredQueries {
  /** By id: whether it is answered. Undefined while the file cannot be read, so that references are not all reported. */
  readonly known: ReadonlyMap<string, { readonly answered: boolean }> | undefined;
  readonly read: (context: Context) => readonly Query[];
}

export function declareQueries(file: SourceFile | undefined, diagnostics: Diagnostics): DeclaredQueries {
  if (!file) return { known: new Map(), read: () => [] };
  const root = readYaml(file, diagnostics);
  if (root?.kind !== 'map') {
    if (root) checkShape(queriesSchema, root, diagnostics);
    return { known: undefined, read: () => [] };
  }
  const shape = checkShape(queriesSchema, root, diagnostics);
  return {
    known: new Map(root.entries.map(({ key, value }) => [key, { answered: entryOf(value, 'answered') !== undefined }])),
    read: (context) => root.entries.filter(({ key }) => shape.sound(key)).map((entry) => readQuery(entry, context)),
  };
}

function readQuery({ key, keyPlace, value: node }: Entry, context: Context): Query {
  const written = (name: string): string => scalarUnder(node, name)?.written ?? '';
  const answered = entryOf(node, 'answered')?.value;
  const source = answered && context.citation(answered);
  return {
    ...context.defined(key, keyPlace, node),
    question: written('question'),
    to: written('to'),
    asked: written('asked'),
    ...(answered
      ? {
          answered: {
            date: scalarUnder(answered, 'date')?.written ?? '',
            answer: scalarUnder(answered, 'answer')?.written ?? '',
            ...(source ? { source } : {}),
          },
        }
      : {}),
  };
}
