/** A panel as a schematic: which control stands where, with what legends, and how other aircraft differ from the baseline. */
import { type Compiled, type Fit, fitOfAircraft, legendOn, positionsOf } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Control, Item, Panel } from '../model/index.ts';
import { aircraftAddress, controlAddress } from './addresses.ts';
import type { ControlSymbol, PanelCell, SchematicView } from './book-figures.ts';
import { effectivityOf } from './effectivity.ts';
import { listedItem } from './links.ts';
import { baselineOf } from './pages/aircraft.ts';
import { isControlOn, isItemOn, itemLegend } from './positions.ts';

/** One spot of the panel: a hole with whatever is fitted in it, a control of its own, or an annunciator without a control. */
interface Slot {
  readonly title: string;
  readonly row?: string;
  readonly controls: readonly Control[];
  readonly lone?: Item;
}

export function schematicOf(compiled: Compiled, panel: Panel): SchematicView | undefined {
  const slots = slotsOf(compiled, panel);
  if (slots.length === 0) return undefined;
  const { fits } = compiled;
  const baseline = baselineOf(compiled);
  const usual = fitOfAircraft(fits, baseline.serial);
  const drawn = slots.map((slot) => {
    const here = cellOn(compiled, slot, usual);
    // Cells are plain data, so that equal ones are written alike.
    const unlike = fits.filter((fit) => written(cellOn(compiled, slot, fit)) !== written(here));
    const variants = [...Map.groupBy(unlike, (fit) => written(cellOn(compiled, slot, fit))).values()].map((alike) => {
      const cell = cellOn(compiled, slot, alike[0] as Fit);
      return { ...(cell ? { cell } : {}), effectivity: effectivityOf(compiled, alike) };
    });
    return { slot, here, variants };
  });
  return {
    baseline: { to: aircraftAddress(baseline), title: baseline.registration },
    notes: notesOn(drawn.flatMap(({ here, variants }) => [here, ...variants.map(({ cell }) => cell)])),
    rows: [...Map.groupBy(drawn, ({ slot }) => slot.row)]
      .map(([heading, inRow]) => ({
        ...(heading === undefined ? {} : { heading }),
        cells: inRow.flatMap(({ here }) => here ?? []),
      }))
      .filter(({ cells }) => cells.length > 0),
    others: drawn
      .filter(({ variants }) => variants.length > 0)
      .map(({ slot, variants }) => ({ title: slot.title, variants })),
  };
}

function notesOn(cells: readonly (PanelCell | undefined)[]): string[] {
  const controls = cells.flatMap((cell) => cell?.control ?? []);
  return [
    ...(controls.some(({ guarded }) => guarded) ? ['A broken frame is a guard.'] : []),
    ...(controls.some(({ positions }) => positions.some(({ springs }) => springs))
      ? ['An arrow marks a position that springs back.']
      : []),
  ];
}

function written(cell: PanelCell | undefined): string {
  return JSON.stringify(cell ?? null);
}

/** In the author's order of controls; a place stands where the first of its controls does. */
function slotsOf({ fleet }: Compiled, panel: Panel): Slot[] {
  const controls = fleet.controls.filter((control) => control.panel === panel.id);
  const holes = Map.groupBy(controls, ({ id, at }) => (at === undefined ? `control ${id}` : `place ${at}`));
  const lone = fleet.items.filter(
    (item) => item.panel === panel.id && item.kind === 'annunciator' && !controls.some(({ id }) => isBeside(item, id)),
  );
  return [
    ...[...holes.values()].map((within): Slot => {
      const [first] = within as [Control, ...Control[]];
      const row = within.find((control) => control.row !== undefined)?.row;
      const title = fleet.places.find(({ id }) => id === first.at)?.title ?? first.title;
      return { title, controls: within, ...(row === undefined ? {} : { row }) };
    }),
    ...lone.map((item): Slot => ({ title: item.title, row: 'Annunciators', controls: [], lone: item })),
  ];
}

function isBeside({ attributes, stations }: Item, control: string): boolean {
  return stations.length > 0 ? stations[0] === control : attributes.some((attribute) => attribute.control === control);
}

/** Undefined where nothing is fitted. */
function cellOn(compiled: Compiled, { controls, lone }: Slot, fit: Fit): PanelCell | undefined {
  const { fleet } = compiled;
  if (lone) return isItemOn(lone, fit) ? { annunciators: [annunciator(lone, fit)] } : undefined;
  const control = controls.find((each) => isControlOn(each, fit));
  if (!control) return undefined;
  const positions = positionsOf(control, fit).flatMap((index) => {
    const position = control.positions[index];
    if (!position) return [];
    const words = new Set(fit.settled.map((settled) => legendOn(position, settled)));
    return { legend: [...words].join(' / '), springs: position.returns !== undefined };
  });
  const beside = fleet.items.filter(
    (item) => item.panel === control.panel && item.kind === 'annunciator' && isBeside(item, control.id),
  );
  const springing = positions.filter(({ springs }) => springs).map(({ legend }) => legend);
  const springs =
    springing.length === 0 ? '' : `; ${list(springing, 'and')} ${springing.length === 1 ? 'springs' : 'spring'} back`;
  const all = list(
    positions.map(({ legend }) => legend),
    'and',
  );
  return {
    control: {
      listed: { to: controlAddress(control), title: control.title, detail: control.form },
      symbol: symbolOf(control.form),
      guarded: control.guarded,
      positions,
      words: `${control.form}${control.guarded ? ', guarded' : ''}: ${all}${springs}`,
    },
    annunciators: beside.filter((item) => isItemOn(item, fit)).map((item) => annunciator(item, fit)),
  };
}

function annunciator(item: Item, fit: Fit): PanelCell['annunciators'][number] {
  return {
    item: listedItem(item),
    legend: itemLegend(item, fit),
    ...(item.colour === undefined ? {} : { colour: item.colour }),
  };
}

/** By the words of its form; what says nothing else is drawn as a lever. */
function symbolOf(form: string): ControlSymbol {
  if (/\b(rotary|knob)\b/i.test(form)) return 'rotary';
  if (/\b(button|push)/i.test(form)) return 'button';
  return /\brocker\b/i.test(form) ? 'rocker' : 'toggle';
}
