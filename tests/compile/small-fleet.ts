/** Compiles a small fleet written in a test: what it doesn't give is taken from a plain base of two aircraft. */
import { type Compiled, compileFleet } from '../../src/compile/index.ts';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

const BASE: Readonly<Record<string, string>> = {
  'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
  'options.yaml': 'knob:\n  title: Knob\n  values:\n    without: { title: Without }\n    with: { title: With }\n',
  'aircraft.csv': 'serial,registration,from,to,knob\n1,QQ-ONE,2020-01-01,,without\n2,QQ-TWO,2020-01-01,,with\n',
  'conditions.yaml': `conditions:
  gear:
    title: Gear
    values: { down: { says: with the gear down }, up: { says: with the gear up } }
  bus:
    title: Bus
    normal: powered
    values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } }
  speed:
    title: Speed
    number: { unit: kt, from: 0, to: 20, step: 0.5 }
`,
};

export interface Small {
  readonly compiled: Compiled;
  /** Codes of all that was reported. */
  readonly codes: readonly string[];
}

/** Throws with all that was reported where nothing could be compiled. */
export function compileSmall(files: Readonly<Record<string, string>>): Small {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(
    Object.entries({ ...BASE, ...files }).map(([path, text]) => ({ path, text })),
    diagnostics,
  );
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (!compiled) throw new Error(JSON.stringify(toJson(diagnostics.all), undefined, 1));
  return { compiled, codes: diagnostics.all.map(({ code }) => code) };
}
