/**
 * Judges practice questions by the interpreter of the authors' files, which shares nothing with the program: one answer is
 * right, and the others are wrong, in every case that can happen with what the question states. The wrong ones are near misses.
 */
import type { AskedFact, AskedState, PracticeQuestion } from '../../../src/book/index.ts';
import { type Case, compares, type Fit, type Oracle, Stages, type StageWorlds } from '../../oracle/index.ts';
import { inputConstraints, Possible } from '../../oracle/possible.ts';
import { Variables } from '../../oracle/variables.ts';

export class PracticeJudge {
  readonly #oracle: Oracle;
  readonly #stages: Stages;
  /** As far as inputs decide: a question must be certain whatever the modes of sequences are. */
  readonly #possible: Possible;
  readonly #courses = new Map<string, readonly StageWorlds[]>();

  constructor(oracle: Oracle) {
    this.#oracle = oracle;
    this.#stages = new Stages(oracle.meaning);
    const variables = new Variables(oracle.meaning);
    this.#possible = new Possible(variables, inputConstraints(oracle.meaning, variables));
  }

  /** What is wrong with a question; nothing where it is sound. */
  faults(question: PracticeQuestion): string[] {
    const { asked, right, options } = question;
    const fits = asked.facts.map(({ serial, facts }) => ({ fit: this.#fitOf(serial), facts }));
    const verdicts = asked.options.map((option): boolean | string => {
      const [here, there] = fits;
      if (!here) return 'is about no aircraft';
      if (option.fitted !== undefined)
        return this.#oracle.isFitted(here.fit, option.fitted) && !this.#oracle.isFitted(there!.fit, option.fitted);
      if (option.differs !== undefined) return this.#differs(fits, option.differs);
      const truths = option.states.map((state) => this.#truth(here.fit, here.facts, state));
      return truths.find((truth) => typeof truth === 'string') ?? truths.every((truth) => truth === true);
    });
    const words = options.map(({ words }) => words.map(({ text }) => text).join(''));
    return [
      ...verdicts.flatMap((verdict, at) => {
        const letter = options[at]?.letter;
        if (typeof verdict === 'string') return [`${letter} ${verdict}`];
        return verdict === (letter === right) ? [] : [`${letter} is ${verdict ? 'right' : 'wrong'}`];
      }),
      ...(new Set(words).size < words.length ? ['two answers read the same'] : []),
      ...(options.length < 3 ? ['there are fewer than three answers'] : []),
      ...options.flatMap(({ letter }, at) =>
        letter === right || this.#isNear(fits, question, asked.options[at]!) ? [] : [`${letter} is far from right`],
      ),
      ...fits.flatMap(({ fit, facts }) => this.#implausible(fit, facts, question).slice(0, 1)),
    ];
  }

  /**
   * Whether a wrong answer misses by one thing: it is so with one of the stated facts otherwise, or on another aircraft; or it is
   * another position of the control that is asked for.
   */
  #isNear(
    fits: readonly { readonly fit: Fit; readonly facts: readonly AskedFact[] }[],
    { kind, asked: { options } }: PracticeQuestion,
    option: PracticeQuestion['asked']['options'][number],
  ): boolean {
    const [here, there] = fits;
    if (!here) return false;
    if (option.fitted !== undefined) {
      const having = this.#oracle.fits.filter((fit) => this.#oracle.isFitted(fit, option.fitted ?? ''));
      return having.length > 0 && having.length < this.#oracle.fits.length;
    }
    if (option.differs !== undefined) {
      const { item, attribute } = option.differs;
      const states = (fit: Fit, facts: readonly AskedFact[]): string[] =>
        this.#oracle.isFitted(fit, item) ? this.#happening(fit, facts, item, attribute) : [];
      const anywhere = new Set(this.#oracle.fits.flatMap((fit) => states(fit, here.facts)));
      const otherwise = without(here.facts).some((facts) => {
        const [one, other] = [here.fit, (there ?? here).fit].map((fit) => states(fit, facts));
        return [...(one ?? []), ...(other ?? [])].some((state) => !one?.includes(state) || !other?.includes(state));
      });
      return anywhere.size > 1 || otherwise;
    }
    if (kind === 'position') {
      const controls = new Set(options.flatMap(({ states }) => states.map(({ but }) => but?.of)));
      const [{ but } = {}] = option.states;
      return controls.size === 1 && this.#oracle.valuesOn(here.fit, but?.of ?? '').includes(but?.value ?? '');
    }
    return option.states.every(({ item, attribute, states, but }) => {
      const given = but ? [...here.facts.filter(({ of }) => of !== but.of), but] : here.facts;
      return [given, ...without(given)].some((some) =>
        this.#happening(here.fit, some, item, attribute).some((state) => states.includes(state)),
      );
    });
  }

  /** Whether a state holds, for certain; words where it does not. */
  #truth(fit: Fit, facts: readonly AskedFact[], { item, attribute, states, but }: AskedState): boolean | string {
    const given = but ? [...facts.filter(({ of }) => of !== but.of), but] : facts;
    const found = this.#outcomes(fit, given, item, attribute);
    if (typeof found === 'string') return found;
    const truths = new Set(found.map((state) => states.includes(state)));
    return truths.size === 1 ? truths.has(true) : `hangs on what is not stated: ${item} may be ${found.join(' or ')}`;
  }

  /** Whether two aircraft show two states of one thing, or one and the same. */
  #differs(
    fits: readonly { readonly fit: Fit; readonly facts: readonly AskedFact[] }[],
    { item, attribute }: { readonly item: string; readonly attribute: string },
  ): boolean | string {
    const seen = fits.map(({ fit, facts }) => this.#outcomes(fit, facts, item, attribute));
    const unsure = seen.find((found) => typeof found === 'string' || found.length > 1);
    if (unsure !== undefined) return `is not certain: ${String(unsure)}`;
    return String(seen[0]) !== String(seen[1]);
  }

  /**
   * The states that something can be in in the cases that can happen with some facts; words where it can be anything else. Only
   * what the rules ask for is tried, one value after another.
   */
  #outcomes(fit: Fit, facts: readonly AskedFact[], item: string, attribute: string): string[] | string {
    if (!this.#oracle.isFitted(fit, item)) return `${item} is not fitted`;
    const states = this.#happening(fit, facts, item, attribute);
    if (states.length === 0) return `cannot happen: ${JSON.stringify(facts)}`;
    const other = states.find((state) => state.startsWith('{'));
    return other === undefined ? states : `may be ${other}`;
  }

  /** The same with what is no state: what may be either, or is not stated. */
  #happening(fit: Fit, facts: readonly AskedFact[], item: string, attribute: string): string[] {
    const { meaning } = this.#oracle;
    const known = Object.fromEntries(facts.flatMap(({ of, value }) => (value === undefined ? [] : [[of, value]])));
    const ranges = new Map(facts.flatMap(({ of, range }) => (range ? [[of, range] as const] : [])));
    const found = new Map<string, boolean>();
    const walk = (given: Case): void => {
      let outcome: string;
      try {
        const seen = meaning.outcome(item, attribute, meaning.at(fit, asking(given)));
        outcome = typeof seen === 'string' ? seen : JSON.stringify(seen);
      } catch (error) {
        if (!(error instanceof Missing)) throw error;
        const range = ranges.get(error.variable);
        for (const value of this.#oracle.valuesOn(fit, error.variable)) {
          if (!range || within(value, range)) walk({ ...given, [error.variable]: value });
        }
        return;
      }
      if (found.get(outcome) !== true) found.set(outcome, this.#canHappen(fit, given, ranges));
    };
    walk(known);
    return [...found].filter(([, happens]) => happens).map(([outcome]) => outcome);
  }

  /** Whether a case can happen with its numbers within ranges. */
  #canHappen(
    fit: Fit,
    given: Case,
    ranges: ReadonlyMap<string, { readonly from: string; readonly to: string }>,
  ): boolean {
    const open = [...ranges].filter(([name]) => given[name] === undefined);
    const cases = open.reduce<Case[]>(
      (all, [name, range]) =>
        all.flatMap((one) =>
          this.#oracle
            .valuesOn(fit, name)
            .filter((value) => within(value, range))
            .map((value) => ({ ...one, [name]: value })),
        ),
      [given],
    );
    return cases.some((one) => this.#possible.completes(fit, one));
  }

  /** Facts, beside the one that is otherwise, that the stage does not have. */
  #implausible(fit: Fit, facts: readonly AskedFact[], { asked: { stage, changed } }: PracticeQuestion): string[] {
    if (!stage) return facts.length > 0 ? ['facts without a stage'] : [];
    const worlds = this.#courseOn(fit, stage.procedure).find((one) => one.stage.id === stage.stage);
    if (!worlds) return [`there is no stage ${stage.stage}`];
    return facts.flatMap(({ of, value, range }) => {
      if (of === changed) return [];
      const inputs = worlds.inputs.get(of);
      const has = inputs
        ? inputs.some((each) => each === value || (range && within(each, range)))
        : worlds.worlds.some((world) => world[of] === value);
      return has ? [] : [`${stage.stage} does not have ${of} ${value ?? JSON.stringify(range)}`];
    });
  }

  #courseOn(fit: Fit, procedure: string): readonly StageWorlds[] {
    const key = `${fit.id} ${procedure}`;
    const text = this.#oracle.content.procedures.get(procedure);
    if (!text) throw new Error(`no procedure is called ${procedure}`);
    const course = this.#courses.get(key) ?? this.#stages.on(fit, text);
    this.#courses.set(key, course);
    return course;
  }

  #fitOf(serial: string): Fit {
    const aircraft = this.#oracle.aircraft.find((each) => each.serial === serial);
    if (!aircraft) throw new Error(`no aircraft has the serial ${serial}`);
    return aircraft.fit;
  }
}

/** Thrown where a rule asks for what a case leaves open. */
class Missing extends Error {
  readonly variable: string;

  constructor(variable: string) {
    super(variable);
    this.variable = variable;
  }
}

/** The case, which says so when something is asked that it leaves open. */
function asking(given: Case): Case {
  return new Proxy(given, {
    get(target, name: string) {
      const value = target[name];
      if (value === undefined) throw new Missing(name);
      return value;
    },
  });
}

/** The facts with each one left open in turn. */
function without(facts: readonly AskedFact[]): AskedFact[][] {
  return facts.map((fact) => facts.filter((each) => each !== fact));
}

function within(value: string, { from, to }: { readonly from: string; readonly to: string }): boolean {
  return compares(value, '>=', from) && compares(value, '<=', to);
}
