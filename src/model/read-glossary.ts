/** glossary.yaml: terms, what they mean, and the words that crews use for them. */
import type { SourceFile } from '../diagnostics/index.ts';
import { type Context, oneParagraph } from './context.ts';
import type { Term } from './fleet.ts';
import { REFERABLE } from './names.ts';
import { glossarySchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { type Entry, itemsUnder, readYaml, type ScalarNode, scalarUnder, type YamlNode } from './yaml-source.ts';

/** A term whose id is known; what it refers to is read when all ids are. */
export interface DeclaredTerm {
  readonly id: string;
  readonly read: () => Term;
}

export function declareGlossary(file: SourceFile | undefined, context: Context): DeclaredTerm[] {
  const { diagnostics, names } = context;
  const root = file && readYaml(file, diagnostics);
  if (!file || !root) {
    if (file) names.breakAllIn(file);
    return [];
  }
  const shape = checkShape(glossarySchema, root, diagnostics);
  const entries = root.kind === 'map' ? root.entries : [];
  const said = new Map<string, ScalarNode>();
  return entries.flatMap((entry): DeclaredTerm[] => {
    const { key, keyPlace, value } = entry;
    const fresh = names.declare(key, 'term', keyPlace, value);
    if (!fresh || !shape.sound(key)) {
      names.break(key);
      return [];
    }
    reportSaidTwice(value, said, context);
    return [{ id: key, read: () => readTerm(entry, context) }];
  });
}

/** A word that leads to two terms leaves the reader to guess. */
function reportSaidTwice(node: YamlNode, said: Map<string, ScalarNode>, { diagnostics }: Context): void {
  const title = scalarUnder(node, 'title');
  for (const word of [...(title ? [title] : []), ...scalars(node, 'also')]) {
    const known = word.written.trim().toLowerCase();
    const first = said.get(known);
    if (first) {
      const related = [{ place: first.place, label: 'first said here' }];
      diagnostics.report('SL378', { word: word.written }, word.place, related);
    } else said.set(known, word);
  }
}

function readTerm({ key, keyPlace, value: node }: Entry, context: Context): Term {
  const see = scalars(node, 'see').flatMap(({ written, place }): string[] => {
    if (written === key) {
      context.diagnostics.report('SL379', { term: key }, place);
      return [];
    }
    return context.names.resolve(written, REFERABLE, place) ? [written] : [];
  });
  return {
    ...context.defined(key, keyPlace, node),
    meaning: oneParagraph(scalarUnder(node, 'meaning')?.written ?? ''),
    also: scalars(node, 'also').map(({ written }) => written),
    see,
  };
}

function scalars(node: YamlNode, key: string): ScalarNode[] {
  return itemsUnder(node, key).filter((each) => each.kind === 'scalar');
}
