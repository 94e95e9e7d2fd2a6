/** The order in which diagrams test variables: what it gains, and that nothing that is said depends on it. */
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeBook } from '../../src/book/index.ts';
import { readFolder } from '../../src/cli/read-folder.ts';
import { type Compiled, type CompileOptions, compileFleet, reportFindings } from '../../src/compile/index.ts';
import { Diagnostics, type SourceFile, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { projectFolder, smallFleet } from '../helpers/content.ts';
import { contents } from './random-contents.ts';
import { meanings } from './random-meaning.ts';
import { chooser, random } from './random-numbers.ts';
import { SCALE, scaleContent } from './scale-family.ts';

interface Run {
  readonly compiled: Compiled | undefined;
  readonly diagnostics: Diagnostics;
}

function run(files: readonly SourceFile[], options: CompileOptions = {}): Run {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(files, diagnostics);
  return { compiled: fleet && compileFleet(fleet, diagnostics, options), diagnostics };
}

function compiledBy(files: readonly SourceFile[], options: CompileOptions = {}): Compiled {
  const { compiled, diagnostics } = run(files, options);
  if (!compiled) throw new Error(JSON.stringify(toJson(diagnostics.all).slice(0, 3)));
  return compiled;
}

const asFiles = (files: Readonly<Record<string, string>>): SourceFile[] =>
  Object.entries(files).map(([path, text]) => ({ path, text }));

/** As things are declared. */
function declared({ space }: Pick<Compiled, 'space'>): number[] {
  return space.variables.map((_, level) => level);
}

/** Nodes in all, and of the largest set of cases that can happen. */
interface Sizes {
  readonly nodes: number;
  readonly care: number;
}

function sizes({ diagrams, possible }: Compiled): Sizes {
  return { nodes: diagrams.nodeCount, care: Math.max(...possible.map(({ whole }) => diagrams.size(whole))) };
}

/** Both orders, the declared one first. */
function compared(files: readonly SourceFile[]): Sizes[] {
  const chosen = compiledBy(files);
  return [sizes(compiledBy(files, { order: declared(chosen) })), sizes(chosen)];
}

const small = readFolder(smallFleet, 'small-fleet', new Diagnostics());

describe('the order that is found from the rules', () => {
  it('makes what can happen a thirtieth of the size, where many conditions exclude each other', () => {
    const files = asFiles(scaleContent({ ...SCALE, items: 200, aircraft: 12 }).files);
    const [before, after] = compared(files) as [Sizes, Sizes];
    expect(before.care).toBeGreaterThan(50_000);
    expect(after.care).toBeLessThan(2_000);
  });

  it('takes a tenth of the nodes or less for a content whose sequences wait for much', () => {
    const fleet = readFolder(join(projectFolder, 'content'), 'content', new Diagnostics());
    const chosen = compiledBy(fleet);
    const { diagnostics } = run(fleet, { order: declared(chosen), nodeLimit: 10 * chosen.diagrams.nodeCount });
    expect(diagnostics.all.map(({ code }) => code)).toContain('SL405');
  });

  it('keeps small what doubles with each pair in the declared order', () => {
    const sides = ['a', 'b'].flatMap((side) => Array.from({ length: 24 }, (_, at) => `${side}${at}`));
    const values = 'values: { x: { says: with it at x }, z: { says: with it at z } }';
    const pairs = Array.from({ length: 24 }, (_, at) => `  - a${at} is x and b${at} is x\n`);
    const files = asFiles({
      'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
      'options.yaml': 'grade: { title: Grade, values: { plain: {}, full: {} } }\n',
      'aircraft.csv': 'serial,registration,from,to,grade\n1,QQ-ONE,2020-01-01,,plain\n',
      'conditions.yaml': `conditions:\n${sides.map((id) => `  ${id}: { title: ${id}, ${values} }\n`).join('')}never:\n${pairs.join('')}`,
      'panels/p.yaml':
        'panel: p\ntitle: P\nitems: { lamp: { kind: light, title: Lamp, rules: [{ otherwise: dark }] } }\n',
    });
    const chosen = compiledBy(files);
    // Three of four cases of each pair: two nodes a pair, and the ends.
    expect(sizes(chosen).care).toBe(2 * 24 + 2);
    // Not that anybody asks for the whole: what is judged are the pairs, each by itself.
    const before = compiledBy(files, { order: declared(chosen), nodeLimit: 100_000 });
    expect(() => before.possible[0]?.whole).toThrow('more than 100000 nodes');
  });

  it('costs little where the declared order is good', () => {
    const [before, after] = compared(small) as [Sizes, Sizes];
    expect(after.nodes / before.nodes).toBeLessThan(1.5);
    const samples = fc.sample(meanings, { seed: 20261125, numRuns: 15 }).map(asFiles);
    const sums = [0, 0];
    for (const files of samples.filter((each) => run(each).compiled)) {
      compared(files).forEach(({ nodes }, at) => {
        sums[at] = (sums[at] ?? 0) + nodes;
      });
    }
    expect(sums[1]).toBeLessThan(1.3 * (sums[0] ?? 0));
  });
});

describe('nothing that is said', () => {
  /** All that a reader or an author is told. */
  function told(files: readonly SourceFile[], options: CompileOptions): string {
    const { compiled, diagnostics } = run(files, options);
    const book = compiled && diagnostics.all.length === 0 ? bookOf(compiled, diagnostics) : undefined;
    return JSON.stringify([toJson(diagnostics.all), book], undefined, 1);
  }

  function bookOf(compiled: Compiled, diagnostics: Diagnostics): unknown {
    reportFindings(compiled, diagnostics);
    // Packed diagrams are in the order of their own nodes; what is read out of them is what pages say (tests/book/comparison, tests/book/explorer).
    return { ...makeBook(compiled), comparison: undefined, explorer: undefined };
  }

  function shuffled(files: readonly SourceFile[], seed: number): readonly number[] | undefined {
    const { compiled } = run(files);
    const levels = compiled && declared(compiled);
    return levels && chooser(random(seed)).some(levels, levels.length);
  }

  it('of a small fleet depends on the order', () => {
    const usual = told(small, {});
    for (const seed of [1, 2]) expect(told(small, { order: shuffled(small, seed) as number[] })).toBe(usual);
  }, 60_000);

  it('of random contents depends on the order', () => {
    let books = 0;
    const samples = [meanings, contents].flatMap((each) => fc.sample(each, { seed: 7, numRuns: 12 })).map(asFiles);
    for (const [seed, files] of samples.entries()) {
      const order = shuffled(files, seed);
      if (!order) continue;
      const usual = told(files, {});
      expect(told(files, { order }), JSON.stringify(files, undefined, 1)).toBe(usual);
      if (usual.includes('"pages"')) books += 1;
    }
    expect(books).toBeGreaterThan(5);
  }, 120_000);
});
