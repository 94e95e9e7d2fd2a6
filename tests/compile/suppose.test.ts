/** Fits that no aircraft has: where one has them after all, supposing them must come to the same. */
import { describe, expect, it } from 'vitest';
import { readFolder } from '../../src/cli/read-folder.ts';
import { type Compiled, compileFleet, type Fit, fewestChanges, suppose } from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { constraintExpression, holdsOnFit, readFleet } from '../../src/model/index.ts';
import { smallFleet } from '../helpers/content.ts';
import { demoFleet } from '../helpers/demo-lights.ts';
import { judgeSmall } from './small-fleet.ts';

/** The small fleet, without the aircraft whose registrations end with one of the letters. */
function compiledWithout(letters = ''): Compiled {
  const diagnostics = new Diagnostics();
  const files = readFolder(smallFleet, 'content', diagnostics).map(({ path, text }) => ({
    path,
    text:
      path === 'aircraft.csv'
        ? text
            .split('\n')
            .filter((line) => !(letters !== '' && new RegExp(`QQ-OA[${letters}],`).test(line)))
            .join('\n')
        : text,
  }));
  const fleet = readFleet(files, diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (!compiled) throw new Error('the small fleet has errors');
  return compiled;
}

const fitOf = ({ fits }: Compiled, options: ReadonlyMap<string, string>): Fit | undefined =>
  fits.find((fit) => [...options].every(([id, value]) => fit.options.get(id) === value));

describe('A fit that is supposed', () => {
  it('has the forms of the very fit where aircraft have it', () => {
    const compiled = compiledWithout();
    expect(compiled.fits.length).toBeGreaterThan(5);
    for (const fit of compiled.fits) {
      const supposed = suppose(compiled, fit.options);
      expect(supposed?.unruled).toEqual([]);
      for (const { item, forms } of supposed?.compiled.behaviours ?? [])
        expect([item.id, forms.at(-1)]).toEqual([item.id, forms[fit.index]]);
    }
  });

  it('is like what it was before its only aircraft left', () => {
    const all = compiledWithout();
    const [alone] = all.fits.filter(({ aircraft }) => aircraft.length === 1 && aircraft[0]?.registration === 'QQ-OAH');
    const rest = compiledWithout('H');
    expect(fitOf(rest, (alone as Fit).options)).toBeUndefined();
    const supposed = suppose(rest, (alone as Fit).options);
    const other = rest.fits[0] as Fit;
    const before = all.fits[0] as Fit;
    expect(before.options).toEqual(other.options);
    // Whether an item differs from the baseline must not hang on whether somebody flies the aircraft.
    const differing = (behaviours: Compiled['behaviours'], at: number): string[] =>
      behaviours.flatMap(({ item, attribute, forms }) =>
        forms[at] === forms[0] ? [] : [`${item.id} ${attribute.id}`],
      );
    const found = differing(supposed?.compiled.behaviours ?? [], supposed?.fit.index ?? -1);
    expect(found).toEqual(differing(all.behaviours, (alone as Fit).index));
    expect(found.length).toBeGreaterThan(3);
  });

  it('names the items whose rules were not written for it, and only these', () => {
    const { compiled } = judgeSmall({
      'aircraft.csv': 'serial,registration,from,to,knob\n1,QQ-ONE,2020-01-01,,without\n',
      'panels/p.yaml': `panel: p
title: P
items:
  gap: { kind: light, title: Gap, rules: [{ when: gear is down, then: lit }, { when: gear is up and knob is without, then: dark }] }
  clash: { kind: light, title: Clash, rules: [{ when: knob is with or gear is up, then: lit }, { when: gear is down, then: dark }] }
  sound: { kind: light, title: Sound, rules: [{ when: knob is with, then: lit }, { otherwise: dark }] }
`,
    });
    const supposed = compiled && suppose(compiled, new Map([['knob', 'with']]));
    expect(supposed?.unruled.map(({ id }) => id)).toEqual(['gap', 'clash']);
  });

  it('is none where a control would have no position, or where rules read what it lacks', () => {
    const panel = (items: string, fitted: string): string => `panel: p
title: P
controls:
  sw: { title: Switch, form: toggle, fitted: knob is without, positions: { OFF: {}, ON: {} } }
  kn: { title: Other, form: toggle, positions: { LOW: { fitted: ${fitted} }, HIGH: { fitted: knob is without } } }
items:
  lamp: { kind: light, title: Lamp, rules: [{ when: ${items}, then: lit }, { otherwise: dark }] }
`;
    const csv = 'serial,registration,from,to,knob\n1,QQ-ONE,2020-01-01,,without\n';
    const supposing = (items: string, fitted: string): unknown => {
      const { compiled } = judgeSmall({ 'aircraft.csv': csv, 'panels/p.yaml': panel(items, fitted) });
      if (!compiled) throw new Error('the content has errors');
      return suppose(compiled, new Map([['knob', 'with']]));
    };
    expect(supposing('gear is down', 'knob is with')).toBeDefined();
    expect(supposing('gear is down', 'knob is without')).toBeUndefined();
    expect(supposing('sw is ON', 'knob is with')).toBeUndefined();
  });
});

describe('What must change with an option', () => {
  it('is as little as all ways to fit an aircraft allow', () => {
    const fleet = demoFleet();
    const permitted = fleet.constraints.map(constraintExpression);
    const every = fleet.options
      .reduce<Map<string, string>[]>(
        (fits, { id, values }) => fits.flatMap((fit) => values.map((value) => new Map(fit).set(id, value.id))),
        [new Map()],
      )
      .filter((fit) => permitted.every((each) => holdsOnFit(each, fit) === true));
    const base = fleet.aircraft.find(({ serial }) => serial === fleet.book.baseline)?.fit ?? new Map<string, string>();
    const changes = (fit: ReadonlyMap<string, string>): number =>
      fleet.options.filter(({ id }) => fit.get(id) !== base.get(id)).length;
    const counts = fleet.options.flatMap(({ id, values }) =>
      values.map((value) => {
        const found = fewestChanges(fleet, base, id, value.id);
        const ways = every.filter((fit) => fit.get(id) === value.id).map(changes);
        expect(found?.get(id)).toBe(value.id);
        expect(every.some((fit) => [...fit].every(([option, one]) => found?.get(option) === one))).toBe(true);
        expect(changes(found ?? new Map())).toBe(Math.min(...ways));
        return Math.min(...ways);
      }),
    );
    // Some change alone, some with one or two others.
    expect([...new Set(counts)].toSorted()).toEqual([0, 1, 2, 3]);
  });
});
