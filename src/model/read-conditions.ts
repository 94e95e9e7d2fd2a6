/** conditions.yaml: the facts that rules read, and what never happens together; signals.yaml: named expressions. */
import type { Diagnostics, SourceFile } from '../diagnostics/index.ts';
import { compareDecimals, isOnStep, parseDecimal } from '../language/index.ts';
import { type Context, reportSameWords, reportUnsayable } from './context.ts';
import type { Condition, ConditionValue, Never, NumberRange, Signal } from './fleet.ts';
import { reportUnphrased } from './phrases.ts';
import { type DeclaredDetectors, declareDetectors } from './read-detectors.ts';
import { reportSameTitles } from './same-titles.ts';
import { conditionsSchema, signalsSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { nounOf, spacedWords } from './words.ts';
import {
  type Entry,
  entriesUnder,
  entryOf,
  itemsUnder,
  readYaml,
  type ScalarNode,
  scalarUnder,
  type YamlNode,
} from './yaml-source.ts';

export interface ReadConditions {
  readonly conditions: readonly Condition[];
  /** Undefined while the file cannot be read. */
  readonly detectors: DeclaredDetectors | undefined;
  /** Reads what never happens; to be called when all names are known. `whole` is false where an entry cannot be used. */
  readonly never: () => { readonly never: readonly Never[]; readonly whole: boolean };
}

export function readConditions(file: SourceFile, context: Context): ReadConditions {
  const { diagnostics, names } = context;
  const root = readYaml(file, diagnostics);
  if (!root) {
    names.breakAllIn(file);
    return { conditions: [], detectors: undefined, never: () => ({ never: [], whole: false }) };
  }
  const shape = checkShape(conditionsSchema, root, diagnostics);
  reportSameTitles(entriesUnder(root, 'conditions'), 'conditions', diagnostics);
  const conditions = entriesUnder(root, 'conditions').flatMap((entry): Condition[] => {
    const fresh = names.declare(entry.key, 'condition', entry.keyPlace, entry.value);
    const read = fresh && shape.sound('conditions', entry.key) ? readCondition(entry, context) : undefined;
    if (!read) names.break(entry.key);
    else context.keep(read.id, read.title, read.normal);
    return read ? [read] : [];
  });
  const readAll: ReadConditions['never'] = () => {
    const nodes = itemsUnder(root, 'never');
    const never = nodes.flatMap((node, at): Never[] => (shape.sound('never', at) ? readNever(node, context) : []));
    return { never, whole: never.length === nodes.length && shape.sound('never') };
  };
  return { conditions, detectors: declareDetectors(root, shape, context), never: readAll };
}

function readCondition({ key, keyPlace, value: node }: Entry, context: Context): Condition | undefined {
  const defined = context.defined(key, keyPlace, node);
  const number = entryOf(node, 'number');
  const values = entriesUnder(node, 'values').map(readValue);
  if ((number === undefined) === (entryOf(node, 'values') === undefined)) {
    context.diagnostics.report('SL310', { condition: key }, keyPlace);
    return undefined;
  }
  const normal = scalarUnder(node, 'normal');
  if (normal && !values.some(({ id }) => id === normal.written)) {
    const facts = { condition: key, value: normal.written, known: values.map(({ id }) => id) };
    context.diagnostics.report('SL309', facts, normal.place);
    return undefined;
  }
  if (number) {
    const range = readRange(number.value, context.diagnostics);
    if (!range) return undefined;
    context.bring({ kind: 'number', id: key, ...range });
    return { ...defined, number: range, noun: scalarUnder(node, 'noun')?.written ?? nounOf(defined.title) };
  }
  const entries = entriesUnder(node, 'values');
  reportUnsayable(entries, context.diagnostics);
  reportSameWords(entries, 'title', spacedWords, context.diagnostics);
  reportSameWords(entries, 'says', spacedWords, context.diagnostics);
  for (const { value } of entries) reportUnphrased(scalarUnder(value, 'says'), context.diagnostics);
  context.bring({ kind: 'condition', id: key, values: values.map(({ id }) => id) });
  return { ...defined, values, ...(normal ? { normal: normal.written } : {}) };
}

function readValue({ key, keyPlace, value }: Entry): ConditionValue {
  return {
    id: key,
    title: scalarUnder(value, 'title')?.written ?? spacedWords(key),
    says: scalarUnder(value, 'says')?.written ?? spacedWords(key),
    place: keyPlace,
  };
}

function readRange(node: YamlNode, diagnostics: Diagnostics): NumberRange | undefined {
  const [from, to, step] = ['from', 'to', 'step'].map((key) => scalarUnder(node, key)) as [
    ScalarNode,
    ScalarNode,
    ScalarNode,
  ];
  let sound = true;
  for (const each of [from, to, step]) {
    if (parseDecimal(each.written)) continue;
    diagnostics.report('SL330', { text: each.written }, each.place);
    sound = false;
  }
  if (!sound) return undefined;
  const wrong = (fault: 'order' | 'step' | 'whole', at: ScalarNode): undefined => {
    diagnostics.report('SL308', { fault, from: from.written, to: to.written, step: step.written }, at.place);
    return undefined;
  };
  if (compareDecimals(from.written, to.written) >= 0) return wrong('order', to);
  if (compareDecimals(step.written, '0') <= 0) return wrong('step', step);
  if (!isOnStep(to.written, from.written, step.written)) return wrong('whole', to);
  const unit = scalarUnder(node, 'unit')?.written ?? '';
  return { unit, from: from.written, to: to.written, step: step.written };
}

function readNever(node: YamlNode, context: Context): Never[] {
  const source = context.citation(node);
  const scalar = node.kind === 'scalar' ? node : scalarUnder(node, 'when');
  const expression =
    scalar &&
    context.expression(scalar, {
      kinds: ['option', 'condition', 'number', 'detector', 'control'],
      why: 'What never happens is said of options, conditions, detectors and controls alone.',
    });
  return expression ? [{ expression, ...(source ? { source } : {}), place: node.place }] : [];
}

export interface ReadSignal {
  readonly id: string;
  readonly read: () => Signal | undefined;
}

/** Declares the signals at once and gives a reader for each, to be called when all names are known. */
export function readSignals(file: SourceFile | undefined, context: Context): ReadSignal[] {
  const { diagnostics, names } = context;
  const root = file && readYaml(file, diagnostics);
  if (!file || !root) {
    if (file) names.breakAllIn(file);
    return [];
  }
  const shape = checkShape(signalsSchema, root, diagnostics);
  return (root.kind === 'map' ? root.entries : []).flatMap(({ key, keyPlace, value }): ReadSignal[] => {
    const fresh = names.declare(key, 'signal', keyPlace, value);
    if (!fresh || !shape.sound(key)) {
      names.break(key);
      return [];
    }
    context.bring({ kind: 'signal', id: key });
    const read = (): Signal | undefined => {
      const scalar = scalarUnder(value, 'when');
      const expression = scalar && context.expression(scalar);
      const [says, saysNot] = ['says', 'says-not'].map((each) => scalarUnder(value, each));
      for (const words of [says, saysNot]) reportUnphrased(words, diagnostics);
      return (
        expression && {
          ...context.defined(key, keyPlace, value),
          expression,
          ...(says ? { says: says.written } : {}),
          ...(saysNot ? { saysNot: saysNot.written } : {}),
        }
      );
    };
    return [{ id: key, read }];
  });
}
