/**
 * A theorem prover as judge of state tables. It knows the rules by its own translation of the content files, takes
 * numbers as whole steps within their range (not the cells that thresholds cut), and proves of a table that on the
 * cases that can happen it is complete, has no overlap and gives the state of the rules, or exactly those states that the tolerance
 * of detectors leaves open. It knows nothing of sequences and of unknown options.
 */
import { type Bool, type Context, init, killThreads, type Model, type Solver } from 'z3-solver';
import type { AttributeText } from './content.ts';
import { digitsOf, scaled, unscaled } from './decimal.ts';
import { type Algebra, type LampCount, read } from './expression.ts';
import type { Fit } from './fits.ts';
import type { Case } from './meaning.ts';
import type { Oracle } from './oracle.ts';
import { asksForFailure, lampsOf, lampVariable, overridesOf } from './reach.ts';

/** What a cell lets through: anything, some values, or a range of a number with both bounds inside. */
export type TableCell =
  | null
  | { readonly values: readonly string[] }
  | { readonly from?: string; readonly to?: string };

/** A state table, or one part of it, in a form that says nothing of how it was made. */
export interface JudgedTable {
  readonly item: string;
  readonly attribute: string;
  /** The id of a fit of the oracle. */
  readonly fit: string;
  readonly part: 'normal' | 'abnormal' | 'all';
  /** The conditions that decide which part a case is in; by default those that matter to the attribute on this fit. */
  readonly judgedNormal?: readonly string[];
  readonly columns: readonly string[];
  readonly rows: readonly JudgedRow[];
}

export interface JudgedRow {
  readonly cells: readonly TableCell[];
  /** Several where it may be either of them, by the tolerance of detectors. */
  readonly state: string | readonly string[];
}

/** What is wrong with a table, with the rows concerned (from 0) and a case that shows it. */
export interface Fault {
  readonly kind: 'gap' | 'overlap' | 'wrong state' | 'state that cannot be' | 'empty row';
  readonly rows: readonly number[];
  readonly given?: Case;
}

type Formula = Bool<'judge'>;

interface Witness {
  readonly given: Case;
  readonly holds: (formula: Formula) => boolean;
}

/** The prover, which judges any number of contents one after the other. */
export interface Prover {
  readonly judgeOf: (oracle: Oracle) => Judge;
  /** Call it when done, or its threads keep the process alive. */
  readonly end: () => Promise<void>;
}

/** Starts the prover: one context and one solver, which what is known of a fit is pushed on and popped from. */
export async function startProver(): Promise<Prover> {
  const { Context: create, em } = await init();
  const z3 = create('judge');
  const end = (): Promise<void> => killThreads(em);
  const desk: Desk = { solver: new z3.Solver(), holds: undefined };
  return { judgeOf: (oracle) => new Judge(oracle, z3, desk, end), end };
}

/** Starts the prover for one content folder. Call `end` when done. */
export async function startJudge(oracle: Oracle): Promise<Judge> {
  return (await startProver()).judgeOf(oracle);
}

/** The one solver, and the fit that it knows at the moment: the memory of a solver comes back late. */
interface Desk {
  readonly solver: Solver<'judge'>;
  holds: Fit | undefined;
}

export class Judge {
  readonly end: () => Promise<void>;
  readonly #oracle: Oracle;
  readonly #z3: Context<'judge'>;
  readonly #desk: Desk;

  constructor(oracle: Oracle, z3: Context<'judge'>, desk: Desk, end: () => Promise<void>) {
    this.#oracle = oracle;
    this.#z3 = z3;
    this.#desk = desk;
    this.end = end;
  }

  /** Every fault that the table has; none means that it is proved right. */
  async table(table: JudgedTable): Promise<readonly Fault[]> {
    const fit = this.#fit(table.fit);
    const { And, Or, Not } = this.#z3;
    const part = this.#part(fit, table);
    const rows = table.rows.map((row) =>
      And(...row.cells.map((cell, at) => this.#cell(fit, table.columns[at]!, cell))),
    );
    const statesOf = (at: number): readonly string[] => [table.rows[at]!.state].flat();
    const is = (state: string): Formula => this.#stateIs(fit, table.item, table.attribute, state);
    const wrong = rows.map((row, at) => And(row, Not(Or(...statesOf(at).map(is)))));
    const never = rows.flatMap((row, at) =>
      statesOf(at).length < 2 ? [] : statesOf(at).map((state) => And(row, Not(this.#seen(fit, table, is(state))))),
    );
    const faults: Fault[] = [];
    const look = async (kind: Fault['kind'], formula: Formula, among: readonly Formula[]): Promise<void> => {
      const witness = await this.#witness(fit, And(part, formula));
      if (!witness) return;
      faults.push({ kind, rows: among.flatMap((row, at) => (witness.holds(row) ? [at] : [])), given: witness.given });
    };
    await look('gap', Not(Or(...rows)), []);
    if (rows.length > 1) await look('overlap', Not(this.#z3.AtMost(rows as [Formula, ...Formula[]], 1)), rows);
    await look('wrong state', Or(...wrong), wrong);
    if (never.length > 0) await look('state that cannot be', Or(...never), []);
    for (const [at, row] of rows.entries()) {
      if (!(await this.#witness(fit, And(part, row)))) faults.push({ kind: 'empty row', rows: [at] });
    }
    return faults;
  }

  /** Some values of all that the table's cases don't show, detectors above all, let it be so. */
  #seen(fit: Fit, { item, attribute }: JudgedTable, formula: Formula): Formula {
    const { content } = this.#oracle;
    const shown = this.#oracle.ownVariables(item, attribute);
    const hidden = this.#variables(fit).filter((name) => content.detectors.has(name) || !shown.includes(name));
    const [first, ...others] = hidden.map((name) => this.#z3.Int.const(name));
    const whole = this.#z3.And(this.#canHappen(fit), formula);
    return first ? this.#z3.Exists([first, ...others], whole) : whole;
  }

  /** A case that can happen on the fit in which the expression is false; undefined when it is proved. */
  async counterexample(fit: Fit, text: string): Promise<Case | undefined> {
    return (await this.#witness(fit, this.#z3.Not(this.#formula(fit, text))))?.given;
  }

  #fit(id: string): Fit {
    const fit = this.#oracle.fits.find((one) => one.id === id);
    if (!fit) throw new Error(`no such fit: ${id}`);
    return fit;
  }

  /** Every variable within its values or range, and no `never` true. */
  #canHappen(fit: Fit): Formula {
    const { And, Not } = this.#z3;
    const { conditions, never } = this.#oracle.content;
    const ranges = this.#variables(fit).map((name) => {
      const number = conditions.get(name)?.number;
      const last = number ? Number(steps(number).last) : this.#oracle.valuesOn(fit, name).length - 1;
      const constant = this.#z3.Int.const(name);
      return And(constant.ge(0), constant.le(last));
    });
    return And(...ranges, ...never.map((text) => Not(this.#formula(fit, text))), ...this.#detectors(fit));
  }

  /** What detectors can say: the certain cases of each, and the order in which they trip. */
  #detectors(fit: Fit): Formula[] {
    const { detectors, inOrder } = this.#oracle.content;
    const { Implies, Not } = this.#z3;
    const trips = (id: string): Formula => this.#isOneOf(fit, id, ['yes']);
    const certain = [...detectors.values()].flatMap(({ id, number, by, low, high }) => {
      const [sure, perhaps] = by.startsWith('>') ? [high, low] : [low, high];
      return [
        Implies(this.#compare(number, by, sure), trips(id)),
        Implies(Not(this.#compare(number, by, perhaps)), Not(trips(id))),
      ];
    });
    const orders = inOrder.flatMap((list) => list.slice(1).map((later, at) => Implies(trips(later), trips(list[at]!))));
    return [...certain, ...orders];
  }

  #variables(fit: Fit): readonly string[] {
    const { conditions, controls, detectors, items } = this.#oracle.content;
    const lamps = [...items.values()].flatMap((item) => lampsOf(item).map((lamp) => lampVariable(item.id, lamp)));
    const names = [...conditions.keys(), ...controls.keys(), ...lamps, ...detectors.keys()];
    return names.filter((name) => this.#oracle.valuesOn(fit, name).length > 0);
  }

  #part(fit: Fit, { item, attribute, part, judgedNormal }: JudgedTable): Formula {
    const { And, Not } = this.#z3;
    if (part === 'all') return this.#z3.Bool.val(true);
    const judged = judgedNormal ?? this.#oracle.ownVariables(item, attribute, [fit]);
    const normal = And(
      ...judged.flatMap((name) => {
        const positions = this.#oracle.content.controls.get(name)?.positions;
        const fitted = positions ? this.#oracle.valuesOn(fit, name) : [];
        const usual = fitted.filter((position) => !positions?.get(position)?.abnormal);
        if (positions) return usual.length < fitted.length ? [this.#isOneOf(fit, name, usual)] : [];
        const isLamp = !this.#oracle.content.conditions.has(name) && name.includes('.');
        const value = isLamp ? 'serviceable' : this.#oracle.content.conditions.get(name)?.normal;
        return value === undefined ? [] : [this.#isOneOf(fit, name, [value])];
      }),
    );
    return part === 'normal' ? normal : Not(normal);
  }

  #cell(fit: Fit, column: string, cell: TableCell): Formula {
    if (cell === null) return this.#z3.Bool.val(true);
    if ('values' in cell) return this.#isOneOf(fit, column, cell.values);
    const bounds: Formula[] = [];
    if (cell.from !== undefined) bounds.push(this.#compare(column, '>=', cell.from));
    if (cell.to !== undefined) bounds.push(this.#compare(column, '<=', cell.to));
    return this.#z3.And(...bounds);
  }

  #isOneOf(fit: Fit, variable: string, values: readonly string[]): Formula {
    if (this.#oracle.content.sequences.has(variable)) throw new Error(`a sequence is not for the judge: ${variable}`);
    const constant = this.#z3.Int.const(variable);
    const known = this.#oracle.valuesOn(fit, variable);
    return this.#z3.Or(
      ...values.flatMap((value) => (known.includes(value) ? [constant.eq(known.indexOf(value))] : [])),
    );
  }

  #compare(name: string, by: string, limit: string): Formula {
    const number = this.#oracle.content.conditions.get(name)?.number;
    if (!number) throw new Error(`not a number: ${name}`);
    const digits = Math.max(steps(number).digits, digitsOf(limit));
    const constant = this.#z3.Int.const(name);
    const value = constant.mul(scaled(number.step, digits)).add(scaled(number.from, digits));
    const bound = scaled(limit, digits);
    if (by === '<') return value.lt(bound);
    if (by === '<=') return value.le(bound);
    if (by === '>') return value.gt(bound);
    return by === '>=' ? value.ge(bound) : value.eq(bound);
  }

  #formula(fit: Fit, text: string): Formula {
    const { And, Or, Not, Implies, Bool } = this.#z3;
    const { detectors, signals } = this.#oracle.content;
    const algebra: Algebra<Formula> = {
      constant: (value) => Bool.val(value),
      not: (a) => Not(a),
      and: (a, b) => And(a, b),
      or: (a, b) => Or(a, b),
      implies: (a, b) => Implies(a, b),
      among: (name, attribute, values) => this.#among(fit, name, attribute, values),
      compare: (name, by, limit) => this.#compare(name, by, limit),
      fitted: (name, position) => Bool.val(this.#oracle.isFitted(fit, name, position)),
      signal: (name) =>
        detectors.has(name) ? this.#isOneOf(fit, name, ['yes']) : this.#formula(fit, signals.get(name)!),
      lamps: (count, name, values, negated) => {
        const statements = lampsOf(this.#oracle.content.items.get(name)).map((lamp) => {
          const holds = this.#among(fit, name, lamp, values);
          return negated ? Not(holds) : holds;
        });
        return this.#counted(count, statements);
      },
    };
    return read(text, algebra);
  }

  #among(fit: Fit, name: string, attribute: string | undefined, values: readonly string[]): Formula {
    const { controls, items, options } = this.#oracle.content;
    if (options.has(name)) return this.#z3.Bool.val(values.includes(fit.options[name]!));
    const item = items.get(name);
    if (asksForFailure(item, attribute, values)) return this.#isOneOf(fit, lampVariable(name, attribute!), values);
    if (item) {
      const shown = item.attributes.get(attribute ?? [...item.attributes.keys()][0]!)!;
      const powered = item.kind === 'supply' && values.includes('powered');
      const states = powered ? [...shown.states.keys()].filter((state) => state !== 'lost') : values;
      return this.#z3.Or(...states.map((state) => this.#stateIs(fit, name, shown.id, state)));
    }
    const positions = [...(controls.get(name)?.positions ?? [])].flatMap(([id, { returns }]) =>
      values.includes(returns === undefined ? 'released' : 'held') ? [id] : [],
    );
    return this.#isOneOf(fit, name, [...values, ...positions]);
  }

  #counted({ by, number }: LampCount, all: readonly Formula[]): Formula {
    const { And, Or, AtLeast, AtMost } = this.#z3;
    if (by === 'any') return Or(...all);
    if (by === 'all') return And(...all);
    const some = all as [Formula, ...Formula[]];
    if (by === 'at least') return AtLeast(some, number);
    return by === 'at most' ? AtMost(some, number) : And(AtLeast(some, number), AtMost(some, number));
  }

  /** The item is in this state: the overrides from the highest, what stands before the rules, then those. */
  #stateIs(fit: Fit, itemId: string, attributeId: string, state: string): Formula {
    const { And, Or, Not, Bool } = this.#z3;
    const item = this.#oracle.content.items.get(itemId);
    const attribute = item?.attributes.get(attributeId);
    if (!item || !attribute) throw new Error(`no such attribute: ${itemId}.${attributeId}`);
    if (!this.#oracle.isFitted(fit, itemId)) return Bool.val(false);
    const above = [...overridesOf(this.#oracle.content, item, attributeId), ...attribute.before];
    if (above.some((one) => 'quiet' in one && one.quiet)) throw new Error('a quiet override is not for the judge');
    const below =
      attribute.drivenBy === undefined
        ? this.#rulesGive(fit, attribute, state)
        : this.#stateIs(fit, itemId, attribute.drivenBy, state);
    return above.reduceRight((rest, one) => {
      const holds = this.#formula(fit, one.when);
      return one.state === state ? Or(holds, rest) : And(Not(holds), rest);
    }, below);
  }

  /** The rules give this state: their hit policy written out as logic. */
  #rulesGive(fit: Fit, attribute: AttributeText, state: string): Formula {
    const { And, Or, Not } = this.#z3;
    const hits = attribute.rules.flatMap((rule) =>
      rule.when === undefined ? [] : [{ holds: this.#formula(fit, rule.when), state: rule.state }],
    );
    const none = Not(Or(...hits.map((hit) => hit.holds)));
    const closing = attribute.rules.some((rule) => rule.when === undefined && rule.state === state);
    const deciding = hits.flatMap((hit, at) => {
      if (hit.state !== state) return [];
      const silent = hits.filter((other, place) => {
        if (attribute.policy === 'first') return place < at;
        return attribute.policy === 'unique' ? place !== at : other.state !== state;
      });
      return [And(hit.holds, ...silent.map((other) => Not(other.holds)))];
    });
    return Or(...deciding, ...(closing ? [none] : []));
  }

  /** A case that can happen on the fit and satisfies the formula. */
  async #witness(fit: Fit, formula: Formula): Promise<Witness | undefined> {
    const solver = this.#solver(fit);
    solver.push();
    try {
      solver.add(formula);
      const answer = await solver.check();
      if (answer === 'unknown') throw new Error('the prover gave up');
      return answer === 'unsat' ? undefined : this.#answer(fit, solver.model());
    } finally {
      solver.pop();
    }
  }

  /** The solver, which knows what can happen on the fit. */
  #solver(fit: Fit): Solver<'judge'> {
    const { solver, holds } = this.#desk;
    if (holds === fit) return solver;
    if (holds) solver.pop();
    solver.push();
    solver.add(this.#canHappen(fit));
    this.#desk.holds = fit;
    return solver;
  }

  #answer(fit: Fit, model: Model<'judge'>): Witness {
    const given: Record<string, string> = {};
    for (const name of this.#variables(fit)) {
      const at = BigInt(model.eval(this.#z3.Int.const(name), true).toString());
      const number = this.#oracle.content.conditions.get(name)?.number;
      const { digits } = number ? steps(number) : { digits: 0 };
      given[name] = number
        ? unscaled(scaled(number.from, digits) + at * scaled(number.step, digits), digits)
        : this.#oracle.valuesOn(fit, name)[Number(at)]!;
    }
    return { given, holds: (one) => this.#z3.isTrue(model.eval(one, true)) };
  }
}

/** How many digits a number's steps need, and the index of the last one. */
function steps(number: { from: string; to: string; step: string }): { digits: number; last: bigint } {
  const digits = Math.max(digitsOf(number.from), digitsOf(number.to), digitsOf(number.step));
  return { digits, last: (scaled(number.to, digits) - scaled(number.from, digits)) / scaled(number.step, digits) };
}
