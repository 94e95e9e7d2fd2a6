/** Where things stood when their ids were others: pages that lead on, and anchors beside the present ones. */
import type { Fleet } from '../model/index.ts';
import {
  CONDITIONS,
  conditionAddress,
  controlAddress,
  detectorAnchor,
  GLOSSARY,
  itemAddress,
  MESSAGES,
  messageAnchor,
  optionAddress,
  panelAddress,
  placeAnchor,
  positionAnchor,
  practiceAddress,
  procedureAddress,
  QUERIES,
  queryAnchor,
  sequenceAddress,
  sheetAddress,
  signalAnchor,
  soundAddress,
  soundAnchor,
  termAnchor,
} from './addresses.ts';
import type { Address, MovedPage } from './book.ts';
import { trailTo } from './trail.ts';

interface Renamed {
  readonly id: string;
  readonly formerly?: readonly string[];
}

/** A page at each address that a page had when its id was another one; it leads to the present one. */
export function movedPages(fleet: Fleet): MovedPage[] {
  const moved = <T extends Renamed & { readonly title: string }>(
    all: readonly T[],
    addressOf: (one: T) => Address,
  ): MovedPage[] =>
    all.flatMap((one) =>
      (one.formerly ?? []).map((former) => ({
        kind: 'moved' as const,
        address: addressOf({ ...one, id: former }),
        title: `Moved: ${one.title}`,
        trail: trailTo(),
        to: { to: addressOf(one), title: one.title },
        former,
        present: one.id,
      })),
    );
  return [
    ...moved(fleet.panels, panelAddress),
    ...moved(fleet.controls, controlAddress),
    ...moved(fleet.items, itemAddress),
    ...moved(fleet.conditions, conditionAddress),
    ...moved(fleet.sequences, sequenceAddress),
    ...moved(fleet.sounds, soundAddress),
    ...moved(fleet.options, optionAddress),
    ...moved(fleet.procedures, procedureAddress),
    ...moved(fleet.sheets, sheetAddress),
    ...moved(fleet.practice, practiceAddress),
  ];
}

/** The former anchors of what stands at `page#anchor`, by that address. */
export function formerAnchors(fleet: Fleet): Map<string, string[]> {
  const former = new Map<string, string[]>();
  const add = <T extends Renamed>(page: Address, one: T, anchorOf: (one: T) => string): void => {
    for (const id of one.formerly ?? []) {
      const at = `${page}#${anchorOf(one)}`;
      former.set(at, [...(former.get(at) ?? []), anchorOf({ ...one, id })]);
    }
  };
  for (const control of fleet.controls) {
    for (const position of control.positions) add(controlAddress(control), position, positionAnchor);
  }
  for (const item of fleet.items) {
    for (const attribute of item.attributes) add(itemAddress(item), item, ({ id }) => `${id}-${attribute.id}`);
    if (item.kind === 'message') add(MESSAGES, item, messageAnchor);
  }
  for (const option of fleet.options) {
    for (const value of option.values) add(optionAddress(option), value, ({ id }) => `values_${id}`);
  }
  for (const sound of fleet.sounds) add(MESSAGES, sound, soundAnchor);
  for (const place of fleet.places) add(panelAddress({ id: place.panel }), place, ({ id }) => placeAnchor(id));
  for (const detector of fleet.detectors) add(conditionAddress({ id: detector.number }), detector, detectorAnchor);
  for (const signal of fleet.signals) add(CONDITIONS, signal, ({ id }) => signalAnchor(id));
  for (const term of fleet.glossary) add(GLOSSARY, term, ({ id }) => termAnchor(id));
  for (const query of fleet.queries) add(QUERIES, query, ({ id }) => queryAnchor(id));
  return former;
}
