/**
 * Random flights: the interpreter of time moves controls, conditions and lamps of one aircraft at random, and what stands at
 * each rest is a case that can happen. For contents too large for walking every case.
 */
import { type Chooser, chooser, random } from '../compile/random-numbers.ts';
import { type Case, Course, compares, type Fit, type Oracle, type Step } from '../oracle/index.ts';

/** How often a condition that has a normal value, and a lamp, leaves it when it moves. */
const ABNORMAL = 0.35;
/** How many movements are tried before a moment goes by without one. */
const TRIES = 40;

/** Inputs that somebody would like to see set, by name. */
export type Wish = (choose: Chooser) => ReadonlyMap<string, string>;

/**
 * The cases at the rests of one random flight of so many moments; `fit` has no unknown option. Every other movement is one
 * that is wished for, where it can happen.
 */
export function flight(oracle: Oracle, fit: Fit, seed: number, moments: number, wish: Wish): Case[] {
  const choose = chooser(random(seed));
  const start = new Course(oracle, fit, [{ at: '0', sets: new Map() }], '0').caseAt('0');
  const { sequences, detectors } = oracle.content;
  const inputs = Object.keys(start).filter(
    (name) => !sequences.has(name) && !detectors.has(name) && oracle.valuesOn(fit, name).length > 0,
  );
  const steps: Step[] = [];
  let here = start;
  let at = 0;
  for (let moment = 0; moment < moments; moment += 1) {
    const sets: ReadonlyMap<string, string> = movement(
      oracle,
      fit,
      inputs,
      here,
      choose,
      choose.chance(0.5) ? wish : undefined,
    );
    here = { ...here, ...Object.fromEntries(sets) };
    steps.push({ at: String(at), sets });
    at += choose.pick([1, 1, 3, 10, 30, 90]);
  }
  const course = new Course(oracle, fit, steps, String(at));
  return steps.map((step) => course.caseAt(step.at));
}

/** One to four inputs with their new values, so that what never happens does not. */
function movement(
  oracle: Oracle,
  fit: Fit,
  inputs: readonly string[],
  here: Case,
  choose: Chooser,
  wish?: Wish,
): ReadonlyMap<string, string> {
  for (let attempt = 0; attempt < TRIES; attempt += 1) {
    const sets = new Map(wish?.(choose));
    for (let count = wish ? choose.pick([0, 0, 1]) : choose.pick([1, 1, 2, 3, 4]); count > 0; count -= 1) {
      const name = choose.pick(inputs);
      if (!sets.has(name)) sets.set(name, valueFor(oracle, fit, name, choose));
    }
    const next = { ...here, ...Object.fromEntries(sets) };
    if (!isForbidden(oracle, fit, next)) return sets;
  }
  return new Map();
}

function valueFor(oracle: Oracle, fit: Fit, name: string, choose: Chooser): string {
  const values = oracle.valuesOn(fit, name);
  const normal = values.find((value) => oracle.isNormal({ [name]: value }));
  const isEverNormal = values.some((value) => !oracle.isNormal({ [name]: value }));
  return isEverNormal && normal !== undefined && !choose.chance(ABNORMAL) ? normal : choose.pick(values);
}

/** Whether something holds that never happens; detectors answer as if they had no tolerance. */
function isForbidden(oracle: Oracle, fit: Fit, given: Case): boolean {
  const { detectors, never } = oracle.content;
  const answers = [...detectors.values()].map(({ id, number, by, value }) => {
    const at = given[number];
    return [id, at !== undefined && compares(at, by, value) ? 'yes' : 'no'] as const;
  });
  const whole = { ...given, ...Object.fromEntries(answers) };
  return never.some((text) => oracle.evaluate(fit, text, whole));
}
