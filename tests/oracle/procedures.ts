/**
 * The stages of a procedure on one aircraft, by the guide: everything that can be set has one value or a few, and sequences
 * go on mode by mode. Nothing is shared with the program.
 */
import type { ProcedureText, SequenceText, StageText, TransitionText } from './content.ts';
import { compares } from './decimal.ts';
import type { Fit } from './fits.ts';
import type { Case, Meaning, Outcome } from './meaning.ts';
import { inputConstraints, Possible } from './possible.ts';
import { mentions, mentionsOfAttribute } from './reach.ts';
import { Variables } from './variables.ts';

/** What may be in a stage: values of inputs, and with which of those that sequences read they are in which modes. */
export interface StageWorlds {
  readonly stage: StageText;
  /** Without detectors, which answer as they can. */
  readonly inputs: ReadonlyMap<string, readonly string[]>;
  readonly worlds: readonly Case[];
}

type Inputs = Map<string, readonly string[]>;

export class Stages {
  readonly #meaning: Meaning;
  readonly #variables: Variables;
  readonly #possible: Possible;
  /** All that sequences read, apart from modes. */
  readonly #read: readonly string[];

  constructor(meaning: Meaning) {
    this.#meaning = meaning;
    this.#variables = new Variables(meaning);
    this.#possible = new Possible(this.#variables, inputConstraints(meaning, this.#variables));
    const { content } = meaning;
    const texts = [...content.sequences.values()].flatMap(({ transitions }) => transitions.flatMap(textsOf));
    this.#read = this.#variables
      .among(texts.flatMap((text) => mentions(content, text, true, true)))
      .filter((name) => !content.sequences.has(name));
  }

  /** The fit must have no unknown option. */
  on(fit: Fit, procedure: ProcedureText): StageWorlds[] {
    const { content } = this.#meaning;
    const sequences = [...content.sequences.values()].filter(({ id }) => this.#meaning.isFitted(fit, id));
    let inputs = this.#start(fit);
    const said = new Set<string>();
    let modes: Case[] = [Object.fromEntries(sequences.map(({ id, initial }) => [id, initial]))];
    return procedure.stages.map((stage) => {
      const acts = new Map<string, readonly string[]>();
      const asked = new Map<string, readonly string[]>();
      const next = new Map(inputs);
      for (const [id, values] of stage.conditions) {
        said.add(id);
        const sequence = content.sequences.get(id);
        if (!sequence) next.set(id, this.#saidOf(id, values));
        else if (sequences.includes(sequence))
          asked.set(id, values.includes('any') ? [...sequence.modes.keys()] : values);
      }
      for (const [id, wanted] of stage.positions) {
        const first = wanted.find(({ when }) => this.#holds(fit, when, {}));
        if (!first) continue;
        const back = content.controls.get(id)!.positions.get(first.position)!.returns;
        said.add(id);
        next.set(id, [back ?? first.position]);
        if (back !== undefined) acts.set(id, [first.position]);
      }
      inputs = next;
      if (acts.size > 0) {
        const held = new Map([...inputs, ...acts]);
        for (const name of this.#tied([...acts.keys()])) if (!said.has(name)) held.set(name, this.#all(fit, name));
        modes = onlyModes(this.#follow(fit, sequences, held, modes, new Map(), false), sequences);
      }
      const worlds = this.#follow(fit, sequences, inputs, modes, asked, true);
      if (worlds.length > 0) modes = onlyModes(worlds, sequences);
      return { stage, inputs, worlds };
    });
  }

  /**
   * What an attribute may be, by the visible variables that the stage leaves open: "ambient=day" to outcomes. Modes count as
   * open. Empty where the stage cannot be.
   */
  outcomes(
    fit: Fit,
    stage: StageWorlds,
    item: string,
    attribute: string,
  ): Map<string, { given: Case; outcomes: Set<string> }> {
    const found = new Map<string, { given: Case; outcomes: Set<string> }>();
    const content = this.#meaning.content;
    const names = this.#variables.among(mentionsOfAttribute(content, item, attribute));
    const shown = names.filter((name) => !this.#variables.isDetector(name));
    for (const world of stage.worlds) {
      for (const given of this.#assignments(fit, stage.inputs, names, world)) {
        const outcome: Outcome | 'not-fitted' = this.#meaning.isFitted(fit, item)
          ? this.#meaning.outcome(item, attribute, this.#meaning.at(fit, given))
          : 'not-fitted';
        const seen = Object.fromEntries(
          shown.flatMap((name) => (given[name] === undefined ? [] : [[name, given[name]]])),
        );
        const key = JSON.stringify(seen);
        const entry = found.get(key) ?? { given: seen, outcomes: new Set<string>() };
        entry.outcomes.add(typeof outcome === 'string' ? outcome : JSON.stringify(outcome));
        found.set(key, entry);
      }
    }
    return found;
  }

  /** A case of the stage in which an expression is false; undefined where there is none. */
  against(fit: Fit, stage: StageWorlds, text: string): Case | undefined {
    const names = this.#variables.among(mentions(this.#meaning.content, text));
    for (const world of stage.worlds) {
      for (const given of this.#assignments(fit, stage.inputs, names, world)) {
        if (this.#meaning.truths(text, this.#meaning.at(fit, given)).has(false)) return given;
      }
    }
    return undefined;
  }

  #start(fit: Fit): Inputs {
    const { conditions, controls } = this.#meaning.content;
    const inputs: Inputs = new Map();
    for (const [id, { normal, number, values }] of conditions) {
      inputs.set(id, [number ? number.from : (normal ?? [...values.keys()][0]!)]);
    }
    for (const [id, { positions }] of controls) {
      const fitted = this.#meaning.positionsOn(fit, id);
      const first = fitted.find((one) => positions.get(one)?.returns === undefined) ?? fitted[0];
      if (first !== undefined) inputs.set(id, [first]);
    }
    for (const name of this.#variables.all) {
      if (this.#variables.isLamp(name) && this.#variables.valuesOn(fit, name).length > 0)
        inputs.set(name, ['serviceable']);
    }
    return inputs;
  }

  #all(fit: Fit, name: string): readonly string[] {
    return this.#variables.cellsOn(fit, name);
  }

  /** A range goes over both its ends and the steps between that something in the content tells apart. */
  #saidOf(id: string, values: readonly string[]): readonly string[] {
    const condition = this.#meaning.content.conditions.get(id)!;
    if (!condition.number) return values.includes('any') ? [...condition.values.keys()] : values;
    const { from, to } = condition.number;
    const [words = ''] = values;
    const [low = '', high = low] =
      words === 'any' ? [from, to] : words.split(' to ').map((part) => part.split(' ')[0]!);
    const between = this.#variables
      .valuesOn({ id: '', options: {} } as unknown as Fit, id)
      .filter((step) => compares(step, '>', low) && compares(step, '<', high));
    return [...new Set([low, ...between, high])];
  }

  /** The conditions that a `never` reads together with one of the controls. */
  #tied(controls: readonly string[]): string[] {
    const { content } = this.#meaning;
    return content.never.flatMap((text) => {
      const names = mentions(content, text, false, false).map(({ name }) => name);
      return names.some((name) => controls.includes(name)) ? names.filter((name) => content.conditions.has(name)) : [];
    });
  }

  /** Every way to give the names values that the stage allows, beside those of a world, as far as that can be. */
  *#assignments(
    fit: Fit,
    inputs: ReadonlyMap<string, readonly string[]>,
    names: readonly string[],
    world: Case,
  ): Iterable<Case> {
    const fixed: Record<string, string> = { ...world };
    for (const [name, values] of inputs) if (values.length === 1) fixed[name] ??= values[0]!;
    const open = names.filter((name) => fixed[name] === undefined);
    const ways = (at: number, given: Case): Case[] => {
      const name = open[at];
      if (name === undefined) return this.#possible.completes(fit, this.#inputsOf(given)) ? [given] : [];
      const values = inputs.get(name) ?? (this.#variables.isDetector(name) ? ['no', 'yes'] : []);
      if (values.length === 0) return ways(at + 1, given);
      return values.flatMap((value) => ways(at + 1, { ...given, [name]: value }));
    };
    yield* ways(0, fixed);
  }

  #inputsOf(given: Case): Case {
    return Object.fromEntries(Object.entries(given).filter(([name]) => !this.#meaning.content.sequences.has(name)));
  }

  /** From each of the modes, with each way that what sequences read can be: where they come to. */
  #follow(
    fit: Fit,
    sequences: readonly SequenceText[],
    inputs: ReadonlyMap<string, readonly string[]>,
    modes: readonly Case[],
    asked: ReadonlyMap<string, readonly string[]>,
    patient: boolean,
  ): Case[] {
    const begun = [...asked].reduce<Case[]>(
      (all, [id, some]) => all.flatMap((one) => some.map((mode) => ({ ...one, [id]: mode }))),
      [...modes],
    );
    const moving = sequences.filter(({ id }) => !asked.has(id));
    const worlds = new Map<string, Case>();
    const tried = new Set<string>();
    for (const world of this.#assignments(fit, inputs, this.#read, {})) {
      const read = Object.fromEntries(
        this.#read.flatMap((name) => (world[name] === undefined ? [] : [[name, world[name]]])),
      );
      for (const start of begun) {
        const key = JSON.stringify([read, start]);
        if (tried.has(key)) continue;
        tried.add(key);
        for (const end of this.#ends(fit, moving, world, start, patient)) {
          const full = { ...read, ...end };
          worlds.set(JSON.stringify(full), full);
        }
      }
    }
    return [...worlds.values()];
  }

  /** The modes that all that follows them comes back to, at rest or for ever; not those that are left at once. */
  #ends(fit: Fit, sequences: readonly SequenceText[], world: Case, start: Case, patient: boolean): Case[] {
    const after = (modes: Case, wait: boolean): Case[] =>
      this.#moves(fit, sequences, { ...world, ...modes }, wait).map(([id, to]) => ({ ...modes, [id]: to }));
    const reachable = (from: Case): Map<string, Case> => {
      const seen = new Map([[JSON.stringify(from), from]]);
      for (const [, modes] of seen) {
        for (const one of after(modes, patient)) {
          if (!seen.has(JSON.stringify(one))) seen.set(JSON.stringify(one), one);
        }
      }
      return seen;
    };
    const all = [...reachable(start)];
    const from = new Map(all.map(([key, modes]) => [key, reachable(modes)]));
    return all
      .filter(([key]) => [...from.get(key)!.keys()].every((other) => from.get(other)!.has(key)))
      .map(([, modes]) => modes)
      .filter((modes) => after(modes, false).length === 0);
  }

  /** The first that is taken at once, or, with patience, all that only time or a store can keep back. */
  #moves(fit: Fit, sequences: readonly SequenceText[], full: Case, patient: boolean): [string, string][] {
    const later: [string, string][] = [];
    for (const { id, transitions } of sequences) {
      for (const one of transitions) {
        if (!one.from.includes(full[id]!)) continue;
        const truths = [true, false].flatMap((store) => [...this.#truths(fit, one.when ?? 'always', full, store)]);
        if (!truths.includes(true)) continue;
        const waits = one.holds !== undefined || one.after !== undefined || one.since !== undefined;
        if (!waits && !truths.includes(false)) return [[id, one.to]];
        if (one.since && !this.#truths(fit, one.since.event, full, true).has(true)) continue;
        later.push([id, one.to]);
      }
    }
    return patient ? later : [];
  }

  #truths(fit: Fit, text: string, full: Case, store: boolean): ReadonlySet<boolean> {
    return this.#meaning.truths(text, { ...this.#meaning.at(fit, full, true), store: () => store });
  }

  #holds(fit: Fit, text: string, given: Case): boolean {
    return this.#meaning.truths(text, this.#meaning.at(fit, given)).has(true);
  }
}

const textsOf = ({ when, since }: TransitionText): string[] => [when ?? 'always', ...(since ? [since.event] : [])];

/** Without inputs: where the next stage begins. */
function onlyModes(worlds: readonly Case[], sequences: readonly SequenceText[]): Case[] {
  const all = worlds.map((world) => Object.fromEntries(sequences.map(({ id }) => [id, world[id]!])));
  return [...new Map(all.map((one) => [JSON.stringify(one), one])).values()];
}
