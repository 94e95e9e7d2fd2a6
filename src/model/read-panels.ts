/** panels/NAME.yaml: a panel with its controls, items and messages. */
import type { SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Control, Item, Panel, PanelPlace, Sequence, Sound } from './fleet.ts';
import { type Around, type DeclaredControl, declareControls, readControl } from './read-controls.ts';
import { type DeclaredItem, declareItem, readItem } from './read-items.ts';
import { declareLatches } from './read-latches.ts';
import { declareMessageLatch } from './read-messages.ts';
import { readPlaces } from './read-places.ts';
import { declareSequences } from './read-sequences.ts';
import { declareSounds } from './read-sounds.ts';
import { declareSupplies } from './read-supplies.ts';
import { reportSameTitles } from './same-titles.ts';
import { panelSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { entriesUnder, readYaml, scalarUnder } from './yaml-source.ts';

/** A panel whose names are declared; the rest is read when the names of all files are known. */
export interface DeclaredPanel {
  readonly declared: readonly DeclaredItem[];
  readonly declaredControls: readonly DeclaredControl[];
  readonly places: readonly PanelPlace[];
  readonly controls: (around: Around) => readonly Control[];
  readonly items: () => readonly Item[];
  readonly supplies: () => readonly Item[];
  /** The ids of the sequences, latches, sounds and supplies. */
  readonly declaredIds: readonly string[];
  /** Sequences and latches. */
  readonly sequences: () => readonly Sequence[];
  readonly sounds: () => readonly Sound[];
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
  const places = readPlaces(root, panelId, shape, context);
  const controls = declareControls(root, panelId, shape, context);
  const supplies = declareSupplies(root, panelId, shape, context);
  for (const { key, value } of entriesUnder(root, 'supplies'))
    context.keep(key, scalarUnder(value, 'title')?.written ?? key);
  const seen = ['items', 'messages'].flatMap((section) => entriesUnder(root, section));
  reportSameTitles(seen, 'items of this panel', diagnostics);
  const items = (['items', 'messages'] as const).flatMap((section) =>
    entriesUnder(root, section).flatMap((entry) => declareItem(entry, section, panelId, shape, context)),
  );
  const sequences = [
    ...declareSequences(root, panelId, shape, context),
    ...declareLatches(root, panelId, shape, context),
    ...items.flatMap(({ entry, section }) =>
      section === 'messages' ? declareMessageLatch(entry, panelId, context) : [],
    ),
  ];
  const sounds = declareSounds(root, panelId, shape, context);
  return {
    declared: items,
    declaredControls: controls,
    places,
    controls: (around) => controls.flatMap((each) => readControl(each, around, context) ?? []),
    items: () => items.flatMap((item) => readItem(item, context) ?? []),
    supplies: () => supplies.flatMap((each) => each.read() ?? []),
    declaredIds: [...sequences, ...sounds, ...supplies].map((each) => each.id),
    sequences: () => sequences.flatMap((each) => each.read() ?? []),
    sounds: () => sounds.flatMap((each) => each.read() ?? []),
    panel: () =>
      panelSound && id
        ? {
            ...context.defined(panelId, id.place, root),
            controls: controls.map(({ entry }) => entry.key),
            items: items.map(({ entry }) => entry.key),
          }
        : undefined,
  };
}
