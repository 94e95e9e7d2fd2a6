/** options.yaml. */
import type { SourceFile } from '../diagnostics/index.ts';
import { type Context, reportSameWords } from './context.ts';
import type { Option, OptionValue } from './fleet.ts';
import { optionsSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { spacedWords } from './words.ts';
import { entriesUnder, readYaml, scalarUnder } from './yaml-source.ts';

export function readOptions(file: SourceFile, context: Context): Option[] {
  const { diagnostics, names } = context;
  const root = readYaml(file, diagnostics);
  if (root?.kind !== 'map') {
    if (root) checkShape(optionsSchema, root, diagnostics);
    names.breakAllIn(file);
    return [];
  }
  const shape = checkShape(optionsSchema, root, diagnostics);
  return root.entries.flatMap(({ key, keyPlace, value }): Option[] => {
    const fresh = names.declare(key, 'option', keyPlace, value);
    if (!fresh || !shape.sound(key)) {
      names.break(key);
      return [];
    }
    const values = entriesUnder(value, 'values').map(
      (each): OptionValue => ({
        id: each.key,
        title: scalarUnder(each.value, 'title')?.written ?? spacedWords(each.key),
        place: each.keyPlace,
      }),
    );
    reportSameWords(entriesUnder(value, 'values'), 'title', spacedWords, diagnostics);
    context.bring({ kind: 'option', id: key, values: values.map(({ id }) => id) });
    return [{ ...context.defined(key, keyPlace, value), values }];
  });
}
