/** Puts the sentences of a control under the cues by which its fits are recognised. */
import type { ControlPage, EffectiveAircraft, Effectivity, RecognitionCue, SentenceGroup } from '../book/index.ts';

export interface CueWithSentences {
  readonly cue: RecognitionCue;
  readonly sentences: readonly SentenceGroup[];
  /** The one group of sentences holds for exactly the cue's aircraft, so that saying so twice would be idle. */
  readonly same: boolean;
}

/** Each cue with the groups that lie wholly within its aircraft; `rest` are the groups that fall under no single cue. */
export function underCues(page: Pick<ControlPage, 'cues' | 'sentences'>): {
  cues: CueWithSentences[];
  rest: SentenceGroup[];
} {
  const left = new Set(page.sentences);
  const cues = page.cues.map((cue): CueWithSentences => {
    const sentences = [...left].filter((group) => within(group.effectivity, cue.effectivity));
    for (const group of sentences) left.delete(group);
    const [only] = sentences;
    return {
      cue,
      sentences,
      same: sentences.length === 1 && only !== undefined && within(cue.effectivity, only.effectivity),
    };
  });
  return { cues, rest: [...left] };
}

/** Whether each aircraft of one is there for all its time in the other. */
function within(inner: Effectivity, outer: Effectivity): boolean {
  return inner.aircraft.every((one) => outer.aircraft.some((other) => other.to === one.to && covers(other, one)));
}

/** ISO dates compare as they are written. */
function covers(long: EffectiveAircraft, short: EffectiveAircraft): boolean {
  const startsNoLater = long.from === undefined || (short.from !== undefined && long.from <= short.from);
  const endsNoSooner = long.until === undefined || (short.until !== undefined && short.until <= long.until);
  return startsNoLater && endsNoSooner;
}

/** For each group the positions that no earlier one has. */
export function firstSeen(groups: readonly SentenceGroup[]): ReadonlyMap<SentenceGroup, ReadonlySet<string>> {
  const seen = new Set<string>();
  return new Map(
    groups.map((group) => {
      const first = group.positions.map(({ position }) => position).filter((position) => !seen.has(position));
      for (const position of first) seen.add(position);
      return [group, new Set(first)];
    }),
  );
}
