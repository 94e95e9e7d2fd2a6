/** procedures/NAME.yaml: the operator's own use of the controls, stage by stage. */
import { nearestName, type SourceFile } from '../diagnostics/index.ts';
import { compareDecimals, isOnStep, parseDecimal } from '../language/index.ts';
import { type Context, OPTIONS_ALONE, oneParagraph } from './context.ts';
import type { Control, NumberRange, Procedure, Stage, StageFact, WantedPosition } from './fleet.ts';
import { reportUnphrased } from './phrases.ts';
import { readClaim } from './read-claims.ts';
import { reportSameTitles } from './same-titles.ts';
import { procedureSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import {
  type Entry,
  entriesUnder,
  itemsUnder,
  readYaml,
  type ScalarNode,
  scalarUnder,
  type YamlNode,
} from './yaml-source.ts';

/** Stands for every value. No value can be called so. */
const ANY = 'any';

/** Declares the procedure of a file and gives a reader for it, to be called when everything that it names is known. */
export function declareProcedure(
  file: SourceFile,
  context: Context,
): { readonly id: string; readonly read: (controls: readonly Control[]) => Procedure | undefined } | undefined {
  const { diagnostics, names } = context;
  const root = readYaml(file, diagnostics);
  if (!root) {
    names.breakAllIn(file);
    return undefined;
  }
  const shape = checkShape(procedureSchema, root, diagnostics);
  reportSameTitles(entriesUnder(root, 'stages'), 'stages of this procedure', diagnostics);
  const id = scalarUnder(root, 'procedure');
  if (!id || !shape.sound('procedure')) return undefined;
  const fresh = names.declare(id.written, 'procedure', id.place, root);
  if (!fresh || !shape.sound()) {
    names.break(id.written);
    return undefined;
  }
  return { id: id.written, read: (controls) => readProcedure(id, root, controls, context) };
}

function readProcedure(
  id: ScalarNode,
  root: YamlNode,
  controls: readonly Control[],
  context: Context,
): Procedure | undefined {
  const entries = entriesUnder(root, 'stages');
  const stages = entries.flatMap((entry) => readStage(entry, controls, context) ?? []);
  if (stages.length < entries.length) return undefined;
  return { ...context.defined(id.written, id.place, root), stages };
}

/** Undefined after a report. */
function readStage({ key, keyPlace, value }: Entry, controls: readonly Control[], context: Context): Stage | undefined {
  const source = context.citation(value);
  const about = scalarUnder(value, 'about')?.written;
  const factNodes = entriesUnder(value, 'conditions');
  const facts = factNodes.flatMap((entry) => readFact(entry, context) ?? []);
  const positionNodes = entriesUnder(value, 'positions');
  const positions = positionNodes.flatMap((entry) => readPositions(entry, controls, context) ?? []);
  const claimNodes = itemsUnder(value, 'claims');
  const claims = claimNodes.flatMap((node) => readClaim(node, context));
  const whole =
    facts.length === factNodes.length &&
    positions.length === positionNodes.length &&
    claims.length === claimNodes.length;
  if (!whole) return undefined;
  return {
    id: key,
    title: scalarUnder(value, 'title')?.written ?? key,
    ...(about === undefined ? {} : { about: oneParagraph(about) }),
    ...(source === undefined ? {} : { source }),
    place: keyPlace,
    facts,
    positions,
    claims,
  };
}

/** What is so of a condition or a sequence. Undefined after a report. */
function readFact({ key, keyPlace, value }: Entry, context: Context): StageFact | undefined {
  if (!context.names.resolve(key, ['condition', 'sequence'], keyPlace)) return undefined;
  const declared = context.declaration(key);
  const written = (value.kind === 'list' ? value.items : [value]).filter((node) => node.kind === 'scalar');
  const [only] = written;
  if (!declared || !only) return undefined;
  if (declared.kind === 'number') {
    const range = written.length === 1 ? readRange(only, key, declared, context) : undefined;
    if (written.length > 1)
      reportValue(key, written.map((each) => each.written).join(', '), rangeWords(declared), value, context);
    return range && { id: key, range, place: value.place };
  }
  const known = 'values' in declared ? declared.values : [];
  if (only.written === ANY && written.length === 1) return { id: key, values: known, place: value.place };
  const sound = written.filter((each) => isOneOf(each, key, known, context));
  return sound.length < written.length
    ? undefined
    : { id: key, values: sound.map((each) => each.written), place: value.place };
}

type Number = NumberRange & { readonly id: string };

/** "0 kt", "60 kt to 140 kt" or "any"; undefined after a report. */
function readRange(node: ScalarNode, name: string, range: Number, context: Context): StageFact['range'] {
  if (node.written === ANY) return { from: range.from, to: range.to };
  const [from, to, ...more] = node.written.split(/\s+to\s+/).map((part) => numberIn(part, range));
  const last = to ?? from;
  const single = !/\sto\s/.test(node.written);
  if (from !== undefined && last !== undefined && (single || to !== undefined) && more.length === 0) {
    if (compareDecimals(from, last) <= 0) return { from, to: last };
  }
  reportValue(name, node.written, rangeWords(range), node, context);
  return undefined;
}

/** The decimal of a number with its unit, where it lies on a step of the range. */
function numberIn(text: string, { unit, from, to, step }: Number): string | undefined {
  const [, number = '', found] = /^(-?[\d.]+)\s*(.*)$/.exec(text.trim()) ?? [];
  const within =
    parseDecimal(number) !== undefined &&
    found === unit &&
    compareDecimals(number, from) >= 0 &&
    compareDecimals(number, to) <= 0 &&
    isOnStep(number, from, step);
  return within ? number : undefined;
}

function rangeWords({ unit, from, to, step }: Number): string[] {
  return [`${from} ${unit} to ${to} ${unit} in steps of ${step}, a part of that range, or any`];
}

/** Where a control is wanted: one position, or several by option. Undefined after a report. */
function readPositions(
  { key, keyPlace, value }: Entry,
  controls: readonly Control[],
  context: Context,
): Stage['positions'][number] | undefined {
  if (!context.names.resolve(key, ['control'], keyPlace)) return undefined;
  const control = controls.find(({ id }) => id === key);
  if (!control) return undefined;
  const known = control.positions.map(({ id }) => id);
  const nodes = value.kind === 'list' ? value.items : [value];
  const wanted = nodes.flatMap((node, at): WantedPosition[] => {
    const position = node.kind === 'scalar' ? node : scalarUnder(node, 'position');
    const when = scalarUnder(node, 'when');
    const says = scalarUnder(node, 'says');
    const expression = when && context.expression(when, OPTIONS_ALONE);
    reportUnphrased(says, context.diagnostics);

    const last = when !== undefined || at === nodes.length - 1;
    if (!last) context.diagnostics.report('SL333', { control: key }, node.place);
    if (!position || !isOneOf(position, key, known, context) || (when && !expression) || !last) return [];
    return [
      {
        ...(expression ? { when: expression } : {}),
        position: position.written,
        ...(says ? { says: says.written } : {}),
        place: position.place,
      },
    ];
  });
  return wanted.length < nodes.length ? undefined : { control: key, wanted, place: keyPlace };
}

function isOneOf(node: ScalarNode, name: string, known: readonly string[], context: Context): boolean {
  if (known.includes(node.written)) return true;
  if (context.names.former.reportValue(name, node.written, node.place)) return false;
  reportValue(name, node.written, known, node, context);
  return false;
}

function reportValue(
  name: string,
  value: string,
  known: readonly string[],
  { place }: YamlNode,
  context: Context,
): void {
  context.diagnostics.report('SL332', { name, value, known, nearest: nearestName(value, known) }, place);
}
