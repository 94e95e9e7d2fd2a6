/** Expressions in the words of sentences: articles, "not" and "or", thresholds, and nothing said twice. */
import { expect, it } from 'vitest';
import { seen } from './every-kind.ts';
import { lamp, smallBook } from './small-book.ts';

const LAMPS = '    lamps:\n      left: { title: left lamp }\n      right: { title: right lamp }\n';
const LAMP = lamp(['when: sw is ON, then: lit', 'when: sw is not ON, then: dark'], LAMPS);

/** What the page of the conditions says of signals that are defined so. */
function said(...expressions: readonly string[]): string[] {
  const signals = expressions.map((when, at) => `s${at}: { title: S${at}, when: '${when}' }\n`).join('');
  const more = 'named: { title: Named one, when: bus is lost, says: in the dark, says-not: not in the dark }\n';
  const { book } = smallBook({
    items: LAMP,
    signals: `${signals}${more}other: { title: Other one, when: bus is lost }\n`,
  });
  const page = book.pages.find((each) => each.kind === 'conditions');
  if (page?.kind !== 'conditions') throw new Error('the book has no page of conditions');
  return page.signals.slice(0, expressions.length).map(({ words }) => seen(words));
}

it('says conditions in the words of the author, and controls with the position that they are at', () => {
  expect(said('struts is down', 'sw is ON', 'brake is set and sw in (OFF, ON) and struts is up')).toEqual([
    '<on the ground>',
    'with the <lamp switch> at [ON]',
    '<in the air> with <the brake set> and the <lamp switch> at [OFF] or [ON]',
  ]);
});

it('says what is left where that is short, and "not" where it is not', () => {
  expect(said('struts is not up', 'slats is not in', 'sw is not ON', 'fitted(kn) and kn is not LOW')).toEqual([
    '<on the ground>',
    'with <the slats travelling or out>',
    'with the <lamp switch> not at [ON]',
    'with the <knob> fitted and the <knob> at [HIGH]',
  ]);
});

it('denies single facts, never a bracket', () => {
  expect(
    said('not (brake is set and sw is ON)', 'not (height > 100 ft or struts is up)', 'struts is up implies sw is ON'),
  ).toEqual([
    'with <the brake released>, or with the <lamp switch> not at [ON]',
    '<on the ground> with the <height> at 100 ft or below',
    '<on the ground>, or with the <lamp switch> at [ON]',
  ]);
});

it('puts a choice last, so that nothing could be taken for a part of it', () => {
  expect(said('(struts is up or sw is ON) and brake is set')).toEqual([
    'with <the brake set>, and either <in the air>, or with the <lamp switch> at [ON]',
  ]);
});

it('says the bounds of one number in one go', () => {
  expect(said('height > 100 ft and sw is ON and height <= 2500.5 ft', 'height = 0 ft')).toEqual([
    'with the <height> above 100 ft but at 2,500.5 ft or below and the <lamp switch> at [ON]',
    'with the <height> at 0 ft',
  ]);
});

it('does not say that something is fitted which stands at a position', () => {
  expect(said('fitted(kn) and kn is HIGH', 'fitted(kn)', 'not fitted(kn)', 'knob is with and struts is up')).toEqual([
    'with the <knob> at [HIGH]',
    'with the <knob> fitted',
    'without the <knob>',
    '<in the air> with the option <Knob kit> set to "with"',
  ]);
});

it('calls a lamp by the light that it belongs to, and counts lamps in words', () => {
  expect(said('lamp.left is failed', 'any lamp of lamp is lit', 'at least 2 lamps of lamp are failed')).toEqual([
    'with the left lamp of the <lamp> failed',
    'with any lamp of the <lamp> lit',
    'with at least two lamps of the <lamp> failed',
  ]);
});

it('calls a signal by its own words, or else by its title', () => {
  expect(said('named', 'not named and struts is up', 'other', 'not other')).toEqual([
    '<in the dark>',
    '<not in the dark> <in the air>',
    'while <Other one> holds',
    'while <Other one> does not hold',
  ]);
});
