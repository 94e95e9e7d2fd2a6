/** What drawings of the aircraft and of panels show, as plain data. */
import type { Sector, Spot } from '../model/index.ts';
import type { Address, Effectivity, Inline, Listed, StateView } from './book.ts';

/** One lamp on a drawing of the aircraft. */
export interface AircraftUnit {
  /** Unique in its drawing. */
  readonly id: string;
  /** The light that it belongs to: of a pair, a side view shows the near one. */
  readonly light: string;
  /** A number that stands beside the mark, in drawings with numbers. */
  readonly tag: string;
  /** "left lamp". */
  readonly title: string;
  /** "left wing tip". */
  readonly at: string;
  readonly colour?: string;
  readonly spot: Spot;
  readonly sector?: Sector;
  /** Without a state the mark only says where the lamp is. */
  readonly state?: { readonly glyph: StateView['glyph'] | 'sometimes' | 'unserviceable'; readonly text: string };
}
export interface AircraftFigureView {
  /** Anchor, unique on its page. */
  readonly id: string;
  /** "On the aircraft". */
  readonly heading: string;
  /** What is drawn: "Position lights". */
  readonly title: string;
  readonly views: readonly ('above' | 'left' | 'right')[];
  /** Words beside a few lamps, with the sectors they are seen from; numbers beside many, which `key` explains. */
  readonly labels: 'words' | 'numbers';
  readonly units: readonly AircraftUnit[];
  /** What each number means: the light, and its lamps in words: "red: left wing tip". Empty where the labels are words. */
  readonly key: readonly { readonly tag: string; readonly light: Listed; readonly lamps: string }[];
  /** Sentences on how to read it. */
  readonly notes: readonly string[];
  /** Where it is said how true the colours are. */
  readonly colours: { readonly to: Address; readonly anchor: string };
}

/** What a control is drawn as. */
export type ControlSymbol = 'toggle' | 'rocker' | 'rotary' | 'button';

/** An annunciator beside its control, with what stands on it. */
export interface DrawnAnnunciator {
  readonly item: Listed;
  readonly legend: readonly Inline[];
  readonly colour?: string;
}
/** A control as it stands on a panel, or an annunciator without one. */
export interface PanelCell {
  readonly control?: {
    readonly listed: Listed;
    readonly symbol: ControlSymbol;
    readonly guarded: boolean;
    readonly positions: readonly { readonly legend: string; readonly springs: boolean }[];
    /** "toggle switch, guarded: OFF, AUTO and ON", "push-button: OUT and IN; IN springs back". */
    readonly words: string;
  };
  readonly annunciators: readonly DrawnAnnunciator[];
}
/** A panel as a schematic: as on the baseline, then what is otherwise on other aircraft. */
export interface SchematicView {
  readonly baseline: Listed;
  /** Sentences on how to read the symbols. */
  readonly notes: readonly string[];
  /** Rows without a heading hold controls that name none. */
  readonly rows: readonly { readonly heading?: string; readonly cells: readonly PanelCell[] }[];
  /** Without a cell nothing is there. */
  readonly others: readonly {
    readonly title: string;
    readonly variants: readonly { readonly cell?: PanelCell; readonly effectivity: Effectivity }[];
  }[];
}
