/**
 * A slow interpreter of sequences for tests, written from the authors' guide. It goes from second to second, keeps what held
 * whenever the sequences had come to rest, and looks every delay up in that history. It shares nothing with the program.
 */

export interface State {
  readonly speed: number;
  readonly bus: boolean;
  readonly modes: Readonly<Record<string, string>>;
  /** The level as comparisons see it: a little further on where time has begun to pass. */
  readonly level: number;
}

/** A condition as text for the content, and as what it means. */
export interface Guard {
  readonly text: string;
  readonly holds: (state: State) => boolean;
}

export interface SlowTransition {
  readonly from: readonly string[];
  readonly to: string;
  readonly when?: Guard;
  readonly holdsFor?: number;
  readonly after?: number;
  readonly since?: { readonly event: Guard; readonly delay: number; readonly restarts: boolean };
  /** Seconds that its delay may be longer or shorter; a course has nominal delays. */
  readonly tolerance?: string;
}

export interface SlowSequence {
  readonly id: string;
  /** The first is the initial one. */
  readonly modes: readonly string[];
  readonly transitions: readonly SlowTransition[];
}

export interface SlowContent {
  readonly sequences: readonly SlowSequence[];
  /** One level per second in each direction. */
  readonly store: { readonly capacity: number; readonly start: number; readonly fills: Guard; readonly drains: Guard };
  /** Modes of the first sequence that set the store. */
  readonly sets: Readonly<Record<string, number>>;
  readonly inputs: readonly { readonly at: number; readonly speed: number; readonly bus: boolean }[];
  readonly until: number;
}

interface Rest {
  readonly second: number;
  readonly holds: ReadonlyMap<Guard, boolean>;
}

export interface SlowCourse {
  /** "3 a: off > on" */
  readonly changes: readonly string[];
  /** The modes at the end of each second. */
  readonly modes: readonly Readonly<Record<string, string>>[];
  /** The second at which changes go on for ever; undefined where none do. */
  readonly endless: number | undefined;
  /** The transitions of the changes, in their order. */
  readonly taken: readonly SlowTransition[];
}

export function runSlowly({ sequences, store, sets, inputs, until }: SlowContent): SlowCourse {
  const modes: Record<string, string> = Object.fromEntries(sequences.map(({ id, modes: [first = ''] }) => [id, first]));
  /** Index into `rests` of the first rest in the present mode, and the second of entering it. */
  const entries = new Map(sequences.map(({ id }) => [id, { rest: 0, second: 0 }]));
  const guards = sequences.flatMap(({ transitions }) =>
    transitions.flatMap(({ when, since }) => [...(when ? [when] : []), ...(since ? [since.event] : [])]),
  );
  const rests: Rest[] = [];
  const changes: string[] = [];
  const taken: SlowTransition[] = [];
  const course: Record<string, string>[] = [];
  let level = store.start;
  let speed = 0;
  let bus = true;

  const slope = (): number => {
    const state = { speed, bus, modes, level };
    const rate = (store.fills.holds(state) ? 1 : 0) - (store.drains.holds(state) ? 1 : 0);
    return (level === store.capacity && rate > 0) || (level === 0 && rate < 0) ? 0 : rate;
  };
  const stateIn = (moving: boolean): State => ({ speed, bus, modes, level: moving ? level + slope() / 1000 : level });

  for (let second = 0; second <= until; second += 1) {
    if (second > 0) level += slope();
    for (const input of inputs) if (input.at === second) ({ speed, bus } = input);
    let count = 0;
    const take = ({ id }: SlowSequence, transition: SlowTransition): void => {
      const { to } = transition;
      taken.push(transition);
      changes.push(`${second} ${id}: ${modes[id]} > ${to}`);
      modes[id] = to;
      entries.set(id, { rest: rests.length, second });
      if (id === sequences[0]?.id && sets[to] !== undefined) level = sets[to];
      count += 1;
    };
    const isDue = (sequence: SlowSequence, transition: SlowTransition): boolean => {
      const { from, when, holdsFor, after, since } = transition;
      const entry = entries.get(sequence.id) ?? { rest: 0, second: 0 };
      if (!from.includes(modes[sequence.id] ?? '')) return false;
      if (holdsFor === undefined && after === undefined && since === undefined) return false;
      const heldAt = (guard: Guard) => (rest: Rest | undefined) => rest?.holds.get(guard) === true;
      if (when && !heldAt(when)(rests.at(-1))) return false;
      if (when && holdsFor !== undefined) {
        // True in all of the time since then, and when that time began.
        const began = rests.filter((rest) => rest.second === second - holdsFor).at(-1);
        const later = rests.filter((rest) => rest.second > second - holdsFor);
        if (!heldAt(when)(began) || !later.every(heldAt(when))) return false;
      }
      if (after !== undefined && second - entry.second < after) return false;
      if (!since) return true;
      const here = rests.slice(entry.rest);
      const comings = here.filter(
        (rest, index) => heldAt(since.event)(rest) && (index === 0 || !heldAt(since.event)(here[index - 1])),
      );
      const counted = since.restarts ? comings.at(-1) : comings[0];
      return counted !== undefined && second - counted.second >= since.delay;
    };
    for (const moving of [false, true]) {
      for (;;) {
        if (count > 300) return { changes, modes: course, endless: second, taken };
        const now = sequences
          .flatMap((sequence) => sequence.transitions.map((transition) => ({ sequence, transition })))
          .find(
            ({ sequence, transition: { from, when, holdsFor, after, since } }) =>
              from.includes(modes[sequence.id] ?? '') &&
              holdsFor === undefined &&
              after === undefined &&
              since === undefined &&
              when?.holds(stateIn(moving)),
          );
        if (now) {
          take(now.sequence, now.transition);
          continue;
        }
        const state = stateIn(moving);
        rests.push({ second, holds: new Map(guards.map((guard) => [guard, guard.holds(state)])) });
        const due = sequences.flatMap((sequence) => {
          const transition = sequence.transitions.find((each) => isDue(sequence, each));
          return transition ? [{ sequence, transition }] : [];
        });
        if (due.length === 0) break;
        for (const { sequence, transition } of due) take(sequence, transition);
      }
    }
    course.push({ ...modes });
  }
  return { changes, modes: course, endless: undefined, taken };
}
