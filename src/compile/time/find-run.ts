/**
 * Looks for a run that leads sequences into certain modes: inputs that change one at a time, a second apart at least, and
 * time that passes. The runs are those of the exact machine, so that what is found can really happen; where many things
 * would have to move, none may be found.
 */
import { addDecimals, multiplyDecimal } from '../../language/index.ts';
import type { Node } from '../../logic/index.ts';
import type { Sequence } from '../../model/index.ts';
import { expressionsOfSequence } from '../cells.ts';
import type { SettledFit } from '../fits.ts';
import { positionsOf } from '../positions.ts';
import { idOf, levelOf, type Meaning, valueIds } from '../space.ts';
import type { ModeChange } from './course.ts';
import { add, compare, type Fraction, fraction, latest, ofDecimal, secondsText, ZERO } from './fraction.ts';
import { answered, type Base, type Inputs, initialInputs } from './inputs.ts';
import { Endless, Machine } from './machine.ts';
import { NotStated, World } from './moment.ts';
import { changeWords, variableWords } from './words.ts';

/** The most states that are looked at. */
const STATES_LIMIT = 300;
const SECOND = fraction(1n);

interface State {
  readonly machine: Machine;
  readonly inputs: Inputs;
  /** In words: "at 3 s, Pump control: RUN". */
  readonly steps: readonly string[];
}

/**
 * The steps, in words, of a shortest run of sequences that read each other, on an aircraft with the fit, until they are in
 * the modes wanted (by id of the sequence); undefined where none is found. `possible`: the cases that can happen.
 */
export function findRun(
  ground: Base,
  fit: SettledFit,
  sequences: readonly Sequence[],
  wanted: ReadonlyMap<string, string>,
  possible: Node,
): readonly string[] | undefined {
  const search = new Search(ground, fit, sequences, possible);
  const isWanted = ({ machine: { modes } }: State): boolean =>
    [...wanted].every(([id, mode]) => modes.get(id) === mode);
  const states = search.first();
  const seen = new Set<string>();
  for (let state = states.shift(); state && seen.size < STATES_LIMIT; state = states.shift()) {
    if (isWanted(state)) return state.steps;
    const key = search.key(state);
    if (seen.has(key)) continue;
    seen.add(key);
    states.push(...search.after(state));
  }
  return undefined;
}

class Search {
  readonly #world: World;
  readonly #sequences: readonly Sequence[];
  readonly #possible: Node;
  /** The inputs that guards read, each with all values that it may take. */
  readonly #moves: readonly { readonly id: string; readonly values: readonly string[] }[];
  readonly #longest: Fraction;

  constructor(ground: Base, fit: SettledFit, sequences: readonly Sequence[], possible: Node) {
    const { diagrams, space } = ground;
    this.#world = new World(ground, fit);
    this.#sequences = sequences;
    const others = diagrams
      .support(possible)
      .filter((level) => ['sequence', 'store', 'unstated'].includes(space.meanings[level]?.kind ?? ''));
    this.#possible = diagrams.exists(possible, others);
    const expressions = sequences.flatMap((sequence) => [...expressionsOfSequence(sequence)]);
    const read = expressions.flatMap((each) => diagrams.support(this.#world.node(each, true)));
    const numbers = read.flatMap((level) => {
      const meaning = space.meanings[level];
      return meaning?.kind === 'detector' ? [levelOf(space, meaning.detector.number)] : [];
    });
    this.#moves = [...new Set([...read, ...numbers])]
      .sort((a, b) => a - b)
      .flatMap((level) => movesOf(space.meanings[level] as Meaning, fit));
    const delays = sequences.flatMap(({ transitions }) =>
      transitions.flatMap(({ guard, after, since }) =>
        [guard?.holds, after, since?.delay].flatMap((delay) => (delay ? [ofDecimal(delay.seconds)] : [])),
      ),
    );
    this.#longest = latest(ZERO, ...delays);
  }

  key({ machine, inputs }: State): string {
    return `${machine.key(this.#longest)}, ${this.#moves.map(({ id }) => inputs.get(id)).join(' ')}`;
  }

  /** The state after power-up; none where that is a case that cannot happen. */
  first(): State[] {
    const { inputs } = answered(this.#world.ground, initialInputs(this.#world.ground, this.#world.fit));
    const machine = new Machine(this.#world, inputs, this.#sequences);
    const state = { machine, inputs, steps: [] };
    return this.#isPossible(state) ? this.#settled(state, inputs) : [];
  }

  /** What can come next: time passes until something may happen, or one input moves. */
  after(state: State): State[] {
    const next = state.machine.next();
    const waited = next ? this.#waited(state, next) : [];
    const moved = this.#moves.flatMap(({ id, values }) =>
      values.filter((value) => value !== state.inputs.get(id)).flatMap((value) => this.#moved(state, id, value)),
    );
    return [...waited, ...moved];
  }

  #waited(state: State, until: Fraction): State[] {
    const machine = state.machine.copy();
    machine.advance(until);
    return this.#settled({ ...state, machine }, state.inputs);
  }

  /** One input moves a second later. */
  #moved(state: State, id: string, value: string): State[] {
    const at = add(state.machine.now, SECOND);
    let before = state;
    for (;;) {
      const next = before.machine.next();
      if (!next || compare(next, at) >= 0) break;
      const [waited] = this.#waited(before, next);
      if (!waited) return [];
      before = waited;
    }
    const { inputs } = answered(this.#world.ground, new Map([...before.inputs, [id, value]]));
    if (inputs.get(id) !== value) return [];
    const machine = before.machine.copy();
    machine.advance(at);
    const moved = { machine, inputs, steps: before.steps };
    return this.#isPossible(moved) ? this.#settled(moved, inputs, id) : [];
  }

  #isPossible({ machine, inputs }: State): boolean {
    const { diagrams } = this.#world.ground;
    return diagrams.evaluate(this.#possible, this.#world.assignment(inputs, machine.modes)) === 1;
  }

  /** The state after all that follows at the present time; none where that is endless or not stated. */
  #settled({ machine, steps }: State, inputs: Inputs, moved?: string): State[] {
    let changes: readonly ModeChange[];
    try {
      changes = machine.settle(inputs);
    } catch (error) {
      if (error instanceof Endless || error instanceof NotStated) return [];
      throw error;
    }
    const { ground } = this.#world;
    const at = secondsText(machine.now);
    const told = moved === undefined ? [] : [`at ${at}, ${variableWords(moved, machine.moment(), inputs, ground)}`];
    return [{ machine, inputs, steps: [...steps, ...told, ...changes.map((each) => changeWords(each, machine.now))] }];
  }
}

/** What a variable may be moved to: an input by its id, or nothing where it is none. */
function movesOf(meaning: Meaning, fit: SettledFit): { id: string; values: string[] }[] {
  switch (meaning.kind) {
    case 'control':
      return meaning.controls.flatMap((control) => {
        const positions = positionsOf(control, fit);
        return [{ id: control.id, values: positions.map((index) => control.positions[index]?.id ?? '') }];
      });
    case 'number': {
      const { number, id } = meaning.condition;
      if (!number) throw new Error(`${id} has no range`);
      const { from, step } = number;
      return [{ id, values: meaning.cells.map(({ first }) => addDecimals(from, multiplyDecimal(step, first))) }];
    }
    case 'condition':
    case 'detector':
    case 'lamp':
      return [{ id: idOf(meaning), values: [...valueIds(meaning)] }];
    default:
      return [];
  }
}
