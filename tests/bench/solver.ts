/**
 * Comparisons by a solver, fed incrementally: one context, the variables and their ranges asserted once, the formulas of an item
 * made before; each comparison is a push, what it asserts, a check and a pop. It is asked less than a normal form
 * answers: whether a case that can happen on both fits has two outcomes, not whether the same cases can happen.
 */
import { type Arith, type Bool, type Context, init, killThreads, type Solver } from 'z3-solver';
import { componentsOn } from './components.ts';
import { type Formula, fixed, type Item, type Problem, readBy } from './problem.ts';

type Truth = Bool<'bench'>;
type Outcome = Arith<'bench'>;

/** One item on one fit, as the solver is told of it. */
export interface Told {
  readonly outcome: Outcome;
  readonly happens: Truth;
}

export class Prover {
  readonly #problem: Problem;
  readonly #z3: Context<'bench'>;
  readonly #solver: Solver<'bench'>;
  readonly #variables: readonly Outcome[];

  constructor(problem: Problem, z3: Context<'bench'>) {
    this.#problem = problem;
    this.#z3 = z3;
    this.#solver = new z3.Solver();
    this.#variables = problem.variables.map(({ id }) => z3.Int.const(id));
    for (const [at, { size }] of problem.variables.entries()) {
      this.#solver.add((this.#variables[at] as Outcome).ge(0), (this.#variables[at] as Outcome).lt(size));
    }
  }

  tell(item: Item, fit: number): Told {
    const options = this.#problem.fits[fit] as readonly number[];
    const outcome = item.rules.reduceRight<Outcome>((rest, { when, then }) => {
      const here = fixed(when, (variable) => options[variable]);
      if (typeof here === 'boolean') return here ? this.#z3.Int.val(then) : rest;
      return this.#z3.If(this.#truth(here), this.#z3.Int.val(then), rest) as Outcome;
    }, this.#z3.Int.val(item.otherwise));
    const read = readBy(item.rules.map(({ when }) => when));
    const touched = componentsOn(this.#problem, fit).filter(({ variables }) =>
      variables.some((variable) => read.includes(variable)),
    );
    const happens = touched.flatMap(({ constraints }) => constraints).map((each) => this.#truth(each));
    return { outcome, happens: this.#z3.And(...happens) };
  }

  /** Whether a case that can happen on both has two outcomes. */
  async differ(a: Told, b: Told): Promise<boolean> {
    this.#solver.push();
    this.#solver.add(a.happens, b.happens, a.outcome.neq(b.outcome));
    const answer = await this.#solver.check();
    this.#solver.pop();
    if (answer === 'unknown') throw new Error(`the solver does not know: ${this.#solver.reasonUnknown()}`);
    return answer === 'sat';
  }

  #truth(formula: Formula): Truth {
    const { And, Or, Not } = this.#z3;
    switch (formula.op) {
      case 'in': {
        const variable = this.#variables[formula.variable] as Outcome;
        return Or(...formula.values.map((value) => variable.eq(value)));
      }
      case 'not':
        return Not(this.#truth(formula.of));
      case 'all':
        return And(...formula.of.map((each) => this.#truth(each)));
      case 'some':
        return Or(...formula.of.map((each) => this.#truth(each)));
    }
  }
}

/** Starts a solver of its own for a problem: of several contexts in one, the garbage of one disturbs the others. */
export async function startProver(problem: Problem): Promise<{ prover: Prover; end: () => Promise<void> }> {
  const { Context: create, em } = await init();
  return { prover: new Prover(problem, create('bench')), end: () => killThreads(em) };
}
