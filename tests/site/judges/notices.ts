/**
 * Holds the pages of crew notices to the authors' files: head and text word for word, the aircraft that are affected, the
 * aircraft and changes that a notice has the book list, and which of them are current.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { attribute, byClass, byId, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { readEffectivity } from '../../helpers/effectivity-words.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import type { Pages } from './pages.ts';
import { judgeQuoted } from './quoted.ts';
import { attempt } from './tables.ts';
import { missingWords } from './tours.ts';

interface NoticeText {
  readonly id: string;
  readonly key: (name: string) => string | undefined;
  readonly body: string;
}

/**
 * `folder` is the content that the oracle answers for, `asOf` the date of its book; `fly` gives random cases of a fit where there are too
 * many for walking all of them.
 */
export function judgeNotices(
  pages: Pages,
  oracle: Oracle,
  folder: string,
  asOf: string,
  fly?: (fit: Fit) => readonly Case[],
): string[] {
  const notices = readdirSync(join(folder, 'notices')).map((name) => readNotice(join(folder, 'notices'), name));
  return [
    ...attempt('notices.html', () => judgeList(pages.page('notices.html'), notices, asOf)),
    ...notices.flatMap((notice) => {
      const address = `notices/${notice.id}.html`;
      return attempt(address, () => judgeNotice(pages.page(address), oracle, folder, notice, asOf, fly));
    }),
  ];
}

function readNotice(folder: string, name: string): NoticeText {
  const [, front = '', body = ''] = /^---\n(.*?)^---\n(.*)$/ms.exec(readFileSync(join(folder, name), 'utf8')) ?? [];
  return {
    id: name.replace(/\.md$/, ''),
    key: (wanted) => new RegExp(`^${wanted}: *(.*)$`, 'm').exec(front)?.[1],
    body,
  };
}

const isOver = ({ key }: NoticeText, asOf: string): boolean => (key('expires') ?? '') < asOf;

/** The current ones and the others, the latest first. */
function judgeList(page: Element, notices: readonly NoticeText[], asOf: string): string[] {
  const latest = notices.toSorted((a, b) => (b.key('date') ?? '').localeCompare(a.key('date') ?? ''));
  return ['current', 'expired'].flatMap((id) => {
    const section = byId(page, id);
    const shown = section ? byTag(section, 'li').map((one) => byTag(one, 'p').map(textOf).join(' ')) : [];
    const wanted = latest
      .filter((notice) => isOver(notice, asOf) === (id === 'expired'))
      .map(
        ({ key }) =>
          `${key('number')} ${key('title')} Issued on ${key('date')}, ${id === 'expired' ? 'expired' : 'expires'} on ${key('expires')}`,
      );
    const plain = shown.map((words) => words.replace(/\s+/g, ' ').trim());
    return plain.join('; ') === wanted.join('; ')
      ? []
      : [`${id}: "${plain.join('; ')}" instead of "${wanted.join('; ')}"`];
  });
}

function judgeNotice(
  page: Element,
  oracle: Oracle,
  folder: string,
  notice: NoticeText,
  asOf: string,
  fly?: (fit: Fit) => readonly Case[],
): string[] {
  const { key, body } = notice;
  const article = byClass(page, 'notice')[0] as Element;
  const letterhead = textOf(byClass(article, 'letterhead')[0] as Element);
  const times = byTag(byClass(article, 'notice-facts')[0] as Element, 'time').map((time) =>
    attribute(time, 'datetime'),
  );
  const signed = byClass(article, 'signature').map(textOf).join();
  const affected = affectedBy(oracle, folder, notice);
  const shown = named(
    oracle,
    textOf(byTag(byClass(article, 'holds')[0] as Element, 'summary')[0] ?? (byClass(article, 'holds')[0] as Element)),
  );
  return [
    ...(letterhead.endsWith(`Crew notice ${key('number')}`) ? [] : [`letterhead "${letterhead}"`]),
    ...(textOf(byTag(article, 'h1')[0] as Element) === key('title') ? [] : ['another title']),
    ...(times.join() === [key('date'), key('expires')].join() ? [] : [`dates ${times.join()}`]),
    ...(signed === `Issued by ${key('issued-by')}` ? [] : [`signed "${signed}"`]),
    ...(byClass(article, 'over').length === Number(isOver(notice, asOf)) ? [] : ['is said to be expired, or is not']),
    ...(shown.join() === affected.join() ? [] : [`affects ${shown.join()} instead of ${affected.join()}`]),
    ...missingWords(article, body.replace(/^::.*$/gm, '')),
    ...judgeParts(article, oracle, folder, body, fly),
  ];
}

function named(oracle: Oracle, words: string): string[] {
  return [...new Set(readEffectivity(oracle, words).map(({ registration }) => registration))];
}

/** Registrations in the fleet's order. */
function affectedBy(oracle: Oracle, folder: string, { key }: NoticeText): string[] {
  const [wanted, document] = [key('for'), key('changed-by')];
  const serials = document === undefined ? [] : changesBy(folder, document).map(({ serial }) => serial);
  return oracle.aircraft
    .filter(({ serial, course }) =>
      document === undefined
        ? wanted === undefined || course.some(({ fit }) => isSo(oracle, fit, wanted))
        : serials.includes(serial),
    )
    .map(({ registration }) => registration);
}

function isSo(oracle: Oracle, fit: Oracle['fits'][number], wanted: string): boolean {
  return oracle.candidates(fit).some((one) => oracle.meaning.truths(wanted, oracle.meaning.at(one, {})).has(true));
}

/** The lines of modifications.csv that a document orders. */
function changesBy(folder: string, document: string): { readonly serial: string; readonly date: string }[] {
  const [, ...lines] = readFileSync(join(folder, 'modifications.csv'), 'utf8').trim().split('\n');
  return lines
    .map((line) => line.split(','))
    .filter((cells) => cells[4] === document)
    .map(([serial = '', , , date = '']) => ({ serial, date }));
}

/** What the notice has the book compute: as many parts as it asks for, and the lists of the right aircraft. */
function judgeParts(
  article: Element,
  oracle: Oracle,
  folder: string,
  body: string,
  fly?: (fit: Fit) => readonly Case[],
): string[] {
  const asked = [...body.matchAll(/^::(\w+)\{(.*)\}$/gm)].map(([, name = '', keys = '']) => ({ name, keys }));
  const parts = byClass(article, 'quote');
  if (parts.length !== asked.length) return [`${parts.length} computed parts instead of ${asked.length}`];
  return asked.flatMap(({ name, keys }, at) => {
    const part = parts[at] as Element;
    const value = (key: string): string => new RegExp(`\\b${key}="([^"]*)"`).exec(keys)?.[1] ?? '';
    const listed = byTag(part, 'a').map(textOf);
    if (name === 'aircraft') {
      const wanted = oracle.aircraft
        .filter(({ course }) => course.some(({ fit }) => isSo(oracle, fit, value('with'))))
        .map(({ registration }) => registration);
      return [...new Set(listed)].join() === wanted.join()
        ? []
        : [`lists ${listed.join()} instead of ${wanted.join()}`];
    }
    if (name === 'changes') {
      const rows = byTag(byTag(part, 'tbody')[0] as Element, 'tr').map((row) =>
        [textOf(byTag(row, 'th')[0] as Element), attribute(byTag(row, 'time')[0] as Element, 'datetime')].join(' '),
      );
      const registration = (serial: string) => oracle.aircraft.find((one) => one.serial === serial)?.registration;
      const wanted = changesBy(folder, value('by')).map(({ serial, date }) => `${registration(serial)} ${date}`);
      return rows.toSorted().join() === wanted.toSorted().join()
        ? []
        : [`changes ${rows.join()} instead of ${wanted.join()}`];
    }
    return judgeQuoted(part, oracle, { of: value('of'), on: value('on'), from: value('from') }, fly).map(
      (fault) => `${keys}: ${fault}`,
    );
  });
}
