/**
 * A content of 60 options, 150 controls and conditions and 1,000 items, which read 5.5 variables each on the average, 14 at
 * most, and have 13.7 rows in the tables of a group: compiled, and asked of random cases.
 */
import { describe, expect, it } from 'vitest';
import {
  absentValue,
  type Behaviour,
  type Compiled,
  compileFleet,
  IMPOSSIBLE,
  type Meaning,
  NOT_FITTED,
  partNormals,
  partTable,
  reportFindings,
  type SettledFit,
  valueIds,
  valueOfPosition,
} from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import type { StateTable } from '../../src/logic/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { chooser, random } from './random-numbers.ts';
import type { ScaleItem } from './scale-content.ts';
import { SCALE, scaleContent } from './scale-family.ts';
import { type ScaleCase, ScaleInterpreter } from './scale-interpreter.ts';

const content = scaleContent(SCALE);
const interpreter = new ScaleInterpreter(content);
const items = new Map(content.items.map((item) => [item.id, item]));
const diagnostics = new Diagnostics();
const compiled = compile(diagnostics);

function compile(report: Diagnostics): Compiled {
  const files = Object.entries(content.files).map(([path, text]) => ({ path, text }));
  const fleet = readFleet(files, report);
  const result = fleet && compileFleet(fleet, report);
  if (!result) throw new Error(report.all.map(({ code }) => code).join(', '));
  return result;
}

interface Sample {
  readonly behaviour: Behaviour;
  readonly item: ScaleItem;
  readonly fit: SettledFit;
  readonly given: ScaleCase;
}

/** Random cases of random items on random fits, of those that can happen. */
function samples(seed: number, count: number): Sample[] {
  const draw = random(seed);
  const { pick } = chooser(draw);
  const found: Sample[] = [];
  while (found.length < count) {
    const behaviour = pick(compiled.behaviours);
    const fit = pick(compiled.settled);
    const given = interpreter.randomCase(fit.options, draw);
    const item = items.get(behaviour.item.id) as ScaleItem;
    if (interpreter.canHappen(fit.options, given)) found.push({ behaviour, item, fit, given });
  }
  return found;
}

/** The value of a variable in a case. */
function valueIn(meaning: Meaning, given: ScaleCase): number {
  switch (meaning.kind) {
    case 'control': {
      const at = given.get(meaning.control.id);
      if (at === undefined) return absentValue(meaning);
      const position = meaning.control.positions.findIndex(({ id }) => id === at);
      return valueOfPosition(meaning, meaning.control, position);
    }
    case 'number': {
      const step = BigInt(given.get(meaning.condition.id) ?? '') / 10n;
      return meaning.cells.findIndex(({ first, last }) => first <= step && step <= last);
    }
    case 'condition':
      return valueIds(meaning).indexOf(given.get(meaning.condition.id) ?? '');
    case 'detector':
      return valueIds(meaning).indexOf(given.get(meaning.detector.id) ?? '');
    default:
      throw new Error(`a ${meaning.kind} in a content without any`);
  }
}

function valuesOf({ space }: Compiled, fit: SettledFit, given: ScaleCase): number[] {
  return space.meanings.map((meaning) =>
    meaning.kind === 'option'
      ? valueIds(meaning).indexOf(fit.options.get(meaning.option.id) ?? '')
      : valueIn(meaning, given),
  );
}

/** The states that an outcome leaves open, sorted. */
function statesOf({ outcomes }: Compiled, outcome: number): readonly string[] {
  return outcome === NOT_FITTED ? ['not fitted'] : [...outcomes.statesIn(outcome)].sort();
}

const mean = (numbers: readonly number[]): number => numbers.reduce((sum, each) => sum + each, 0) / numbers.length;

describe('a content of a thousand items', () => {
  it('is as large as it says', () => {
    const { fleet, space, settled, behaviours } = compiled;
    const supports = behaviours.map(({ own }) => own.length);
    expect(diagnostics.all).toEqual([]);
    expect(fleet.options).toHaveLength(60);
    expect(fleet.conditions.length + fleet.controls.length).toBe(150);
    expect(behaviours).toHaveLength(1000);
    expect(fleet.aircraft).toHaveLength(48);
    expect(settled.length).toBeGreaterThan(20);
    expect(Math.max(...supports)).toBe(14);
    expect(mean(supports)).toBeCloseTo(5.5, 1);
    expect(behaviours.reduce((sum, { groups }) => sum + groups.length, 0)).toBeGreaterThan(2000);
    // All that a trial of every case would have to go through.
    const cases = space.variables.reduce((product, { size }) => product * BigInt(size), 1n);
    expect(cases).toBeGreaterThan(10n ** 70n);
  });

  it('is compiled and judged with work that grows with what is said, not with the cases', () => {
    const again = compile(new Diagnostics());
    expect(again.diagrams.work).toEqual(compiled.diagrams.work);
    expect(again.diagrams.work.nodes).toBeLessThan(80_000);
    expect(again.diagrams.work.applyCalls).toBeLessThan(400_000);
    expect(again.diagrams.work.cacheHits / again.diagrams.work.applyCalls).toBeGreaterThan(0.6);
    const findings = new Diagnostics();
    reportFindings(again, findings);
    expect(findings.all.length).toBeGreaterThan(100);
    expect(again.diagrams.work.nodes).toBeLessThan(230_000);
  });

  it('lets happen what the rules let happen', () => {
    const draw = random(1);
    const { pick } = chooser(draw);
    let possible = 0;
    for (let count = 0; count < 2000; count += 1) {
      const fit = pick(compiled.settled);
      const given = interpreter.randomCase(fit.options, draw);
      const expected = interpreter.canHappen(fit.options, given);
      const care = compiled.possible[fit.index]?.whole ?? compiled.diagrams.no;
      expect(compiled.diagrams.evaluate(care, valuesOf(compiled, fit, given))).toBe(expected ? 1 : 0);
      if (expected) possible += 1;
    }
    expect(possible).toBeGreaterThan(100);
    expect(possible).toBeLessThan(1900);
  });

  it('has in sampled cases the states that the rules give, read one by one', () => {
    let either = 0;
    for (const { behaviour, item, fit, given } of samples(2, 4000)) {
      const values = valuesOf(compiled, fit, given);
      const { diagrams } = compiled;
      const state = interpreter.state(item, fit.options, given) ?? 'not fitted';
      expect(statesOf(compiled, diagrams.evaluate(behaviour.node, values)), item.id).toEqual([state]);
      const form = behaviour.forms[fitOf(fit)] as number;
      const seen = interpreter.behaviour(item, fit.options, given);
      expect(statesOf(compiled, diagrams.evaluate(form, values)), item.id).toEqual(seen);
      if (seen.length > 1) either += 1;
    }
    expect(either).toBeGreaterThan(10);
  });

  it('has tables in which each sampled case stands in one row, with its states', () => {
    const rows: number[] = [];
    for (const { behaviour, item, fit } of samples(3, 60)) {
      const group = behaviour.groups.find(({ fits }) => fits.some((each) => each.index === fitOf(fit)));
      if (!group) throw new Error(`${item.id} has no group`);
      const [normal, abnormal] = (['normal', 'abnormal'] as const).map((part) =>
        partTable(compiled, behaviour, group, part),
      );
      rows.push((normal?.rows.length ?? 0) + (abnormal?.rows.length ?? 0));
      const normals = partNormals(compiled, group.form, 'normal');
      const draw = random(4);
      for (let count = 0; count < 60; count += 1) {
        const given = interpreter.randomCase(fit.options, draw);
        if (!interpreter.canHappen(fit.options, given)) continue;
        const values = valuesOf(compiled, fit, given);
        const isUsual = normals.every(([level, usual]) => usual.includes(values[level] as number));
        const found = rowsWith(isUsual ? normal : abnormal, values);
        expect(found, item.id).toHaveLength(1);
        expect(statesOf(compiled, found[0] ?? IMPOSSIBLE), item.id).toEqual(
          interpreter.behaviour(item, fit.options, given),
        );
      }
    }
    expect(mean(rows)).toBeCloseTo(13.7, 0);
  });
});

/** All options are known, so that fits and settled fits are the same, by their options. */
function fitOf({ options }: SettledFit): number {
  return compiled.fits.findIndex((fit) => [...options].every(([id, value]) => fit.options.get(id) === value));
}

/** The outcomes of the rows that hold a case. */
function rowsWith(table: StateTable | undefined, values: readonly number[]): number[] {
  const { columns, rows } = table ?? { columns: [], rows: [] };
  return rows
    .filter(({ cells }) => cells.every((cell, at) => cell?.includes(values[columns[at] as number] as number) ?? true))
    .map(({ outcome }) => outcome);
}
