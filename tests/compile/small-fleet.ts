/** Compiles a small fleet written in a test: what it doesn't give is taken from a plain base of two aircraft. */
import { type Compiled, type CompileOptions, compileFleet } from '../../src/compile/index.ts';
import { type Diagnostic, Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

export const GEAR_AND_BUS = `conditions:
  gear:
    title: Gear
    values: { down: { says: with the gear down }, up: { says: with the gear up } }
  bus:
    title: Bus
    normal: powered
    values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } }
`;
export const CONDITIONS = `${GEAR_AND_BUS}  speed:
    title: Speed
    number: { unit: kt, from: 0, to: 20, step: 0.5 }
`;

/** Files of which a test gives others, or more. */
export const BASE: Readonly<Record<string, string>> = {
  'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
  'options.yaml': 'knob:\n  title: Knob\n  values:\n    without: { title: Without }\n    with: { title: With }\n',
  'aircraft.csv': 'serial,registration,from,to,knob\n1,QQ-ONE,2020-01-01,,without\n2,QQ-TWO,2020-01-01,,with\n',
  'conditions.yaml': CONDITIONS,
};

export interface Small {
  readonly compiled: Compiled;
  /** Codes of all that was reported. */
  readonly codes: readonly string[];
}

/** Compiles what can be compiled, and gives all that was reported. */
export function judgeSmall(
  files: Readonly<Record<string, string>>,
  options: CompileOptions = {},
): { compiled: Compiled | undefined; found: readonly Diagnostic[] } {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(
    Object.entries({ ...BASE, ...files }).map(([path, text]) => ({ path, text })),
    diagnostics,
  );
  return { compiled: fleet && compileFleet(fleet, diagnostics, options), found: diagnostics.all };
}

/** Throws with all that was reported where nothing could be compiled. */
export function compileSmall(files: Readonly<Record<string, string>>): Small {
  const { compiled, found } = judgeSmall(files);
  if (!compiled) throw new Error(JSON.stringify(toJson(found), undefined, 1));
  return { compiled, codes: found.map(({ code }) => code) };
}
