/** panels/NAME.yaml: a panel with its controls, items and messages. */
import type { SourceFile } from '../diagnostics/index.ts';
import { type Context, reportSameWords } from './context.ts';
import type { Control, Item, Panel, Position } from './fleet.ts';
import { type DeclaredItem, declareItem, readItem } from './read-items.ts';
import { panelSchema } from './schema.ts';
import { type Checked, checkShape } from './schema-check.ts';
import { type Entry, entriesUnder, readYaml, scalarUnder, type YamlNode } from './yaml-source.ts';

/** A panel whose names are declared; the rest is read when the names of all files are known. */
export interface DeclaredPanel {
  readonly declared: readonly DeclaredItem[];
  readonly controls: () => readonly Control[];
  readonly items: () => readonly Item[];
  readonly panel: () => Panel | undefined;
}

export function declarePanel(file: SourceFile, context: Context): DeclaredPanel | undefined {
  const { diagnostics, names } = context;
  const root = readYaml(file, diagnostics);
  if (!root) {
    names.breakAllIn(file);
    return undefined;
  }
  const shape = checkShape(panelSchema, root, diagnostics);
  const id = scalarUnder(root, 'panel');
  const panelSound = id !== undefined && shape.sound('panel') && names.declare(id.written, 'panel', id.place, root);
  const panelId = id?.written ?? '';
  const controls = declareControls(root, shape, context);
  const items = (['items', 'messages'] as const).flatMap((section) =>
    entriesUnder(root, section).flatMap((entry) => declareItem(entry, section, panelId, shape, context)),
  );
  return {
    declared: items,
    controls: () => controls.flatMap((entry) => readControl(entry, panelId, context) ?? []),
    items: () => items.flatMap((item) => readItem(item, context) ?? []),
    panel: () =>
      panelSound && id
        ? {
            ...context.defined(panelId, id.place, root),
            controls: controls.map(({ key }) => key),
            items: items.map(({ entry }) => entry.key),
          }
        : undefined,
  };
}

function declareControls(root: YamlNode, shape: Checked<unknown>, context: Context): Entry[] {
  return entriesUnder(root, 'controls').filter((entry) => {
    const fresh = context.names.declare(entry.key, 'control', entry.keyPlace, entry.value);
    const positions = entriesUnder(entry.value, 'positions');
    const sound = fresh && shape.sound('controls', entry.key) && hasPositions(entry, positions.length, context);
    if (!sound) context.names.break(entry.key);
    else context.bring({ kind: 'control', id: entry.key, values: positions.map(({ key }) => key) });
    return sound;
  });
}

function hasPositions({ key, keyPlace }: Entry, count: number, context: Context): boolean {
  if (count > 0) return true;
  context.diagnostics.report('SL331', { control: key }, keyPlace);
  return false;
}

function readControl({ key, keyPlace, value: node }: Entry, panel: string, context: Context): Control | undefined {
  const own = context.fitted(node);
  let sound = own.ok;
  const positions = entriesUnder(node, 'positions').map((entry): Position => {
    const fitted = context.fitted(entry.value);
    sound = sound && fitted.ok;
    const legend = scalarUnder(entry.value, 'legend')?.written ?? entry.key;
    return { id: entry.key, legend, legends: [], ...(fitted.fitted ? { fitted: fitted.fitted } : {}), place: entry.keyPlace };
  });
  reportSameWords(entriesUnder(node, 'positions'), 'legend', (id) => id, context.diagnostics);
  if (!sound) return undefined;
  return {
    ...context.defined(key, keyPlace, node),
    panel,
    form: scalarUnder(node, 'form')?.written ?? '',
    ...(own.fitted ? { fitted: own.fitted } : {}),
    positions,
    guarded: false,
  };
}
