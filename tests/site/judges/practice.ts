/** Holds the pages of practice sheets to the questions as data, which are judged by themselves: every word, letter and answer. */
import type { PracticeSetPage } from '../../../src/book/index.ts';
import { byClass, byId, byTag, children, type Element, textOf } from '../../helpers/dom.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

export function judgePractice(pages: Pages, sets: readonly PracticeSetPage[]): string[] {
  return sets.flatMap((set) => attempt(set.address, () => judgeSet(pages.page(set.address), set)));
}

const said = (words: readonly { readonly text: string }[]): string => plain(words.map(({ text }) => text).join(''));
const plain = (words: string): string => words.replace(/\s+/g, ' ').trim();

function judgeSet(page: Element, { title, sheets }: PracticeSetPage): string[] {
  const shown = plain(textOf(byTag(page, 'h1')[0] as Element));
  return [
    ...(shown === title ? [] : [`title "${shown}"`]),
    ...sheets.flatMap(({ id, number, questions }) => {
      const section = byId(page, id);
      if (!section) return [`there is no sheet ${number}`];
      const answers = children(byTag(byClass(section, 'key')[0] as Element, 'ol')[0] as Element);
      const asked = children(byClass(section, 'questions')[0] as Element);
      if (asked.length !== questions.length || answers.length !== questions.length)
        return [`${asked.length} questions and ${answers.length} answers instead of ${questions.length}`];
      return questions.flatMap(({ setting, words, options, right, because }, at) => {
        const [where, question] = byTag(asked[at] as Element, 'p').map((one) => plain(textOf(one)));
        const choices = byTag(asked[at] as Element, 'li').map((one) => plain(textOf(one)));
        const wanted = options.map((option) => plain(`${option.letter} ${said(option.words)}`));
        const answer = plain(textOf(byTag(answers[at] as Element, 'p')[0] as Element));
        const due = plain(`${right} ${said(because)}`);
        return [
          ...(where === said(setting) ? [] : [`"${where}" instead of "${said(setting)}"`]),
          ...(question === said(words) ? [] : [`"${question}" instead of "${said(words)}"`]),
          ...(choices.join('; ') === wanted.join('; ')
            ? []
            : [`"${choices.join('; ')}" instead of "${wanted.join('; ')}"`]),
          ...(answer === due ? [] : [`"${answer}" instead of "${due}"`]),
        ].map((fault) => `sheet ${number}, question ${at + 1}: ${fault}`);
      });
    }),
  ];
}
