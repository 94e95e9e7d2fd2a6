/** The explorer: what a reader's packed copy says of a case is what the book's own functions say, and every step has an address. */
import { brotliCompressSync } from 'node:zlib';
import { HtmlValidate } from 'html-validate';
import { afterAll, describe, expect, it } from 'vitest';
import {
  type CaseView,
  exploredFleet,
  type FollowedCase,
  followedCase,
  packComparison,
  packExplorer,
  readExplorer,
} from '../../src/book/index.ts';
import { caseHtml } from '../../src/components/case-html.ts';
import { chooser, random } from '../compile/random-numbers.ts';
import { compiledFolder } from '../helpers/compiled-folder.ts';
import { demoFolder, smallFleet } from '../helpers/content.ts';
import { PATIENCE, trials } from '../helpers/trials.ts';

const STEPS = trials({ short: 20, long: 400 });
/** The most that the data of the explorer may take, compressed, beside the words that it shares with comparing. */
const MOST_BYTES = 8_000;

/** What makes markup no valid HTML. */
async function faultsOf({ now, rest }: ReturnType<typeof caseHtml>): Promise<string[]> {
  const validator = new HtmlValidate({ extends: ['html-validate:recommended'], rules: { 'void-style': 'off' } });
  const html = `<main><h1>Explorer</h1>${now}${rest}</main>`;
  const { results } = await validator.validateString(html, 'case.html');
  return results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => `${ruleId}: ${message}`));
}

/** Every step that a case offers. */
function offered({ inputs, waits, open }: CaseView): string[] {
  return [
    ...inputs.flatMap(({ settings, letGo, barred }) => [
      ...settings.filter((setting) => !setting.barred && !setting.chosen).map(({ step }) => step),
      ...(letGo ? [letGo.step] : []),
      ...barred.flatMap(({ along }) => along?.step ?? []),
    ]),
    ...waits.map(({ step }) => step),
    ...open.flatMap(({ answers }) => answers.map(({ step }) => step)),
  ];
}

describe.each([
  ['the small fleet', smallFleet, { barred: 50, along: 20, held: 0, wait: 0, is: 0 }],
  ['the demo', demoFolder, { barred: 500, along: 100, held: 5, wait: 10, is: 5 }],
])('%s', (_, folder, LEAST) => {
  const compiled = compiledFolder(folder);
  const built = exploredFleet(compiled);
  const packed = packExplorer(built);
  const words = packComparison(compiled, 'all');
  const copy = JSON.parse(JSON.stringify([words, packed])) as [typeof words, typeof packed];
  const read = readExplorer(...copy);
  const day = compiled.fleet.book.date;
  const seen = { barred: 0, along: 0, held: 0, wait: 0, is: 0 };

  it.each(compiled.fleet.aircraft.map(({ serial }, at) => [serial, at] as const))(
    'is followed by a packed copy in the very same words, on %s',
    async (serial, at) => {
      const choose = chooser(random(7000 + at));
      let steps: string[] = [];
      for (let count = 0; count <= STEPS; count += 1) {
        const { view, followed } = followedCase(built, serial, day, steps) as FollowedCase;
        expect(followed, steps.join('/')).toBe(steps.length);
        expect(JSON.stringify(followedCase(read, serial, day, steps)?.view)).toBe(JSON.stringify(view));
        if (count % 10 === 0) expect(await faultsOf(caseHtml(view)), steps.join('/')).toEqual([]);
        // Each step has an address of its own, made of letters that an address holds as they are.
        const all = offered(view);
        for (const step of all) expect(step).toMatch(/^[\w.~=&-]+$/);
        seen.barred += view.inputs.flatMap(({ barred }) => barred).length;
        seen.along += view.inputs.flatMap(({ barred }) => barred.filter(({ along }) => along)).length;
        seen.held += view.inputs.filter(({ letGo }) => letGo).length;
        const timely = all.filter((step) => step.includes('~'));
        const step = choose.pick(timely.length > 0 && choose.chance(0.4) ? timely : all);
        if (step.startsWith('wait~')) seen.wait += 1;
        if (step.startsWith('is~')) seen.is += 1;
        const next = followedCase(built, serial, day, [...steps, step]) as FollowedCase;
        // What is offered can be done, but where it leaves more open than is followed.
        if (next.followed === steps.length && steps.length > 0) steps = steps.slice(0, -1);
        else steps = [...steps, step];
      }
    },
    PATIENCE,
  );

  it('begins where nothing is abnormal and nothing is open, and says what has been left', () => {
    for (const { serial } of compiled.fleet.aircraft) {
      const { view } = followedCase(built, serial, day, []) as FollowedCase;
      expect(view.last).toBeUndefined();
      expect(view.set).toEqual([]);
      for (const { normal, title } of compiled.fleet.conditions) {
        const input = view.inputs.find((each) => each.title.title === title);
        const chosen = input?.settings.find((setting) => setting.chosen);
        if (normal !== undefined) expect(chosen?.step).toMatch(new RegExp(`=${normal}$`));
      }
    }
  });

  it('leaves out what an address names that is not there, and all that follows', () => {
    const [aircraft] = compiled.fleet.aircraft;
    const { view } = followedCase(built, aircraft?.serial ?? '', day, []) as FollowedCase;
    const [first = '', second = ''] = view.inputs.flatMap(({ settings }) =>
      settings
        .filter((setting) => !setting.barred && !setting.chosen)
        .slice(0, 1)
        .map(({ step }) => step),
    );
    for (const damaged of [
      '',
      'x',
      'x=y',
      `${first}x`,
      `${first}&x=y`,
      'wait~x',
      'wait~x~y~z',
      'is~x~y',
      '~',
      '=',
      '&',
    ]) {
      const found = followedCase(built, aircraft?.serial ?? '', day, [first, damaged, second]);
      expect(found?.followed, damaged).toBe(1);
      expect(found?.view.set).toHaveLength(1);
    }
    expect(followedCase(built, 'nobody', day, [])).toBeUndefined();
  });

  it('is packed small enough to be loaded when it is asked for', () => {
    expect(brotliCompressSync(JSON.stringify(packed)).length).toBeLessThan(MOST_BYTES);
  });

  afterAll(() => {
    for (const [key, least] of Object.entries(LEAST))
      expect(seen[key as keyof typeof seen], key).toBeGreaterThanOrEqual(least);
  });
});
