/** The address of each page: stable, readable, made of the kind and the permanent id. */
import type {
  Aircraft,
  Condition,
  Control,
  Detector,
  Fleet,
  Item,
  ItemKind,
  Notice,
  Option,
  Panel,
  PracticeSet,
  Procedure,
  Sequence,
  Sheet,
  Sound,
  Tour,
} from '../model/index.ts';
import type { Address, Listed } from './book.ts';

export const HOME: Address = 'index.html';
export const ABOUT: Address = 'about.html';
export const COMPARE: Address = 'compare.html';
export const DIFFERENCES: Address = 'differences.html';
export const SUPPLIES: Address = 'supplies.html';
export const SEQUENCES: Address = 'sequences.html';
export const MESSAGES: Address = 'messages.html';
export const LEGENDS: Address = 'legends.html';
export const SEEN: Address = 'seen.html';
export const EXPLORER: Address = 'explorer.html';
export const CONDITIONS: Address = 'conditions.html';
export const OPTIONS: Address = 'options.html';
export const GLOSSARY: Address = 'glossary.html';
export const TERMS: Address = 'index-of-terms.html';
export const FLEET: Address = 'fleet.html';
export const PROCEDURES: Address = 'procedures.html';
export const QUERIES: Address = 'queries.html';
export const TOURS: Address = 'tours.html';
export const NOTICES: Address = 'notices.html';
export const SHEETS: Address = 'sheets.html';
export const OWN_SHEET: Address = 'own-sheet.html';
export const PRACTICE: Address = 'practice.html';
/** What has changed since the last revision. */
export const CHANGES: Address = 'changes.html';

/** Where the page about the book says how true the colours of lights are. */
export const COLOURS = 'colours';

/** The page of comparisons, or of the explorer, with one aircraft chosen already. */
export function chosenAnchor(serial: string): string {
  return `with-${serial}`;
}

/** Where what can be moved stands on the page of the explorer. */
export function inputAnchor(id: string): string {
  return `set-${id}`;
}

/** Where a query stands on its page. */
export function queryAnchor(id: string): string {
  return `query-${id}`;
}

/** Where a message stands on the page of all messages. */
export function messageAnchor(message: Pick<Item, 'id'>): string {
  return `message-${message.id}`;
}

/** Where a sound stands on the page of all messages and sounds. */
export function soundAnchor(sound: Pick<Sound, 'id'>): string {
  return `sound-${sound.id}`;
}

/** Where a term stands in the glossary. */
export function termAnchor(id: string): string {
  return `term-${id}`;
}

/** Where a detector stands on the page of its number. */
export function detectorAnchor({ id }: Pick<Detector, 'id'>): string {
  return `detector-${id}`;
}

/** Where a signal stands on the page of conditions and signals. */
export function signalAnchor(id: string): string {
  return `signal-${id}`;
}

/** Where a document stands on the page of the sources. */
export function sourceAnchor(id: string): string {
  return `source-${id}`;
}

/** Where a place stands on its panel's page. */
export function placeAnchor(id: string): string {
  return `place-${id}`;
}

/** What a position does, on its control's page. */
export function positionAnchor({ id }: { readonly id: string }): string {
  return `position-${id}`;
}

export function panelAddress(panel: Pick<Panel, 'id'>): Address {
  return `panels/${panel.id}.html`;
}

export function controlAddress(control: Pick<Control, 'id'>): Address {
  return `controls/${control.id}.html`;
}

export function itemAddress(item: Pick<Item, 'id' | 'kind'>): Address {
  return `${ITEM_FOLDERS[item.kind]}/${item.id}.html`;
}

const ITEM_FOLDERS: Readonly<Record<ItemKind, string>> = {
  light: 'lights',
  sign: 'lights',
  annunciator: 'lights',
  message: 'messages',
  supply: 'supplies',
};

export function sequenceAddress(sequence: Pick<Sequence, 'id'>): Address {
  return `sequences/${sequence.id}.html`;
}

export function soundAddress(sound: Pick<Sound, 'id'>): Address {
  return `sounds/${sound.id}.html`;
}

export function tourAddress(tour: Pick<Tour, 'id'>): Address {
  return `tours/${tour.id}.html`;
}

export function noticeAddress({ name }: Pick<Notice, 'name'>): Address {
  return `notices/${name}.html`;
}

export function sheetAddress(sheet: Pick<Sheet, 'id'>): Address {
  return `sheets/${sheet.id}.html`;
}

export function practiceAddress(set: Pick<PracticeSet, 'id'>): Address {
  return `practice/${set.id}.html`;
}

export function procedureAddress(procedure: Pick<Procedure, 'id'>): Address {
  return `procedures/${procedure.id}.html`;
}

export function conditionAddress(condition: Pick<Condition, 'id'>): Address {
  return `conditions/${condition.id}.html`;
}

export function optionAddress(option: Pick<Option, 'id'>): Address {
  return `options/${option.id}.html`;
}

/** What has changed since an earlier revision than the last; by the name of the release's file. */
export function changesSinceAddress({ name }: { readonly name: string }): Address {
  return `changes/since-${name}.html`;
}

/** By serial, which never changes, where a registration may. */
export function aircraftAddress(aircraft: Pick<Aircraft, 'serial'>): Address {
  return `aircraft/${aircraft.serial}.html`;
}

/** What a training device does otherwise than the aircraft; by serial too. */
export function differencesAddress(device: Pick<Aircraft, 'serial'>): Address {
  return `differences/${device.serial}.html`;
}

/** The page of every id that has one, with its title. */
export function indexOf(fleet: Fleet): Map<string, Listed> {
  const index = new Map<string, Listed>();
  for (const panel of fleet.panels) index.set(panel.id, { to: panelAddress(panel), title: panel.title });
  for (const control of fleet.controls) index.set(control.id, { to: controlAddress(control), title: control.title });
  for (const item of fleet.items) index.set(item.id, { to: itemAddress(item), title: item.title });
  for (const condition of fleet.conditions) {
    index.set(condition.id, { to: conditionAddress(condition), title: condition.title });
  }
  for (const sequence of fleet.sequences) {
    index.set(sequence.id, { to: sequenceAddress(sequence), title: sequence.title });
  }
  for (const sound of fleet.sounds) index.set(sound.id, { to: soundAddress(sound), title: sound.title });
  for (const detector of fleet.detectors) {
    const to = conditionAddress({ id: detector.number });
    index.set(detector.id, { to, anchor: detectorAnchor(detector), title: detector.title });
  }
  for (const { id, title, panel } of fleet.places) {
    index.set(id, { to: panelAddress({ id: panel }), anchor: placeAnchor(id), title });
  }
  for (const { id, title } of fleet.glossary) index.set(id, { to: GLOSSARY, anchor: termAnchor(id), title });
  for (const { id, title } of fleet.signals) index.set(id, { to: CONDITIONS, anchor: signalAnchor(id), title });
  for (const procedure of fleet.procedures) {
    index.set(procedure.id, { to: procedureAddress(procedure), title: procedure.title });
  }
  for (const sheet of fleet.sheets) index.set(sheet.id, { to: sheetAddress(sheet), title: sheet.title });
  for (const option of fleet.options) index.set(option.id, { to: optionAddress(option), title: option.title });
  return index;
}
