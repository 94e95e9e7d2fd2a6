/** Links to sequences, timelines and sounds, and to what their expressions name. */
import type { Expression } from '../language/index.ts';
import type { Fleet, Sequence, Sound, Timeline } from '../model/index.ts';
import { conditionAddress, SEQUENCES, sequenceAddress, soundAddress } from './addresses.ts';
import type { Address, Listed } from './book.ts';
import type { TimelineListed } from './book-time.ts';
import { listedCondition, listedControl, listedItem } from './links.ts';
import { namedIn } from './mentions.ts';

export function listedSequence(sequence: Sequence): Listed {
  const modes = `${sequence.modes.length} ${sequence.modes.length === 1 ? 'mode' : 'modes'}`;
  return {
    to: sequenceAddress(sequence),
    title: sequence.title,
    detail: sequence.kind === 'latch' ? 'latch' : modes,
  };
}

export function listedSound(sound: Sound): Listed {
  return { to: soundAddress(sound), title: sound.title, detail: sound.sounds };
}

/** The page that a timeline stands on: that of the first sequence that it shows, or else the list. */
export function placeOfTimeline(fleet: Fleet, { shows }: Timeline): Address {
  const first = shows.flatMap(({ id }) => fleet.sequences.filter((sequence) => sequence.id === id))[0];
  return first ? sequenceAddress(first) : SEQUENCES;
}

export function timelineAnchor({ id }: Timeline): string {
  return `timeline-${id}`;
}

export function listedTimeline(fleet: Fleet, timeline: Timeline): TimelineListed {
  const on = fleet.aircraft.find(({ serial }) => serial === timeline.on);
  return {
    to: placeOfTimeline(fleet, timeline),
    anchor: timelineAnchor(timeline),
    title: timeline.title,
    ...(on ? { detail: on.registration } : {}),
  };
}

/** The pages of what expressions name, through signals too, `except` apart; options stand under the aircraft. */
export function listedNames(fleet: Fleet, expressions: readonly Expression[], except?: string): Listed[] {
  const found = namedIn(fleet, expressions).flatMap(({ kind, id }): Listed[] => {
    switch (kind) {
      case 'control':
        return fleet.controls.filter((each) => each.id === id).map(listedControl);
      case 'condition':
        return fleet.conditions.filter((each) => each.id === id).map(listedCondition);
      case 'detector':
        return fleet.detectors
          .filter((each) => each.id === id)
          .map(({ number, title }) => ({ to: conditionAddress({ id: number }), title }));
      case 'item':
      case 'lamp':
        return fleet.items.filter((each) => each.id === id).map(listedItem);
      case 'sequence':
        return fleet.sequences.filter((each) => each.id === id && id !== except).map(listedSequence);
      default:
        return [];
    }
  });
  return [...new Map(found.map((each) => [`${each.to} ${each.title}`, each])).values()];
}

/** The sequences that wait for something, and the sounds that it sets off or lets be heard. */
export function listedReadersInTime(fleet: Fleet, id: string): Listed[] {
  const names = (expressions: readonly (Expression | undefined)[]): boolean =>
    namedIn(
      fleet,
      expressions.filter((each) => each !== undefined),
    ).some((mention) => mention.id === id);
  return [
    ...fleet.sequences
      .filter(({ transitions, stores }) =>
        names([
          ...transitions.flatMap(({ guard, since }) => [guard?.when, since?.event]),
          ...stores.flatMap(({ flows }) => flows.map(({ when }) => when)),
        ]),
      )
      .filter((sequence) => sequence.id !== id)
      .map(listedSequence),
    ...fleet.sounds
      .filter(({ triggers }) =>
        triggers.some(({ moves, becomes, while: during }) => moves === id || names([becomes, during])),
      )
      .map(listedSound),
  ];
}
