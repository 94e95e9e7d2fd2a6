/** The tool itself against published figures, each a small content folder beside this file with its source. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  type Compiled,
  compileFleet,
  effectivityText,
  fitOfAircraft,
  levelOf,
  valueIds,
} from '../../src/compile/index.ts';
import { Diagnostics, type SourceFile, toJson } from '../../src/diagnostics/index.ts';
import { thresholdCut } from '../../src/language/index.ts';
import { isColourAllowed, type MessageClass, readFleet } from '../../src/model/index.ts';
import { allPublished } from './published.ts';

function load(
  folder: string,
  added: readonly SourceFile[] = [],
): { compiled: Compiled | undefined; codes: string[]; messages: string[] } {
  const files: SourceFile[] = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.(yaml|csv|md)$/.test(path))
    .sort()
    .map((path) => ({ path: path.replaceAll('\\', '/'), text: readFileSync(join(folder, path), 'utf8') }))
    .filter(({ path }) => added.every((each) => each.path !== path))
    .concat(added);
  const diagnostics = new Diagnostics();
  const fleet = readFleet(files, diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  const codes = diagnostics.all.map(({ code }) => code);
  return { compiled, codes, messages: toJson(diagnostics.all).map(({ message }) => message) };
}

/** The value of a variable's diagram level for a value as the author writes it. */
function valueAt(compiled: Compiled, variable: string, written: string): number {
  const meaning = compiled.space.meanings[levelOf(compiled.space, variable)];
  if (meaning?.kind !== 'number') return meaning ? valueIds(meaning).indexOf(written) : -1;
  const step = meaning.condition.number && thresholdCut(meaning.condition.number, '=', written)?.[0];
  return meaning.cells.findIndex(({ first, last }) => step !== undefined && first <= step && step <= last);
}

function stateOf(
  compiled: Compiled,
  registration: string,
  item: string,
  given: Readonly<Record<string, string>>,
): string {
  const aircraft = compiled.fleet.aircraft.find((each) => each.registration === registration);
  const behaviour = compiled.behaviours.find((each) => `${each.item.id}.${each.attribute.id}` === item);
  if (!aircraft || !behaviour) throw new Error(`${registration} or ${item} is not there`);
  const form = behaviour.forms[fitOfAircraft(compiled.fits, aircraft.serial).index] as number;
  const levels = new Map(
    Object.entries(given).map(([id, value]) => [levelOf(compiled.space, id), valueAt(compiled, id, value)] as const),
  );
  const outcome = compiled.diagrams.valueOf(compiled.diagrams.restrictAll(form, levels));
  if (outcome === undefined) throw new Error('the case leaves something open');
  return compiled.outcomes.state(outcome) ?? (outcome === 1 ? 'not-fitted' : 'impossible');
}

describe.each(allPublished())('$expected.source ($name)', ({ content, expected }) => {
  const { compiled, codes } = load(content);
  const faults = new Set(expected.vectors.map(({ state }) => state).filter((state) => /^(conflict|gap)$/.test(state)));

  const sound = faults.size === 0;

  test('is refused exactly where the publication, read literally, leaves a gap or contradicts itself', () => {
    const found = codes.map((code) => ({ SL401: 'gap', SL402: 'conflict', SL403: 'conflict' })[code] ?? code);
    expect([...new Set(found)].sort()).toEqual([...faults].sort());
  });

  test.each(sound ? expected.vectors : [])('$aircraft $item $case is $state', (vector) => {
    expect(stateOf(compiled as Compiled, vector.aircraft, vector.item, vector.case)).toBe(vector.state);
  });

  test.each(sound ? (expected.claims ?? []) : [])('$holds fails on $fails', ({ holds, fails }) => {
    const text = `- sentence: As published.\n  holds: ${JSON.stringify(holds)}\n`;
    const { messages, codes: found } = load(content, [{ path: 'claims.yaml', text }]);
    expect(found).toEqual(fails.length > 0 ? ['SL406'] : []);
    if (fails.length === 0 || !compiled) return;
    const aircraft = compiled.fleet.aircraft.filter(({ registration }) => fails.includes(registration));
    expect(messages[0]).toContain(`It can happen on ${effectivityText(compiled.fleet, aircraft)}.`);
  });

  test.each(sound ? (expected.alike ?? []) : [])('$item is alike within $groups only', ({ item, groups }) => {
    const behaviour = compiled?.behaviours.find((each) => `${each.item.id}.${each.attribute.id}` === item);
    const found = behaviour?.groups.map(({ aircraft }) => aircraft.map(({ registration }) => registration).sort());
    expect(found?.sort()).toEqual(groups.map((group) => [...group].sort()).sort());
  });

  test.each(expected.colours ?? [])(
    'a $class has the colours of its class',
    ({ class: of, allowed = [], forbidden = [] }) => {
      for (const colour of allowed) expect(isColourAllowed(of as MessageClass, colour), colour).toBe(true);
      for (const colour of forbidden) expect(isColourAllowed(of as MessageClass, colour), colour).toBe(false);
    },
  );
});
