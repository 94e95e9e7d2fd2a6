/** A small content whose fleet has several fits, unknown options, a device and dated changes. */
import type { SourceFile } from '../../src/diagnostics/index.ts';

export const FITS: Readonly<Record<string, string>> = {
  'aircraft.csv': `serial,registration,from,to,kind,mount,motor
101,QQ-OAA,2020-01-01,,,high,none
102,QQ-OAB,2021-01-01,2030-12-31,aircraft,low,single
103,QQ-OAC,2015-01-01,2019-12-31,,low,none
104,FTD-1,2018-05-01,,device,unknown,twin
`,
  'book.yaml': `operator: Quillmere Air
type: Ostrel 86
title: Small reference
revision: "2"
date: 2026-10-01
baseline: "101"
`,
  'conditions.yaml': `conditions:
  bus:
    title: Bus
    values:
      powered: { title: powered, says: with the bus powered }
      lost: { title: lost, says: with the bus lost }
`,
  'modifications.csv': `serial,option,value,date,document
101,motor,twin,2026-12-01,SB-12
101,mount,low,2026-12-01,SB-12
101,registration,QQ-OAX,2026-11-01,
102,mount,unknown,2022-03-01,
103,registration,QQ-OAA,2015-01-01,
104,mount,low,2026-10-01,
`,
  'options.yaml': `mount:
  title: Mount
  formerly: [fixing]
  values:
    high: { excludes: motor is twin }
    low: { formerly: [lower] }
motor:
  title: Motor
  values:
    none: {}
    single: {}
    twin: { requires: mount is low }
`,
  'panels/roof.yaml': `panel: roof
title: Roof
formerly: [ceiling]
places:
  corner: { title: Corner }
controls:
  switch:
    title: Switch
    form: toggle switch
    fitted: mount is low
    place: corner
    formerly: [toggle]
    positions:
      "OFF": { legends: [{ when: motor is twin, legend: "0" }, { when: motor is single, legend: OUT }] }
      "ON": { formerly: [RUN] }
  knob:
    title: Knob
    form: rotary knob
    fitted: mount is high
    place: corner
    guarded: true
    counterpart: switch
    positions:
      0: { as: OFF }
      1: { as: ON }
      TEST: { returns: 0 }
items:
  lamp:
    kind: light
    title: Lamp
    rules:
      - { when: bus is lost, then: dark }
      - { when: bus is powered, then: lit }
`,
  'sources.yaml': `SB-12: { title: Service bulletin 12, revision: A }
`,
};

/** The files after replacements, each of which must find what it replaces exactly once. */
export function edited(...edits: readonly (readonly [path: string, from: string, to: string])[]): SourceFile[] {
  const files = new Map(Object.entries(FITS));
  for (const [path, from, to] of edits) {
    const text = files.get(path) ?? '';
    if (text.split(from).length !== 2) throw new Error(`${JSON.stringify(from)} does not stand once in ${path}`);
    files.set(
      path,
      text.replace(from, () => to),
    );
  }
  return [...files].map(([path, text]) => ({ path, text }));
}
