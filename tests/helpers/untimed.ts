/**
 * A second reading of what happens when inputs move without a clock: the same worlds that src/compile/explore follows, worked out
 * from the authors' words by the interpreter of tests/oracle.
 */
import { type Case, compares, type Fit, type Oracle } from '../oracle/index.ts';
import { inputConstraints, Possible } from '../oracle/possible.ts';
import { Variables } from '../oracle/variables.ts';

type Transition = NonNullable<ReturnType<Oracle['content']['sequences']['get']>>['transitions'][number];

/** One way in which everything that is open can be: detectors and modes together, and the events that have come. */
export interface OpenWorld {
  readonly fit: Fit;
  readonly answers: Case;
  readonly modes: Case;
  readonly happened: ReadonlySet<Transition>;
}

export class Untimed {
  readonly #oracle: Oracle;
  /** As far as inputs decide, whatever the modes. */
  readonly #inputs: Possible;

  constructor(oracle: Oracle) {
    this.#oracle = oracle;
    const variables = new Variables(oracle.meaning);
    this.#inputs = new Possible(variables, inputConstraints(oracle.meaning, variables));
  }

  /** The same case with what one aircraft lacks left out. */
  inputsOn(fit: Fit, inputs: Case): Case {
    return Object.fromEntries(Object.entries(inputs).filter(([name]) => this.#oracle.valuesOn(fit, name).length > 0));
  }

  /** Whether inputs can stand together on one aircraft, whatever the modes. */
  canStand(fit: Fit, inputs: Case): boolean {
    return this.#inputs.completes(fit, this.inputsOn(fit, inputs));
  }

  /** All worlds that come of new inputs. */
  set(world: OpenWorld, before: Case, after: Case): OpenWorld[] {
    const { detectors } = this.#oracle.content;
    const inputs = this.inputsOn(world.fit, after);
    let ways: Case[] = this.canStand(world.fit, after) ? [{}] : [];
    for (const { id, number, by } of detectors.values()) {
      const [from, to] = [before[number] as string, after[number] as string];
      const moved = from === to ? 'not' : compares(to, '>', from) ? 'up' : 'down';
      // The actual point stays where it is: what has tripped on the way up stays so further up.
      const trips = by.startsWith('>') ? 'up' : 'down';
      const was = world.answers[id];
      const answers =
        was === undefined || (moved !== 'not' && (moved === trips) !== (was === 'yes')) ? ['no', 'yes'] : [was];
      ways = ways.flatMap((way) =>
        answers
          .map((answer) => ({ ...way, [id]: answer }))
          .filter((each) => this.#inputs.completes(world.fit, { ...inputs, ...each })),
      );
    }
    return ways.map((answers) => this.settle({ ...world, answers }, after));
  }

  /** The sounds that a change from one rest to another sets off, whatever moved. */
  sounds(fit: Fit, before: Case, after: Case): string[] {
    const { sounds } = this.#oracle.content;
    const holds = (text: string, given: Case): boolean => {
      const found = this.#oracle.meaning.truths(text, this.#oracle.meaning.at(fit, given, true));
      if (found.size !== 1) throw new Error(`what is not stated decides "${text}"`);
      return found.has(true);
    };
    const isSame = Object.entries(after).every(([name, value]) => before[name] === value);
    return [...sounds.values()]
      .filter(
        ({ id, triggers }) =>
          !isSame &&
          this.#oracle.isFitted(fit, id) &&
          triggers.some(
            ({ moves, from, to, becomes, while: during }) =>
              (moves === undefined || before[moves] !== after[moves]) &&
              (from?.includes(before[moves ?? ''] ?? '') ?? true) &&
              (to?.includes(after[moves ?? ''] ?? '') ?? true) &&
              (becomes === undefined || (!holds(becomes, before) && holds(becomes, after))) &&
              (during === undefined || holds(during, after)),
          ),
      )
      .map(({ id }) => id);
  }

  /** Takes what is taken at once. */
  settle(world: OpenWorld, inputs: Case): OpenWorld {
    const modes: Record<string, string> = { ...world.modes };
    const happened = new Set(world.happened);
    for (let rounds = 0; rounds < 1000; rounds += 1) {
      const here = { ...world, modes, happened };
      const next = this.#leaving(here).find(
        ([, one]) => !one.holds && !one.after && !one.since && this.#truth(here, inputs, one.when) === 'holds',
      );
      if (!next) {
        for (const [, one] of this.#leaving(here))
          if (one.since && this.#truth(here, inputs, one.since.event) === 'holds') happened.add(one);
        return here;
      }
      this.#enter(next[0], next[1].to, modes, happened);
    }
    throw new Error('round without end');
  }

  /** What goes on in time, as sequence and mode. */
  waits(world: OpenWorld, inputs: Case): (readonly [sequence: string, to: string])[] {
    return this.#leaving(world).flatMap(([sequence, one]) => {
      const truth = this.#truth(world, inputs, one.when);
      const isDelayed = one.holds !== undefined || one.after !== undefined || one.since !== undefined;
      const isOpen = isDelayed ? truth !== 'never' : truth === 'at some level';
      return isOpen && (!one.since || world.happened.has(one)) ? [[sequence, one.to] as const] : [];
    });
  }

  wait(world: OpenWorld, inputs: Case, sequence: string, from: string, to: string): OpenWorld {
    const isOpen =
      world.modes[sequence] === from && this.waits(world, inputs).some((one) => one[0] === sequence && one[1] === to);
    if (!isOpen) return world;
    const modes = { ...world.modes };
    const happened = new Set(world.happened);
    this.#enter(sequence, to, modes, happened);
    return this.settle({ ...world, modes, happened }, inputs);
  }

  #enter(id: string, to: string, modes: Record<string, string>, happened: Set<Transition>): void {
    modes[id] = to;
    for (const one of this.#oracle.content.sequences.get(id)?.transitions ?? []) happened.delete(one);
  }

  #leaving({ modes }: OpenWorld): [string, Transition][] {
    return [...this.#oracle.content.sequences.values()].flatMap(({ id, transitions }) =>
      transitions.flatMap((one): [string, Transition][] => (one.from.includes(modes[id] ?? '') ? [[id, one]] : [])),
    );
  }

  #truth(world: OpenWorld, inputs: Case, text: string | undefined): 'holds' | 'never' | 'at some level' {
    if (text === undefined) return 'holds';
    const given = { ...this.inputsOn(world.fit, inputs), ...world.answers, ...world.modes };
    const at = this.#oracle.meaning.at(world.fit, given, true);
    const stores = [...this.#oracle.content.sequences.values()].flatMap((one) => [...one.stores.values()]);
    const read = stores.find(({ id }) => text.includes(id));
    // Quarters of a unit lie on both sides of every level that the contents of these tests name.
    const levels = read ? Array.from({ length: 4 * Number(read.capacity) + 1 }, (_, at) => String(at / 4)) : ['0'];
    const truths = levels.map((level) => {
      const store = (_: string, by: string, limit: string): boolean => compares(level, by, limit);
      const found = this.#oracle.meaning.truths(text, { ...at, store });
      if (found.size !== 1) throw new Error(`what is not stated decides "${text}"`);
      return found.has(true);
    });
    return truths.every(Boolean) ? 'holds' : truths.some(Boolean) ? 'at some level' : 'never';
  }
}
