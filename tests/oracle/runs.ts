/**
 * Which modes a run without timing reaches: inputs may change to any possible ones at any time, a delay may have elapsed
 * or not, a store may stand at any level; what needs no waiting is taken at once.
 */
import type { ContentText, SequenceText, TransitionText } from './content.ts';
import { compares, digitsOf, order, scaled, unscaled } from './decimal.ts';
import type { Fit } from './fits.ts';
import type { Case, Meaning } from './meaning.ts';
import { type Constraint, keyOf, type Possible } from './possible.ts';
import { mentions, mentionsOfAttribute } from './reach.ts';
import type { Variables } from './variables.ts';

/** How many states a search may visit before it gives up, loudly. */
const PATIENCE = 2_000_000;

/** Sequences that read each other, directly or through signals and items, or that one reader reads, with the inputs that they read. */
interface Component {
  readonly sequences: readonly SequenceText[];
  readonly inputs: readonly string[];
}

/** The texts that decide when a transition is taken. */
const textsOf = ({ when, since }: TransitionText): string[] => [when ?? 'always', ...(since ? [since.event] : [])];

/** One constraint for each component: its inputs and modes stand in a state that comes to rest. */
export function sequenceConstraints(meaning: Meaning, variables: Variables, inputs: Possible): Constraint[] {
  return componentsOf(meaning, variables).map((component) => {
    const known = new Map<string, ReadonlySet<string>>();
    const names = [...component.inputs, ...component.sequences.map(({ id }) => id)];
    return {
      variables: names,
      allows: (fit, given) => {
        let stable = known.get(fit.id);
        if (!stable) {
          stable = new Search(meaning, fit, component).stable(inputs);
          known.set(fit.id, stable);
        }
        const cells = Object.entries(given).map(([name, value]) => [name, variables.cellOf(name, value)] as const);
        return stable.has(keyOf(Object.fromEntries(cells), names));
      },
    };
  });
}

/** The names that each item, claim and trigger reads: sequences read together may never be in some modes together. */
function readersOf(content: ContentText): ReadonlySet<string>[] {
  const attributes = [...content.items.values()].flatMap((item) =>
    [...item.attributes.keys()].map((attribute) => mentionsOfAttribute(content, item.id, attribute)),
  );
  const held = [...content.procedures.values()].flatMap(({ stages }) => stages.flatMap(({ claims }) => claims));
  const claims = [...content.claims, ...held].map(({ holds }) => mentions(content, holds));
  const triggers = [...content.sounds.values()].flatMap((sound) =>
    sound.triggers.map((trigger) =>
      [trigger.becomes, trigger.while].flatMap((text) => (text === undefined ? [] : mentions(content, text, true))),
    ),
  );
  return [...attributes, ...claims, ...triggers].map((read) => new Set(read.map(({ name }) => name)));
}

function componentsOf({ content }: Meaning, variables: Variables): Component[] {
  const readers = readersOf(content);
  let components: Component[] = [];
  for (const sequence of content.sequences.values()) {
    const read = variables.among(
      sequence.transitions.flatMap((one) => textsOf(one).flatMap((text) => mentions(content, text, true, false))),
    );
    const names = [...read, sequence.id];
    const touched = components.filter(
      ({ sequences, inputs }) =>
        sequences.some(({ id }) => names.includes(id)) ||
        inputs.includes(sequence.id) ||
        readers.some((read) => read.has(sequence.id) && sequences.some(({ id }) => read.has(id))),
    );
    components = components.filter((one) => !touched.includes(one));
    const together = [...touched.flatMap((one) => one.sequences), sequence];
    components.push({
      sequences: [...content.sequences.values()].filter((one) => together.includes(one)),
      inputs: [...new Set([...touched.flatMap((one) => one.inputs), ...read])],
    });
  }
  return components.map(({ sequences, inputs }) => ({
    sequences,
    inputs: inputs.filter((name) => !sequences.some(({ id }) => id === name)),
  }));
}

/** What a sequence can do next: whether it must, and from then on what it is in. */
interface Step {
  readonly sequence: number;
  readonly to: string;
}

/** Modes, and the transitions whose event has happened in the present mode: "2:0" is the first of the third sequence. */
interface Configuration {
  readonly modes: readonly string[];
  readonly happened: ReadonlySet<string>;
}

class Search {
  readonly #meaning: Meaning;
  readonly #fit: Fit;
  readonly #component: Component;
  readonly #sequences: readonly SequenceText[];
  readonly #levels = new Map<string, readonly ReadonlyMap<string, string>[]>();
  readonly #readsStore = new Map<string, boolean>();
  #visits = 0;

  constructor(meaning: Meaning, fit: Fit, component: Component) {
    this.#meaning = meaning;
    this.#fit = fit;
    this.#component = component;
    this.#sequences = component.sequences.filter(({ id }) => meaning.isFitted(fit, id));
    this.#collectLevels();
  }

  /** The states at rest, inputs and modes, as `keyOf` writes them. */
  stable(inputs: Possible): ReadonlySet<string> {
    const all = [...inputs.cases(this.#fit, this.#component.inputs, {}, true)];
    const found = new Set<string>();
    const names = [...this.#component.inputs, ...this.#component.sequences.map(({ id }) => id)];
    const first: Configuration = { modes: this.#sequences.map(({ initial }) => initial), happened: new Set() };
    const waiting = [first];
    const begun = new Set([write(first)]);
    const visited = all.map(() => new Set<string>());
    for (let next = waiting.pop(); next; next = waiting.pop()) {
      for (const [at, given] of all.entries()) {
        this.#explore(given, next, visited[at]!, (rest, full) => {
          found.add(keyOf(full, names));
          if (begun.has(write(rest))) return;
          begun.add(write(rest));
          waiting.push(rest);
        });
      }
    }
    return found;
  }

  /** Goes through all that can follow while the inputs stay; tells of each state at rest. */
  #explore(
    inputs: Case,
    start: Configuration,
    visited: Set<string>,
    rests: (at: Configuration, full: Case) => void,
  ): void {
    const open = [start];
    for (let next = open.pop(); next; next = open.pop()) {
      const full = { ...inputs, ...Object.fromEntries(this.#sequences.map(({ id }, at) => [id, next!.modes[at]!])) };
      const here = { modes: next.modes, happened: this.#withEvents(next, full) };
      const key = write(here);
      if (visited.has(key)) continue;
      visited.add(key);
      if (++this.#visits > PATIENCE)
        throw new Error(`too many states of ${this.#sequences.map(({ id }) => id).join(', ')}`);
      const { steps, atRest } = this.#steps(here, full);
      if (atRest) rests(here, full);
      for (const { sequence, to } of steps) {
        const happened = new Set([...here.happened].filter((one) => !one.startsWith(`${sequence}:`)));
        open.push({ modes: here.modes.map((mode, at) => (at === sequence ? to : mode)), happened });
      }
    }
  }

  #withEvents({ modes, happened }: Configuration, full: Case): ReadonlySet<string> {
    const now = new Set(happened);
    for (const [sequence, { transitions }] of this.#sequences.entries()) {
      for (const [at, { from, since }] of transitions.entries()) {
        if (since && from.includes(modes[sequence]!) && this.#truths(since.event, full).has(true))
          now.add(`${sequence}:${at}`);
      }
    }
    return now;
  }

  /**
   * What can be taken: of each sequence, in order, the transitions that may be due before the first that is, which ends
   * it all, since it is taken at once. At rest where there is none such.
   */
  #steps({ modes, happened }: Configuration, full: Case): { steps: Step[]; atRest: boolean } {
    const steps: Step[] = [];
    for (const [sequence, { transitions }] of this.#sequences.entries()) {
      for (const [at, one] of transitions.entries()) {
        if (!one.from.includes(modes[sequence]!)) continue;
        const holds = this.#truths(one.when ?? 'always', full);
        if (!holds.has(true) || (one.since && !happened.has(`${sequence}:${at}`))) continue;
        steps.push({ sequence, to: one.to });
        if (!holds.has(false) && !this.#mayWait(one)) return { steps, atRest: false };
      }
    }
    return { steps, atRest: true };
  }

  /** A delay may have elapsed or not. A guard that reads a store waits for nothing where it holds at every level. */
  #mayWait({ holds, after, since }: TransitionText): boolean {
    return holds !== undefined || after !== undefined || since !== undefined;
  }

  /** What the expression may be, with stores at any level and under any answer to what is not stated. */
  #truths(text: string, full: Case): ReadonlySet<boolean> {
    const at = this.#meaning.at(this.#fit, full, true);
    if (!this.#readsStore.get(text)) return this.#meaning.truths(text, at);
    const found = new Set<boolean>();
    for (const levels of this.#levels.get(text)!) {
      const store = (id: string, by: string, level: string): boolean => compares(levels.get(id)!, by, level);
      for (const truth of this.#meaning.truths(text, { ...at, store })) found.add(truth);
    }
    return found;
  }

  /** For each text that reads stores, all combinations of levels that are worth trying. */
  #collectLevels(): void {
    const { content } = this.#meaning;
    const stores = new Map([...content.sequences.values()].flatMap((one) => [...one.stores]));
    for (const text of this.#sequences.flatMap(({ transitions }) => transitions.flatMap(textsOf))) {
      const read = mentions(content, text, true, false).filter(({ name }) => stores.has(name));
      this.#readsStore.set(text, read.length > 0);
      let all: Map<string, string>[] = [new Map()];
      for (const [id, { capacity }] of stores) {
        const limits = read.flatMap(({ name, threshold }) =>
          name === id && threshold !== undefined ? [threshold] : [],
        );
        if (limits.length === 0) continue;
        const levels = levelsAround(capacity, limits);
        all = all.flatMap((one) => levels.map((level) => new Map([...one, [id, level]])));
      }
      this.#levels.set(text, all);
    }
  }
}

/** Empty, full, each limit and a level between any two of these. */
function levelsAround(capacity: string, limits: readonly string[]): string[] {
  const inside = limits.filter((limit) => order(limit, '0') >= 0 && order(limit, capacity) <= 0);
  const marks = ['0', capacity, ...inside].sort(order);
  const between = marks.slice(1).map((mark, at) => {
    const digits = Math.max(digitsOf(mark), digitsOf(marks[at]!)) + 1;
    return unscaled((scaled(mark, digits) + scaled(marks[at]!, digits)) / 2n, digits);
  });
  return [...marks, ...between];
}

const write = ({ modes, happened }: Configuration): string => `${modes.join(' ')} | ${[...happened].sort().join(' ')}`;
