/** The glossary and the index of the built demo, held to the content as the oracle reads it. */
import { describe, expect, inject, it } from 'vitest';
import { attribute, byClass, byId, byTag, type Element, textOf } from '../helpers/dom.ts';
import { loadOracle } from '../oracle/index.ts';
import { pagesIn } from './judges/pages.ts';

const { content } = loadOracle('content');
const pages = pagesIn(inject('demoSite'));
const linksIn = (part: Element): string[] => byTag(part, 'a').map((link) => attribute(link, 'href') ?? '');

describe('the glossary', () => {
  const page = pages.page('glossary.html');

  it('has every term with its meaning and its other words, from A to Z', () => {
    const shown = byClass(page, 'term').map((term) => textOf(byTag(term, 'h3')[0] as Element));
    const titles = [...content.glossary.values()].map(({ title }) => title);
    expect(titles.length).toBeGreaterThan(20);
    expect(shown).toEqual(titles.toSorted((a, b) => a.localeCompare(b, 'en')));
    for (const [id, { meaning, also, see }] of content.glossary) {
      const term = byId(page, `term-${id}`) as Element;
      expect(textOf(term)).toContain(meaning);
      for (const word of also) expect(textOf(term)).toContain(word);
      expect(linksIn(term), id).toHaveLength(see.length);
    }
  });
});

describe('the index', () => {
  const page = pages.page('index-of-terms.html');
  const words = new Set(
    byClass(page, 'terms')
      .flatMap((part) => byTag(part, 'li'))
      .flatMap((entry) => [
        ...byTag(entry, 'a').map(textOf),
        ...byTag(entry, 'p').map(textOf),
        ...byClass(entry, 'legend').map(textOf),
      ]),
  );

  it.each([
    ['controls', [...content.controls.values()].map(({ title }) => title)],
    ['lights, signs, annunciators, messages and supplies', [...content.items.values()].map(({ title }) => title)],
    ['conditions', [...content.conditions.values()].map(({ title }) => title)],
    ['options', [...content.options.values()].map(({ title }) => title)],
    ['sequences', [...content.sequences.values()].map(({ title }) => title)],
    ['terms and other words', [...content.glossary.values()].flatMap(({ title, also }) => [title, ...also])],
    [
      'legends and texts',
      [...content.items.values()].flatMap(({ legend, legends }) =>
        [legend ?? [], legends.map((each) => each.legend)].flat(),
      ),
    ],
    [
      'positions',
      [...content.controls.values()].flatMap(({ positions }) =>
        [...positions.values()].flatMap(({ legends }) => legends.map((each) => each.legend)),
      ),
    ],
  ])('has all %s', (_, wanted) => {
    expect(wanted.length).toBeGreaterThan(0);
    expect(wanted.filter((word) => !words.has(word))).toEqual([]);
  });
});
