/** Practice sheets: the same for the same seed, and every question judged by the interpreter of the authors' files. */
import { describe, expect, inject, it } from 'vitest';
import type { AskedState, PracticeQuestion } from '../../../src/book/index.ts';
import { practicePages } from '../../../src/book/pages/practice.ts';
import { Random, xorshift } from '../../../src/book/practice/random.ts';
import { practiceSheet } from '../../../src/book/practice/sheet.ts';
import { readFolder } from '../../../src/cli/read-folder.ts';
import { compileFleet } from '../../../src/compile/index.ts';
import { Diagnostics } from '../../../src/diagnostics/index.ts';
import { PRACTICE_KINDS, readFleet } from '../../../src/model/index.ts';
import { demoFolder } from '../../helpers/content.ts';
import { isLong, PATIENCE, SEEDS } from '../../helpers/trials.ts';
import { loadOracle } from '../../oracle/index.ts';
import { changed, pagesIn } from '../../site/judges/pages.ts';
import { judgePractice } from '../../site/judges/practice.ts';
import { PracticeJudge } from './judge.ts';

const fleet = readFleet(readFolder(demoFolder, 'content', new Diagnostics()), new Diagnostics());
const compiled = fleet && compileFleet(fleet, new Diagnostics());
if (!fleet || !compiled) throw new Error('the demo is not sound');
const set = { kinds: PRACTICE_KINDS, questions: 10, panels: fleet.panels.map(({ id }) => id) };
const sheet = (seed: number) => practiceSheet(compiled, set, fleet.aircraft, 1, seed);
const judge = new PracticeJudge(loadOracle(demoFolder));
const wordsOf = ({ setting, words, options }: PracticeQuestion): string =>
  [...setting, ...words, ...options.flatMap((option) => option.words)].map(({ text }) => text).join('');

describe('the draws', () => {
  it('follow the published generator', () => {
    // The first numbers from the start value of Marsaglia's paper (see random.ts), from memory.
    const first = xorshift(2463534242);
    expect([first, xorshift(first)]).toEqual([723471715, 2497366906]);
  });

  it('put a list into each of its orders about as often', () => {
    const random = new Random(7);
    const counts = new Map<string, number>();
    for (let draw = 0; draw < 6_000; draw += 1) {
      const order = random.shuffled('abc'.split('')).join('');
      counts.set(order, (counts.get(order) ?? 0) + 1);
    }
    expect(counts.size).toBe(6);
    // Five standard deviations of a binomial count, the square root of 6000 * 1/6 * 5/6.
    for (const count of counts.values()) expect(Math.abs(count - 1_000)).toBeLessThan(145);
  });
});

describe('a practice sheet', () => {
  const sheets = Array.from({ length: SEEDS }, (_, seed) => sheet(seed));
  const questions = sheets.flatMap((each) => each.questions);

  it('is the same for the same seed, and another for another', () => {
    expect(sheet(1)).toEqual(sheets[1]);
    expect(sheets[2]?.questions.map(wordsOf)).not.toEqual(sheets[1]?.questions.map(wordsOf));
  });

  it('has as many questions as were asked for, of every kind, and none twice', () => {
    for (const one of sheets) {
      expect(one.questions).toHaveLength(10);
      expect(new Set(one.questions.map(({ kind }) => kind)).size).toBe(PRACTICE_KINDS.length);
      expect(new Set(one.questions.map(wordsOf)).size).toBe(10);
    }
  });

  it('puts the right answer at every letter', () => {
    expect([...new Set(questions.map(({ right }) => right))].sort()).toEqual(
      expect.arrayContaining(['A', 'B', 'C', 'D']),
    );
  });

  it('asks nothing but what has one right answer, with the others wrong, in a case that its stage makes plausible', {
    timeout: PATIENCE,
  }, () => {
    const found = questions.flatMap((question) =>
      judge.faults(question).map((fault) => `${wordsOf(question)}: ${fault}`),
    );
    expect(found).toEqual([]);
  });

  it.runIf(isLong)('has "dark" as the right answer no more often than as one of the answers', () => {
    const isDark = ({ words }: PracticeQuestion['options'][number]): boolean =>
      /^(Both|They|It) (are|is) dark\.$/.test(words.map(({ text }) => text).join(''));
    const dark = questions.filter(({ kind, options }) => kind === 'state' && options.some(isDark));
    const isRight = dark.filter(({ right, options }) => options.some((one) => one.letter === right && isDark(one)));
    const share = dark.reduce((sum, { options }) => sum + 1 / options.length, 0);
    // Three standard deviations of a count of so many draws, at most.
    expect(isRight.length).toBeLessThan(share + 3 * Math.sqrt(share));
  });

  it('is judged to miss by little: an answer that nothing near makes right is noticed', () => {
    const [question] = questions.filter(({ kind, asked }) => kind === 'state' && asked.options[0]?.states.length === 1);
    const [position] = questions.filter(({ kind }) => kind === 'position');
    if (!question || !position) throw new Error('there are no such questions');
    const withWrong = (one: PracticeQuestion, change: (state: AskedState) => AskedState): PracticeQuestion => {
      const wrong = one.options.findIndex(({ letter }) => letter !== one.right);
      const options = one.asked.options.map((each, at) =>
        at === wrong ? { ...each, states: each.states.map(change) } : each,
      );
      return { ...one, asked: { ...one.asked, options } };
    };
    const far = [
      withWrong(question, (state) => ({ ...state, states: ['no such state'] })),
      withWrong(position, (state) => ({ ...state, but: { of: state.but?.of ?? '', value: 'no such position' } })),
    ];
    for (const one of far) expect(judge.faults(one).join()).toContain('far from right');
  });

  it('is judged: another key, a fact left out and a fact that the stage does not have are noticed', () => {
    const [question] = questions.filter(({ kind }) => kind === 'message');
    const other = question?.options.find(({ letter }) => letter !== question.right)?.letter ?? '';
    const [about] = question?.asked.facts ?? [];
    if (!question || !about) throw new Error('there is no such question');
    expect(judge.faults({ ...question, right: other })).toHaveLength(2);
    const without = { ...question, asked: { ...question.asked, facts: [{ ...about, facts: [] }] } };
    expect(judge.faults(without).length).toBeGreaterThan(0);
    const { changed: _, ...asked } = question.asked;
    expect(judge.faults({ ...question, asked }).length).toBeGreaterThan(0);
  });
});

describe('the built pages', () => {
  const [, ...sets] = practicePages(compiled);
  const pages = pagesIn(inject('demoSite'));

  it('have every question with its answers, and the key', () => {
    expect(judgePractice(pages, sets)).toEqual([]);
  });

  it('are not believed with a letter of the key or a word of an answer changed', () => {
    const [{ address } = { address: '' }] = sets;
    const letter = (html: string) =>
      html.replace(
        /(class="key".*?class="letter"[^>]*>)([A-D])/s,
        (_, before, it) => `${before}${it === 'A' ? 'B' : 'A'}`,
      );
    const answer = (html: string) => html.replace(/(class="answers".*?)\blit\b/s, '$1dark');
    for (const change of [letter, answer]) expect(judgePractice(changed(pages, address, change), sets)).toHaveLength(1);
  });
});
