/** sheets.yaml: what a reader can print on a stated number of sheets. */
import { nearestName, type SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Aircraft, Limits, MessageClass, PaperSize, Procedure, Sheet, SheetTopic } from './fleet.ts';
import { sheetsSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import {
  type Entry,
  entryOf,
  itemsUnder,
  readYaml,
  type ScalarNode,
  scalarUnder,
  type YamlNode,
} from './yaml-source.ts';

/** A sheet whose id is known; what it refers to is read when all ids are. */
export interface DeclaredSheet {
  readonly id: string;
  /** Undefined after a report. */
  readonly read: (around: Around) => Sheet | undefined;
}

interface Around {
  /** Undefined while the list of aircraft cannot be read. */
  readonly aircraft: readonly Aircraft[] | undefined;
  /** Those that could be read. */
  readonly procedures: readonly Procedure[];
  /** What the book is printed on. */
  readonly paper: PaperSize;
}

/** Where an author says nothing: what a reader holds at arm's length, and what still looks like a card. */
const TYPE: Limits = { from: 7, to: 11 };
const COLUMNS: Limits = { from: 1, to: 4 };
const ONE: Limits = { from: 1, to: 1 };

/** Each kind of topic, and what may stand beside it. */
const KINDS = {
  panel: ['show', 'abnormal'],
  stages: ['of'],
  legends: [],
  messages: [],
  differences: ['of'],
  device: [],
  'walk-round': ['in'],
  fleet: [],
} as const satisfies Record<string, readonly string[]>;

type Kind = keyof typeof KINDS;

export function declareSheets(file: SourceFile | undefined, context: Context): DeclaredSheet[] {
  const { diagnostics, names } = context;
  const root = file && readYaml(file, diagnostics);
  if (!root) return [];
  const shape = checkShape(sheetsSchema, root, diagnostics);
  const entries = root.kind === 'map' ? root.entries : [];
  return entries.flatMap((entry): DeclaredSheet[] => {
    const fresh = names.declare(entry.key, 'sheet', entry.keyPlace, entry.value);
    if (!fresh || !shape.sound(entry.key)) {
      names.break(entry.key);
      return [];
    }
    return [{ id: entry.key, read: (around) => readSheet(entry, context, around) }];
  });
}

function readSheet({ key, keyPlace, value }: Entry, context: Context, around: Around): Sheet | undefined {
  const type = limits(value, 'type', TYPE, context);
  const columns = limits(value, 'columns', COLUMNS, context);
  const sheets = limits(value, 'sheets', ONE, context);
  const topics = itemsUnder(value, 'topics').map((node) => readTopic(node, context, around));
  if (!type || !columns || !sheets || topics.some((topic) => topic === undefined)) return undefined;
  return {
    ...context.defined(key, keyPlace, value),
    size: (scalarUnder(value, 'size')?.written as PaperSize | undefined) ?? around.paper,
    orientation: scalarUnder(value, 'orientation')?.written === 'landscape' ? 'landscape' : 'portrait',
    twoUp: scalarUnder(value, 'two-up')?.value === true,
    sheets,
    type,
    columns,
    topics: topics.filter((topic) => topic !== undefined),
  };
}

function limits(node: YamlNode, key: string, otherwise: Limits, { diagnostics }: Context): Limits | undefined {
  const entry = entryOf(node, key);
  if (!entry) return otherwise;
  if (entry.value.kind === 'scalar') return { from: Number(entry.value.value), to: Number(entry.value.value) };
  const [from, to] = ['from', 'to'].map((end) => Number(scalarUnder(entry.value, end)?.value));
  if (from === undefined || to === undefined) return undefined;
  if (from <= to) return { from, to };
  diagnostics.report('SL541', { from, to }, entry.keyPlace);
  return undefined;
}

function readTopic(node: YamlNode, context: Context, around: Around): SheetTopic | undefined {
  const { diagnostics, names } = context;
  const entries = node.kind === 'map' ? node.entries : [];
  const [kind, second] = entries.filter(({ key }) => Object.hasOwn(KINDS, key));
  if (!kind || second) {
    const facts = second ? { first: kind?.key ?? '', second: second.key } : {};
    diagnostics.report('SL540', facts, second?.keyPlace ?? entries[0]?.keyPlace ?? node.place);
    return undefined;
  }
  const beside: readonly string[] = KINDS[kind.key as Kind];
  const stray = entries.find((entry) => entry !== kind && !beside.includes(entry.key));
  if (stray) {
    diagnostics.report('SL542', { key: stray.key, kind: kind.key }, stray.keyPlace);
    return undefined;
  }
  const said = scalarUnder(node, kind.key);
  const of = scalarUnder(node, 'of');
  switch (kind.key as Kind) {
    case 'panel': {
      if (!said || !names.resolve(said.written, ['panel'], said.place)) return undefined;
      const show = scalarUnder(node, 'show')?.written === 'positions' ? 'positions' : 'tables';
      const abnormal = scalarUnder(node, 'abnormal')?.value === true;
      return { kind: 'panel', panel: said.written, show, abnormal };
    }
    case 'stages':
      if (!said || !names.resolve(said.written, ['procedure'], said.place)) return undefined;
      if (of && !names.resolve(of.written, ['panel'], of.place)) return undefined;
      return { kind: 'stages', procedure: said.written, ...(of ? { panel: of.written } : {}) };
    case 'legends':
      return { kind: 'legends' };
    case 'messages':
      return {
        kind: 'messages',
        classes: itemsUnder(node, 'messages').map((each) => (each as ScalarNode).written as MessageClass),
      };
    case 'differences':
      if (!said || !isAircraft(said, context, around) || (of && !isAircraft(of, context, around))) return undefined;
      if (of && of.written === said.written) {
        diagnostics.report('SL544', { serial: of.written }, of.place);
        return undefined;
      }
      return { kind: 'differences', from: said.written, ...(of ? { of: of.written } : {}) };
    case 'device':
      return said && isAircraft(said, context, around, 'device') ? { kind: 'device', device: said.written } : undefined;
    case 'walk-round': {
      const within = entryOf(node, 'in');
      return within ? readStage(within, context, around) : { kind: 'walk-round' };
    }
    case 'fleet':
      return { kind: 'fleet' };
  }
}

/** A walk-round in a stage of a procedure. Undefined after a report. */
function readStage({ value }: Entry, { diagnostics, names }: Context, { procedures }: Around): SheetTopic | undefined {
  const procedure = scalarUnder(value, 'procedure');
  const stage = scalarUnder(value, 'stage');
  if (!procedure || !stage || !names.resolve(procedure.written, ['procedure'], procedure.place)) return undefined;
  const known = procedures.find(({ id }) => id === procedure.written)?.stages.map(({ id }) => id);
  // Of a procedure that cannot be read no stage can be missing.
  if (!known) return undefined;
  if (known.includes(stage.written)) return { kind: 'walk-round', procedure: procedure.written, stage: stage.written };
  const nearest = nearestName(stage.written, known);
  diagnostics.report('SL545', { procedure: procedure.written, stage: stage.written, known, nearest }, stage.place);
  return undefined;
}

/** Whether a serial is that of an aircraft of the book, or of a training device; reports it where it is not. */
function isAircraft(
  { written, place }: ScalarNode,
  { diagnostics }: Context,
  { aircraft }: Around,
  kind?: Aircraft['kind'],
): boolean {
  // Of a fleet that cannot be read nothing can be missing.
  if (!aircraft) return false;
  const found = aircraft.find(({ serial }) => serial === written);
  if (found && (kind === undefined || found.kind === kind)) return true;
  diagnostics.report('SL543', { serial: written, device: kind === 'device', known: found !== undefined }, place);
  return false;
}
