/** book.yaml and sources.yaml. */
import type { Diagnostics, SourceFile } from '../diagnostics/index.ts';
import { oneParagraph } from './context.ts';
import type { BookInfo, Source } from './fleet.ts';
import { bookSchema, sourcesSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { itemsUnder, readYaml, type ScalarNode, scalarUnder } from './yaml-source.ts';

/** What the book says of itself, and where it names its baseline. */
export interface ReadBook {
  readonly book: BookInfo;
  readonly baseline: ScalarNode;
}

/** Undefined after reporting why book.yaml cannot be used. */
export function readBook(file: SourceFile, diagnostics: Diagnostics): ReadBook | undefined {
  const root = readYaml(file, diagnostics);
  if (!root) return undefined;
  const shape = checkShape(bookSchema, root, diagnostics);
  const baseline = scalarUnder(root, 'baseline');
  if (!shape.sound() || !baseline) return undefined;
  const { operator, type, title, date, language, paper, address, remarks } = shape.data;
  return {
    baseline,
    book: {
      operator,
      type,
      title,
      revision: scalarUnder(root, 'revision')?.written ?? '',
      date,
      baseline: baseline.written,
      cautions: itemsUnder(root, 'cautions').flatMap((each) =>
        each.kind === 'scalar' ? [oneParagraph(each.written)] : [],
      ),
      ...(remarks === undefined ? {} : { remarks }),
      paper: paper ?? 'A4',
      ...(address === undefined ? {} : { address: address.replace(/\/*$/, '/') }),
      language: language ?? 'en',
      place: root.place,
      revisionPlace: scalarUnder(root, 'revision')?.place ?? root.place,
    },
  };
}

/** The documents by id; undefined when the file cannot be read, so that citations are not all reported. */
export function readSources(file: SourceFile | undefined, diagnostics: Diagnostics): Map<string, Source> | undefined {
  if (!file) return new Map();
  const root = readYaml(file, diagnostics);
  if (root?.kind !== 'map') return undefined;
  checkShape(sourcesSchema, root, diagnostics);
  const sources = root.entries.map(({ key, keyPlace, value }): [string, Source] => {
    const date = scalarUnder(value, 'date')?.written;
    const title = scalarUnder(value, 'title')?.written ?? key;
    const revision = scalarUnder(value, 'revision')?.written ?? '';
    return [key, { id: key, title, revision, ...(date === undefined ? {} : { date }), place: keyPlace }];
  });
  return new Map(sources);
}
