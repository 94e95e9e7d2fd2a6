/** Which aircraft can show everything that a reader sees, on a day. */
import type { SeenData, SeenMeaning, SeenOn, SeenTogether } from '../../book/index.ts';

/** One thing seen: an observation and one of its choices. */
export interface Seeing {
  readonly sight: string;
  readonly choice: string;
}
export type Period = SeenData['periods'][number];

/** What is left when all of it is seen together. */
export interface Left {
  /** Settled fits. */
  readonly settled: ReadonlySet<number>;
  /** The aircraft that can be one of them, as they are on the day. */
  readonly periods: readonly Period[];
}

export function meaningOf(data: SeenData, { sight, choice }: Seeing): SeenMeaning | undefined {
  return data.choices[sight]?.[choice];
}

/** What is seen as its cases are asked for: states on each settled fit; of a control nothing, which every case of a fit shows. */
export function seenOn(data: SeenData, seen: readonly Seeing[]): SeenOn[] {
  return seen.flatMap((each): SeenOn[] => {
    const parts = meaningOf(data, each)?.parts ?? [];
    if (parts.length === 0) return [];
    const sets = parts.map(({ set }) => new Set(data.sets[set] ?? []));
    return [(settled) => parts.filter((_, at) => sets[at]?.has(settled))];
  });
}

/**
 * An aircraft of which an option is not known stays as long as one of the fits that it may be can show all of it: in one case,
 * where `together` can tell, and else each by itself.
 */
export function narrow(data: SeenData, seen: readonly Seeing[], day: string, together?: SeenTogether): Left {
  const on = seenOn(data, seen);
  const sets = seen.map((each) => new Set(data.sets[meaningOf(data, each)?.set ?? -1] ?? []));
  const settled = new Set(
    data.periods
      .flatMap((period) => data.sets[period.settled] ?? [])
      .filter((fit) => sets.every((set) => set.has(fit)))
      .filter((fit) => together?.can(fit, on) ?? true),
  );
  const periods = data.periods.filter(
    ({ from = '', until = '', settled: own }) =>
      from <= day && (until === '' || day <= until) && (data.sets[own] ?? []).some((fit) => settled.has(fit)),
  );
  return { settled, periods };
}

/** "legend-armed:lit,logo:3", as it stands in addresses. */
export function written(seen: readonly Seeing[]): string {
  return seen.map(({ sight, choice }) => `${sight}:${choice}`).join(',');
}

/** Reads it back; one choice a thing, the last. */
export function readSeen(words: string): Seeing[] {
  const seen = new Map<string, Seeing>();
  for (const part of words.split(',')) {
    const [sight, choice] = part.split(':');
    if (sight && choice) seen.set(sight, { sight, choice });
  }
  return [...seen.values()];
}
