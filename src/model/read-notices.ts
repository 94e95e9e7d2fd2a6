/** notices/*.md: what crews are to know by a day, until another. */
import type { Place, SourceFile } from '../diagnostics/index.ts';
import { type Context, OPTIONS_ALONE } from './context.ts';
import type { Aircraft, Notice } from './fleet.ts';
import type { KnownFits } from './known-fits.ts';
import { PAGED } from './names.ts';
import { isChangedBy } from './quotes.ts';
import { ProseReader, parseProse, readFrontMatter } from './read-prose.ts';
import { noticeFrontMatterSchema } from './schema.ts';
import { itemsUnder, scalarUnder } from './yaml-source.ts';

/**
 * Reads the notices, in the order of their numbers. One whose front matter cannot be used is left out; what is wrong in a
 * text is reported. `today` is the book's date; it and `aircraft` are undefined while they cannot be read.
 */
export function readNotices(
  files: readonly SourceFile[],
  today: string | undefined,
  aircraft: readonly Aircraft[] | undefined,
  fits: KnownFits,
  context: Context,
): Notice[] {
  const numbers = new Map<string, Place>();
  return files
    .flatMap((file) => readNotice(file, today, aircraft, fits, numbers, context) ?? [])
    .toSorted((a, b) => a.number.localeCompare(b.number, 'en', { numeric: true }));
}

function readNotice(
  file: SourceFile,
  today: string | undefined,
  aircraft: readonly Aircraft[] | undefined,
  fits: KnownFits,
  numbers: Map<string, Place>,
  context: Context,
): Notice | undefined {
  const { diagnostics, names } = context;
  const front = readFrontMatter(file, 'notice', noticeFrontMatterSchema, context);
  if (!front) return undefined;
  const under = (key: string) => scalarUnder(front.node, key);
  const [number, date, expires] = [under('number'), under('date'), under('expires')];
  if (!number || !date || !expires) return undefined;
  const first = numbers.get(number.written);
  if (first) {
    diagnostics.report('SL520', { number: number.written }, number.place, [{ place: first, label: 'the other one' }]);
  } else numbers.set(number.written, number.place);
  if (expires.written < date.written)
    diagnostics.report('SL521', { date: date.written, expires: expires.written }, expires.place);
  if (today !== undefined && date.written > today)
    diagnostics.report('SL525', { date: date.written, book: today }, date.place);

  const [only, changedBy] = [under('for'), under('changed-by')];
  const wanted = only && context.expression(only, OPTIONS_ALONE);
  if (only && changedBy) diagnostics.report('SL523', {}, changedBy.place, [{ place: only.place, label: 'said here' }]);
  else if (wanted && aircraft && !fits.witness([wanted])) diagnostics.report('SL522', { key: 'for' }, only.place);
  else if (
    changedBy &&
    !context.reportUnknownDocument(changedBy.written, changedBy.place) &&
    aircraft &&
    !aircraft.some((each) => isChangedBy(each, changedBy.written))
  )
    diagnostics.report('SL522', { key: 'changed-by' }, changedBy.place);

  const name = file.path.replace(/^.*\//, '').replace(/\.md$/, '');
  const body = parseProse(file, front);
  const reader = new ProseReader(file, 'notice', aircraft, context);
  reader.check(body, () => false);
  const issuedBy = under('issued-by')?.written;
  return {
    id: `notice-${name}`,
    name,
    number: number.written,
    title: under('title')?.written ?? '',
    date: date.written,
    expires: expires.written,
    ...(issuedBy === undefined ? {} : { issuedBy }),
    ...(wanted ? { for: wanted } : {}),
    ...(changedBy ? { changedBy: changedBy.written } : {}),
    about: itemsUnder(front.node, 'about').flatMap((node) =>
      node.kind === 'scalar' && names.resolve(node.written, PAGED, node.place) ? [node.written] : [],
    ),
    source: file,
    body,
    claims: reader.claims,
    quotes: reader.quotes,
    place: front.node.place,
  };
}
