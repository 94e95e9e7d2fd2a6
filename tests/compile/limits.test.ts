/** Contents that are too large to work out: what is said of them, and that the rest is judged all the same. */
import { describe, expect, it } from 'vitest';
import { type Compiled, type CompileOptions, compileFleet, reportFindings } from '../../src/compile/index.ts';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

/** Conditions in pairs, all first ones declared before all second ones. */
const PAIRS = 24;
const numbers = Array.from({ length: PAIRS }, (_, at) => at + 1);
const alike = numbers.map((at) => `((a${at} is x and b${at} is x) or (a${at} is z and b${at} is z))`).join(' and ');
const condition = (id: string): string =>
  `  ${id}: { title: ${id}, values: { x: { says: with ${id} at x }, z: { says: with ${id} at z } } }\n`;

const BASE: Readonly<Record<string, string>> = {
  'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
  'options.yaml': 'grade: { title: Grade, values: { plain: {}, full: {} } }\n',
  'aircraft.csv': 'serial,registration,from,to,grade\n1,QQ-ONE,2020-01-01,,plain\n2,QQ-TWO,2020-01-01,,full\n',
  'conditions.yaml': `conditions:\n${['a', 'b'].flatMap((side) => numbers.map((at) => condition(`${side}${at}`))).join('')}`,
};

const light = (id: string, when: string): string =>
  `  ${id}: { kind: light, title: ${id}, rules: [{ when: "${when}", then: lit }, { otherwise: dark }] }\n`;
const panel = (...lights: readonly string[]): Readonly<Record<string, string>> => ({
  'panels/p.yaml': `panel: p\ntitle: P\nitems:\n${lights.join('')}`,
});

type Said = ReturnType<typeof toJson>[number];

interface Judged {
  readonly compiled: Compiled | undefined;
  readonly found: readonly Said[];
}

/** Nothing is moved together: the order is the one in which things are declared. */
function judge(files: Readonly<Record<string, string>>, options: CompileOptions = {}): Judged {
  const diagnostics = new Diagnostics();
  const all = { ...BASE, ...files };
  const fleet = readFleet(
    Object.entries(all).map(([path, text]) => ({ path, text })),
    diagnostics,
  );
  if (!fleet) throw new Error(JSON.stringify(toJson(diagnostics.all)));
  const order = Array.from({ length: 1 + 2 * PAIRS }, (_, level) => level);
  const compiled = compileFleet(fleet, diagnostics, { order, ...options });
  return { compiled, found: toJson(diagnostics.all) };
}

const codes = ({ found }: Judged): readonly string[] => found.map(({ code }) => code);

describe('an item too large to work out', () => {
  const judged = judge(panel(light('first', 'a1 is x'), light('large', alike), light('gap', 'a2 is x')));

  it('is reported with its name and what it reads', () => {
    expect(codes(judged)).toEqual(['SL405']);
    const [found] = judged.found;
    expect(found?.message).toContain(
      'The rules of large need more than 1,000,000 nodes. They read a1, b1, a2, b2, a3,',
    );
    expect(found?.file).toBe('panels/p.yaml');
  });

  it('keeps no other from being judged', () => {
    const alone = judge(panel(light('first', 'a1 is x'), light('gap', 'a2 is x')));
    const tables = ({ compiled }: Judged): unknown =>
      compiled?.behaviours
        .filter(({ item }) => item.id !== 'large')
        .map(({ item, own, groups }) => [
          item.id,
          own,
          groups.map(({ aircraft }) => aircraft.map(({ serial }) => serial)),
        ]);
    expect(tables(judged)).toEqual(tables(alone));
    const policy = light('wrong', 'a1 is x').replace('{ otherwise: dark }', '{ when: "a1 is not z", then: dark }');
    expect(codes(judge(panel(light('large', alike), policy))).toSorted()).toEqual(['SL401', 'SL402', 'SL405']);
  });

  it('is the same content that a better order works out', () => {
    const order = [0, ...numbers.flatMap((at) => [at, PAIRS + at])];
    const better = judge(panel(light('large', alike)), { order });
    expect(codes(better)).toEqual([]);
    expect(better.compiled?.diagrams.nodeCount).toBeLessThan(2000);
  });

  it('ends the whole where nothing is left of it', () => {
    const whole = judge(panel(light('large', alike), light('next', 'a1 is x')), { nodeLimit: 50_000 });
    expect(whole.compiled).toBeUndefined();
    expect(codes(whole)).toEqual(['SL405']);
    expect(whole.found[0]?.message).toContain(
      'All rules together need more than 50,000 nodes. The work ended with large',
    );
  });

  it('is found by its steps where it makes few nodes, and by the clock', () => {
    const steps = judge(panel(light('large', alike)), { stepLimit: 50_000 });
    expect(steps.found[0]?.message).toContain(
      'All rules together need more than 50,000 steps. The work ended with large',
    );
    let looks = 0;
    const slow = judge(panel(light('large', alike)), { timeLimit: { seconds: 2, now: () => 1000 * looks++ } });
    expect(slow.found[0]?.message).toContain('All rules together need more than 2 seconds. The work ended with large');
    expect(looks).toBe(4);
  });
});

describe('what stands outside of items', () => {
  it('is reported where it is: a claim, by itself', () => {
    const claims = `- { sentence: One., holds: "${alike} implies first is dark" }\n- { sentence: Two., holds: first is lit }\n`;
    const judged = judge({ ...panel(light('first', 'a1 is x')), 'claims.yaml': claims });
    expect(codes(judged)).toEqual(['SL415', 'SL406']);
    expect(judged.found[0]?.message).toContain('"One." needs more than 1,000,000 nodes. It reads a1, b1, a2,');
  });

  it('is reported where it is: what never happens', () => {
    const never = `${BASE['conditions.yaml']}never: ["${alike}"]\n`;
    const judged = judge({ ...panel(light('first', 'a1 is x')), 'conditions.yaml': never });
    expect(codes(judged)).toEqual(['SL408']);
    expect(judged.found[0]?.message).toBe(
      'The conditions and what never happens together need more than 2,000,000 nodes.',
    );
  });

  it('is reported where it is: the search for what never matters', () => {
    const first = light('lamp', 'a1 is x').replace(
      ', rules: [',
      ', policy: first, rules: [{ when: a2 is x, then: lit }, ',
    );
    const { compiled } = judge(panel(first));
    if (!compiled) throw new Error('nothing was compiled');
    const tight = judge(panel(first), { nodeLimit: compiled.diagrams.nodeCount });
    if (!tight.compiled) throw new Error('nothing was compiled');
    const [wide, narrow] = [compiled, tight.compiled].map((each) => {
      const diagnostics = new Diagnostics();
      reportFindings(each, diagnostics);
      return toJson(diagnostics.all).filter(({ code }) => code === 'SL408');
    });
    expect(wide).toEqual([]);
    expect(narrow?.[0]?.message).toContain('to look for what never matters in them needs more than');
  });
});
