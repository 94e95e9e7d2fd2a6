/** A small sound content folder made for these tests, and ways to change it. */
import { Diagnostics, type SourceFile } from '../../src/diagnostics/index.ts';
import { type Fleet, readFleet } from '../../src/model/index.ts';

export const SMALL: Readonly<Record<string, string>> = {
  'aircraft.csv': `serial,registration,from,to,lamp-control
101,QQ-OAA,2020-01-01,,manual
102,QQ-OAB,2021-01-01,,automatic
103,QQ-OAC,2015-01-01,2019-12-31,manual
`,
  'book.yaml': `operator: Quillmere Air
type: Ostrel 86
title: Small reference
revision: 1.10
date: 2026-10-01
baseline: 101
`,
  'claims.yaml': `- sentence: Without supply the lamp is dark.
  holds: bus is lost implies lamp is dark
`,
  'conditions.yaml': `conditions:
  bus:
    title: Bus
    normal: powered
    values:
      powered: { title: powered, says: with the bus powered }
      lost: { title: lost, says: with the bus lost }
  speed:
    title: Speed
    noun: the speed
    number: { unit: kt, from: 0, to: 400, step: 0.5 }
never:
  - bus is lost and speed > 300 kt
`,
  'notes/about/lamp.md': `---
title: About the lamp
about: [lamp]
---
At 12:30 the [](ref:switch) is in mode:auto.

:checked[Without supply it is dark.]{holds="bus is lost implies lamp is dark"}

::table{of="lamp" on="QQ-OAB"}
`,
  'options.yaml': `lamp-control:
  title: Lamp control
  values:
    manual: { title: Manual }
    automatic: { title: Automatic }
  source: { document: D-1, paragraph: 1.10 }
`,
  'panels/roof.yaml': `panel: roof
title: Roof
controls:
  switch:
    title: Switch
    form: toggle switch
    positions:
      "2": { legend: TWO }
      "1": {}
      AUTO: { fitted: lamp-control is automatic }
items:
  lamp:
    kind: light
    title: Lamp
    colour: white
    control: switch
    supply: [bus]
    rules:
      - { when: bus is lost, then: dark }
      - when: >-
          bus is powered and
          switch is 2
        then: lit
      - otherwise: dark
messages:
  lamp-on:
    title: Lamp on
    text: LAMP
    class: caution
    when: burning and speed > 100.5 kt
`,
  'signals.yaml': `burning:
  title: Burning
  when: lamp is lit
`,
  'sources.yaml': `D-1: { title: Data sheet 1, revision: C, date: 2026-05-11 }
`,
};

/** The files with some replaced, added, or (undefined) left out. */
export function filesOf(changes: Readonly<Record<string, string | undefined>> = {}): SourceFile[] {
  return Object.entries({ ...SMALL, ...changes })
    .flatMap(([path, text]) => (text === undefined ? [] : [{ path, text }]))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
}

export interface Reported {
  readonly code: string;
  /** The words that are underlined; absent where no file can be blamed. */
  readonly words: string | undefined;
}

export function read(files: readonly SourceFile[]): {
  readonly fleet: Fleet | undefined;
  readonly reported: Reported[];
} {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(files, diagnostics);
  const reported = diagnostics.all.map(({ code, place }) => ({
    code,
    words: place?.file.text.slice(place.start, place.end),
  }));
  return { fleet, reported };
}

/** Reads the small content after one replacement, which must find what it replaces. */
export function readAfter(path: string, from: string, to: string): Reported[] {
  const text = SMALL[path] ?? '';
  if (!text.includes(from)) throw new Error(`${path} has no ${JSON.stringify(from)}`);
  return read(filesOf({ [path]: text.replace(from, () => to) })).reported;
}
