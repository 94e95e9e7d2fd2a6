/** A book out of a few lines: four aircraft, one panel, and the definitions that a test is about. */
import { type Book, makeBook } from '../../src/book/index.ts';
import { type Compiled, compileFleet } from '../../src/compile/index.ts';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

export interface SmallBook {
  /** Entries under `items:`, indented by two. */
  readonly items: string;
  /** Entries of signals.yaml. */
  readonly signals?: string;
  /** Lines of aircraft.csv after the heading. */
  readonly aircraft?: string;
}

const FLEET = `1,QQ-ONE,2020-01-01,,without
2,QQ-TWO,2020-01-01,,with
3,QQ-TRE,2020-01-01,,with
4,QQ-FOR,2020-01-01,,with
`;
const PANEL = `panel: p
title: P
controls:
  sw:
    title: Lamp switch
    form: toggle
    positions: { OFF: {}, AUTO: { legend: A }, ON: {} }
  kn:
    title: Knob
    form: knob
    fitted: knob is with
    positions: { LOW: {}, HIGH: {} }
`;

/** Compiles the content, which must be sound, and makes the book of it. */
export function smallBook({ items, signals, aircraft = FLEET }: SmallBook): { book: Book; compiled: Compiled } {
  const files = {
    'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
    'options.yaml': 'knob:\n  title: Knob kit\n  values:\n    without: {}\n    with: {}\n',
    'aircraft.csv': `serial,registration,from,to,knob\n${aircraft}`,
    'conditions.yaml': `conditions:
  struts:
    title: Struts
    values: { down: { says: on the ground }, up: { says: in the air } }
  brake:
    title: Brake
    values: { set: { says: with the brake set }, released: { says: with the brake released } }
  slats:
    title: Slats
    values:
      in: { says: with the slats in }
      moving: { says: with the slats travelling }
      out: { says: with the slats out }
  bus:
    title: AC bus 2
    normal: powered
    values: { powered: { says: with AC bus 2 powered }, lost: { says: with AC bus 2 lost } }
  height:
    title: Height
    number: { unit: ft, from: -100, to: 20000, step: 0.5 }
`,
    'panels/p.yaml': `${PANEL}items:\n${items}`,
    ...(signals === undefined ? {} : { 'signals.yaml': signals }),
  };
  const diagnostics = new Diagnostics();
  const fleet = readFleet(
    Object.entries(files).map(([path, text]) => ({ path, text })),
    diagnostics,
  );
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (!compiled || diagnostics.all.length > 0) throw new Error(JSON.stringify(toJson(diagnostics.all)));
  return { book: makeBook(compiled), compiled };
}

/** A light of the lamp switch with the given rules, one a string. */
export function lamp(rules: readonly string[], more = ''): string {
  const lines = rules.map((rule) => `      - { ${rule} }\n`).join('');
  return `  lamp:\n    kind: light\n    title: Lamp\n    control: sw\n${more}    rules:\n${lines}`;
}
