/** What a control's page says of its positions, against sentences written by hand. */
import { describe, expect, it } from 'vitest';
import type { Inline } from '../../src/book/index.ts';
import { lamp, type SmallBook, smallBook } from './small-book.ts';

/** Legends in square brackets, as a reader sees their frames. */
const seen = (words: readonly Inline[]): string =>
  words.map(({ kind, text }) => (kind === 'legend' ? `[${text}]` : text)).join('');

/** The sentences of a control, by group of aircraft and position. */
function sentences(content: SmallBook, control = 'sw'): Record<string, Record<string, string>> {
  const page = smallBook(content).book.pages.find((each) => each.kind === 'control' && each.id === control);
  if (page?.kind !== 'control') throw new Error('no such control');
  return Object.fromEntries(
    page.sentences.map(({ effectivity, positions }) => [
      effectivity.text,
      Object.fromEntries(positions.map(({ legend, says }) => [legend, says.map(seen).join(' ')])),
    ]),
  );
}
/** The sentence for AUTO, whose legend is A, under rules that decide it. */
const auto = (rules: readonly string[], more?: string): string | undefined =>
  sentences({ items: lamp(['when: sw is not AUTO, then: dark', ...rules], more) })['the whole fleet']?.['A'];

describe('the sentence of a position', () => {
  it('says one state flatly', () => {
    const items = lamp(['when: sw is ON, then: lit', 'otherwise: dark']);
    expect(sentences({ items })).toEqual({
      'the whole fleet': { OFF: 'The lamp is dark.', A: 'The lamp is dark.', ON: 'The lamp is lit.' },
    });
  });

  it('sets two phrases side by side where they begin differently, and joins them by "and" where not', () => {
    expect(auto(['when: sw is AUTO and struts are down and brake is set, then: lit', 'otherwise: dark'])).toBe(
      'The lamp is lit on the ground with the brake set; otherwise it is dark.',
    );
    expect(auto(['when: sw is AUTO and brake is set and slats are out, then: lit', 'otherwise: dark'])).toBe(
      'The lamp is lit with the brake set and the slats out; otherwise it is dark.',
    );
  });

  it('says first what needs no "with", and "with" once', () => {
    const when = 'sw is AUTO and struts are down and brake is set and slats are out';
    expect(auto([`when: ${when}, then: lit`, 'otherwise: dark'])).toBe(
      'The lamp is lit on the ground with the brake set and the slats out; otherwise it is dark.',
    );
    const ordered = 'sw is AUTO and brake is set and struts are down and slats are out and height > 50 ft';
    expect(auto([`when: ${ordered}, then: lit`, 'otherwise: dark'])).toBe(
      'The lamp is lit on the ground with the brake set, the slats out and the height above 50 ft; otherwise it is dark.',
    );
  });

  it('says the start that two values share once', () => {
    expect(auto(['when: sw is AUTO and slats are not in, then: lit', 'otherwise: dark'])).toBe(
      'The lamp is dark with the slats in; otherwise it is lit.',
    );
    const three = ['when: sw is AUTO and slats are not in and struts are up, then: lit', 'otherwise: dark'];
    expect(auto(three)).toBe('The lamp is lit in the air with the slats travelling or out; otherwise it is dark.');
  });

  it('leaves to "otherwise" what takes most words to say', () => {
    const either = ['when: sw is AUTO and (struts are up or brake is set), then: dark', 'otherwise: lit'];
    expect(auto(['when: sw is AUTO and (struts are up or brake is set), then: lit', 'otherwise: dark'])).toBe(
      'The lamp is dark on the ground with the brake released; otherwise it is lit.',
    );
    expect(sentences({ items: lamp(either) })['the whole fleet']?.['A']).toBe(
      'The lamp is lit on the ground with the brake released; otherwise it is dark.',
    );
  });

  it('joins alternatives by "or", and further states by a semicolon', () => {
    const more =
      '    states: { dark: {}, dim: {}, lit: {} }\n    policy: first\n    plural: true\n    noun: the lamps\n';
    expect(
      auto(
        [
          'when: struts are down and brake is set, then: lit',
          'when: struts are up and slats are in, then: dim',
          'otherwise: dark',
        ],
        more,
      ),
    ).toBe(
      'The lamps are lit on the ground with the brake set; they are dim in the air with the slats in; otherwise they are dark.',
    );
  });

  it('says short alternatives first', () => {
    const when = 'sw is AUTO and (slats are out or (struts are up and brake is set))';
    expect(auto([`when: ${when}, then: lit`, 'otherwise: dark'])).toBe(
      'The lamp is lit with the slats out, or in the air with the brake set; otherwise it is dark.',
    );
  });

  it('lets alternatives overlap, and says a value once where one of them has it anyway', () => {
    const when = 'sw is AUTO and ((struts are up and slats are out) or (struts are down and slats are not in))';
    expect(auto([`when: ${when}, then: lit`, 'otherwise: dark'])).toBe(
      'The lamp is lit with the slats out, or on the ground with the slats travelling; otherwise it is dark.',
    );
  });

  it('says the fewest alternatives: none that the others make up for', () => {
    const when =
      'sw is AUTO and ((struts are up and brake is set) or (struts are down and slats are out) or (brake is set and slats are out))';
    expect(auto([`when: ${when}, then: lit`, 'otherwise: dark'])).toBe(
      'The lamp is lit on the ground with the slats out, or in the air with the brake set; otherwise it is dark.',
    );
  });

  it('speaks of normal cases only', () => {
    expect(auto(['when: sw is AUTO and bus is lost, then: dark', 'otherwise: lit'])).toBe('The lamp is lit.');
  });

  it('says numbers in the words of the table, with thousands set apart', () => {
    expect(auto(['when: sw is AUTO and height > 10000 ft, then: lit', 'otherwise: dark'])).toMatch(
      /^The lamp is (lit with the height above 10,000 ft|dark with the height at 10,000 ft or below); otherwise/,
    );
    expect(auto(['when: sw is AUTO and height > 50.5 ft and height <= 1500 ft, then: lit', 'otherwise: dark'])).toBe(
      'The lamp is lit with the height above 50.5 ft but not above 1,500 ft; otherwise it is dark.',
    );
    expect(auto(['when: sw is AUTO and height >= 50 ft and height < 1500 ft, then: lit', 'otherwise: dark'])).toBe(
      'The lamp is lit with the height from 50 ft but below 1,500 ft; otherwise it is dark.',
    );
    expect(auto(['when: sw is AUTO and height >= 50 ft and height <= 1500 ft, then: lit', 'otherwise: dark'])).toBe(
      'The lamp is lit with the height from 50 ft to 1,500 ft; otherwise it is dark.',
    );
    expect(auto(['when: sw is AUTO and height = -100 ft, then: lit', 'otherwise: dark'])).toMatch(/-100 ft/);
  });

  it('names another control by its legend, and its absence', () => {
    const items = lamp(['when: sw is ON and fitted(kn) and kn is HIGH, then: lit', 'otherwise: dark']);
    const said = sentences({ items });
    expect(said['QQ-TWO to QQ-FOR, 3 aircraft']?.['ON']).toBe(
      'The lamp is lit with the knob at [HIGH]; otherwise it is dark.',
    );
    expect(said['QQ-ONE']).toEqual({ OFF: 'The lamp is dark.', A: 'The lamp is dark.', ON: 'The lamp is dark.' });
  });
});

describe('the aircraft that something holds for', () => {
  const groups = (aircraft: string): string[] =>
    Object.keys(
      sentences({ aircraft, items: lamp(['when: sw is ON and knob is with, then: lit', 'otherwise: dark']) }),
    );

  it('are a run from three that follow each other, and counted from two', () => {
    expect(groups('1,QQ-A,2020-01-01,,with\n2,QQ-B,2020-01-01,,with\n')).toEqual(['the whole fleet']);
    const rows = ['with', 'with', 'with', 'without', 'with', 'without'];
    const fleet = rows.map((knob, at) => `${at + 1},QQ-${'ABCDEF'[at]},2020-01-01,,${knob}\n`).join('');
    expect(groups(fleet)).toEqual(['QQ-A to QQ-C and QQ-E, 4 aircraft', 'QQ-D and QQ-F, 2 aircraft']);
  });
});
