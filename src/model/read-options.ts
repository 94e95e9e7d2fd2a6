/** options.yaml: what can differ between aircraft, and which values go together. */
import type { SourceFile } from '../diagnostics/index.ts';
import { type Context, reportSameWords, reportUnsayable } from './context.ts';
import { type Constraint, type Option, type OptionValue, UNKNOWN } from './fleet.ts';
import { formerlyOf } from './former-ids.ts';
import { optionsSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { spacedWords } from './words.ts';
import { type Entry, entriesUnder, readYaml, scalarUnder } from './yaml-source.ts';

/** Columns of aircraft.csv that are no options. */
export const OWN_COLUMNS = ['serial', 'registration', 'from', 'to', 'kind'] as const;

export interface ReadOptions {
  readonly options: readonly Option[];
  /** Reads what values require and exclude. `whole` is false when some of it cannot be used. */
  readonly constraints: () => { readonly constraints: readonly Constraint[]; readonly whole: boolean };
}

export function readOptions(file: SourceFile | undefined, context: Context): ReadOptions {
  const { diagnostics, names } = context;
  const root = file && readYaml(file, diagnostics);
  if (root?.kind !== 'map') {
    if (root) checkShape(optionsSchema, root, diagnostics);
    if (file) names.breakAllIn(file);
    return { options: [], constraints: () => ({ constraints: [], whole: file === undefined }) };
  }
  const shape = checkShape(optionsSchema, root, diagnostics);
  const usable = root.entries.filter((entry) => {
    const fresh = names.declare(entry.key, 'option', entry.keyPlace, entry.value);
    const sound = fresh && shape.sound(entry.key) && !isColumn(entry, context);
    if (!sound) names.break(entry.key);
    return sound;
  });
  return {
    options: usable.map((entry) => readOption(entry, context)),
    constraints: () => {
      const read = usable.flatMap((entry) => readConstraints(entry, context));
      const constraints = read.filter((each) => each !== undefined);
      return { constraints, whole: constraints.length === read.length && usable.length === root.entries.length };
    },
  };
}

function isColumn({ key, keyPlace }: Entry, { diagnostics }: Context): boolean {
  if (!OWN_COLUMNS.some((column) => column === key)) return false;
  diagnostics.report('SL341', { option: key }, keyPlace);
  return true;
}

function readOption({ key, keyPlace, value: node }: Entry, context: Context): Option {
  const entries = entriesUnder(node, 'values');
  reportUnsayable(entries, context.diagnostics);
  const reserved = entries.find((each) => each.key === UNKNOWN);
  if (reserved) context.diagnostics.report('SL340', { option: key }, reserved.keyPlace);
  const values = entries
    .filter((each) => each !== reserved)
    .map(
      (each): OptionValue => ({
        id: each.key,
        title: scalarUnder(each.value, 'title')?.written ?? spacedWords(each.key),
        ...formerlyOf(each.value),
        place: each.keyPlace,
      }),
    );
  reportSameWords(entries, 'title', spacedWords, context.diagnostics);
  context.names.former.keepValues(key, entries);
  context.bring({ kind: 'option', id: key, values: values.map(({ id }) => id) });
  return { ...context.defined(key, keyPlace, node), values };
}

/** What the values of one option require and exclude; undefined for each that cannot be used. */
function readConstraints(option: Entry, context: Context): (Constraint | undefined)[] {
  return entriesUnder(option.value, 'values').flatMap((value) =>
    (['requires', 'excludes'] as const).flatMap((kind) => {
      const scalar = scalarUnder(value.value, kind);
      if (!scalar) return [];
      const why = 'What a value requires or excludes is said of options alone.';
      const expression = context.expression(scalar, { kinds: ['option'], why });
      const { place } = scalar;
      return [expression && { option: option.key, value: value.key, kind, expression, place }];
    }),
  );
}
