/** What no sentence of a built page may read like: marks of words that a program put together without looking. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { type Element, findAll, readPage } from '../helpers/dom.ts';

/** Elements that hold one run of words. */
const RUNS = new Set([
  'p',
  'li',
  'dt',
  'dd',
  'td',
  'th',
  'caption',
  'h1',
  'h2',
  'h3',
  'h4',
  'h5',
  'summary',
  'figcaption',
]);
/** Elements within a run that begin a run of their own, or say nothing to a reader. */
const APART = new Set([
  ...RUNS,
  'ul',
  'ol',
  'dl',
  'table',
  'svg',
  'pre',
  'div',
  'details',
  'section',
  'script',
  'style',
]);

/** Classes of what stands on a line of its own within a run: the letter of an answer, a line of a sheet's cell, the aircraft there. */
const LINES = new Set(['letter', 'line', 'for']);

/** The words of an element without those that stand apart in it, white space folded. Legends stand in brackets. */
function words(element: Element): string {
  const collect = (node: Element['childNodes'][number]): string => {
    if ('value' in node) return node.value;
    if (!('tagName' in node) || APART.has(node.tagName)) return '\u0000';
    const inner = node.childNodes.map(collect).join('');
    const classes = node.attrs.find(({ name }) => name === 'class')?.value.split(' ') ?? [];
    if (classes.includes('legend')) return `[${inner}]`;
    return classes.some((each) => LINES.has(each)) ? `\u0000${inner}\u0000` : inner;
  };
  return element.childNodes.map(collect).join('').replace(/\s+/g, ' ').trim();
}

const FAULTS: readonly (readonly [string, RegExp])[] = [
  // "that that" and "had had" can be right; nothing here says them.
  ['a word twice', /(?<![-\w])([a-z]{2,}) \1(?![-\w])/i],
  ['"a" before a vowel', /(?<![-\w])a (?:[aeio]|u(?!n[ai]|s[eu]|ti))[a-z]+/i],
  ['"an" before a consonant', /(?<![-\w])an (?:[bcdfgjklmnpqrstvwxyz]|h(?!o(?:ur|nest)))[a-z]+/],
  ['two articles', /(?<![-\w])(?:the|an?) (?:the|an?)(?![-\w])/i],
  ['two verbs', /(?<![-\w])(?:is are|are is|is is|was were|has have)(?![-\w])/],
  ['a space before a mark', / [,.;:!?)](?= |$)/],
  ['a mark without a space', /[a-z][,;:][A-Za-z]/],
  ['two marks', /[,;:] ?[,;:.]|(?<!\.)\.\.(?!\.)/],
  ['empty brackets or quotation marks', /\( ?\)|\[ ?\]|"" |“”/],
  ['a value without words', /(?<![-\w])(?:undefined|null|NaN|\[object|Infinity)(?![-\w])/],
  ['a sentence with a small letter', /[a-z]{3,}\. [a-z]/],
  ['words of a program', /(?<![-\w])(?:true or false is|[a-z]+_[a-z]+|[a-z]+[A-Z][a-z]+)(?![-\w])/],
  ['when with', /(?<![-\w])(?:when|until|while|where|if) (?:with|without|while|when) /i],
  [
    'plural titles with a singular verb',
    /(?<! of [-\w ]*)(?<![-\w])(?:doors|exits|lights|signs|levers|struts|slats|flaps|engines) (?:is|was|has)(?![-\w])/i,
  ],
];
/** Words that look like a fault and are none. */
const RIGHT = /sRGB/g;

describe.each([
  ['a book with every kind of thing', () => inject('everyKindSite')],
  ['a book with supplies, sequences and sounds', () => inject('inTimeSite')],
  ['the demo', () => inject('demoSite')],
])('%s', (_name, root) => {
  it('has no sentence that reads as if nobody had read it', () => {
    const files = readdirSync(root(), { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.html'));
    const seen = new Set<string>();
    const faults = files.flatMap((file) => {
      const main = findAll(readPage(join(root(), file)), ({ tagName }) => tagName === 'main')[0];
      const runs = main ? findAll(main, ({ tagName }) => RUNS.has(tagName)).map(words) : [];
      return runs.flatMap((run) => {
        if (seen.has(run)) return [];
        seen.add(run);
        const read = run.replace(RIGHT, 'usual');
        return FAULTS.filter(([, fault]) => fault.test(read)).map(([name]) => `${file}: ${name}: ${run}`);
      });
    });
    expect(seen.size).toBeGreaterThan(200);
    expect(faults).toEqual([]);
  });
});

it('is noticed where it is wrong', () => {
  const wrong = [
    'Lit lit in the the air.',
    'with a annunciator',
    'with an door',
    'the a door',
    'the lights is are lit',
    'dark , or lit',
    'lit,or dark',
    'dark,; lit',
    'dark ()',
    'undefined is lit',
    'It is dark. then lit.',
    'seat_rows',
    'Lit when with the switch',
    'The cabin doors is open',
  ];
  expect(wrong.filter((run) => FAULTS.every(([, fault]) => !fault.test(run)))).toEqual([]);
  expect(FAULTS.filter(([, fault]) => wrong.every((run) => !fault.test(run))).map(([name]) => name)).toEqual([]);
});
