/** Holds what the pages of options say of one option alone to the rules: each other value against the baseline's. */
import { byClass, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { readEffectivity } from '../../helpers/effectivity-words.ts';
import type { Fit, Oracle } from '../../oracle/index.ts';
import { judgeAll } from './differences.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

type Options = Record<string, string>;

export function judgeOtherwise(pages: Pages, oracle: Oracle): string[] {
  const baseline = oracle.aircraft.find(({ serial }) => serial === oracle.content.book.baseline);
  if (!baseline) throw new Error('no baseline');
  return [...oracle.content.options.values()].flatMap(({ id, values }) => {
    const address = `options/${id}.html`;
    return attempt(address, () => {
      const sections = byClass(pages.page(address), 'otherwise');
      const own = baseline.fit.options[id] ?? '';
      const others = [...values].filter(([value]) => value !== own);
      const titles = sections.map((section) => textOf(byTag(section, 'h3')[0] as Element));
      const wanted = others.map(([, title]) => `${title} instead of ${values.get(own)}`);
      if (titles.join() !== wanted.join()) return [`compares ${titles.join()}, not ${wanted.join()}`];
      return sections.flatMap((section, at) => {
        const options = { ...baseline.fit.options, ...readAlong(section, oracle), [id]: others[at]?.[0] ?? '' };
        const fit = oracle.fits.find((each) => sameOptions(each.options, options));
        const here: Fit = fit ?? { id: Object.values(options).join('/'), options, registrations: [], holders: [] };
        const names = ['such an aircraft', baseline.registration] as const;
        const blocks = byClass(section, 'difference').map((element) => ({ element, names }));
        return [
          ...(isPermitted(oracle, here) ? [] : ['compares with what is not permitted']),
          ...judgeHolders(section, oracle, fit),
          ...judgeAll(blocks, oracle, [here, baseline.fit]),
        ].map((fault) => `${titles[at]}: ${fault}`);
      });
    });
  });
}

/** The other options that change, from the page: 'Belt sign control "Automatic" instead of "Manual"'. */
function readAlong(section: Element, { content }: Oracle): Options {
  const words = byClass(section, 'along').map(textOf).join();
  return Object.fromEntries(
    [...content.options].flatMap(([id, { title, values }]) =>
      [...values].flatMap(([value, name]) => (words.includes(`${title} "${name}" instead of`) ? [[id, value]] : [])),
    ),
  );
}

function sameOptions(a: Readonly<Options>, b: Readonly<Options>): boolean {
  return Object.keys(a).every((id) => a[id] === b[id]);
}

function isPermitted({ content, meaning }: Oracle, fit: Fit): boolean {
  return [...content.options].every(([id, { permitted }]) =>
    meaning.truths(permitted.get(fit.options[id] ?? '') ?? 'always', meaning.at(fit, {})).has(true),
  );
}

/** The aircraft that are fitted so, or that there is none. */
function judgeHolders(section: Element, oracle: Oracle, fit: Fit | undefined): string[] {
  const [line] = byClass(section, 'holds');
  if (!fit) return line ? ['names aircraft that are fitted so'] : [];
  if (!line) return ['names no aircraft that is fitted so'];
  const words = textOf(byTag(line, 'summary')[0] ?? line).replace(/^So fitted: /, '');
  const named = readEffectivity(oracle, words).map(({ registration }) => registration);
  const wanted = fit.holders.map(({ registration }) => registration);
  return named.toSorted().join() === wanted.toSorted().join() ? [] : [`names ${named}, not ${wanted}`];
}
