/** The releases beside the content: read, checked, in order. */
import type { Diagnostics, Place, SourceFile } from '../../diagnostics/index.ts';
import { crc32 } from '../../logic/index.ts';
import type { Fleet } from '../../model/index.ts';
import { RELEASE_FORMAT, type Release, type ReleaseFile } from './released.ts';

/** The latest first. What cannot be used is reported and left out. */
export function readReleases(fleet: Pick<Fleet, 'releases' | 'book'>, diagnostics: Diagnostics): Release[] {
  const { date: today } = fleet.book;
  const read = new Map<string, { readonly release: Release; readonly path: string }>();
  for (const file of fleet.releases) {
    const release = readRelease(file, diagnostics);
    if (!release) continue;
    const { revision, date } = release;
    const twin = read.get(revision);
    if (twin) diagnostics.report('SL147', { revision, path: twin.path }, keyPlace(file, 'revision'));
    else if (date > today) diagnostics.report('SL148', { revision, date, book: today }, keyPlace(file, 'date'));
    else read.set(revision, { release, path: file.path });
  }
  return [...read.values()]
    .map(({ release }) => release)
    .toSorted((a, b) => b.date.localeCompare(a.date) || byRevision(b.revision, a.revision));
}

function readRelease(file: SourceFile, diagnostics: Diagnostics): Release | undefined {
  const unread = (reason: string, place: Place): undefined => {
    diagnostics.report('SL144', { reason }, place);
  };
  const whole = { file, start: 0, end: file.text.split('\n', 1)[0]?.slice(0, 80).length ?? 0 };
  let found: Partial<ReleaseFile> | null;
  try {
    found = JSON.parse(file.text);
  } catch {
    return unread('it is not JSON', whole);
  }
  if (typeof found !== 'object' || found === null || typeof found.switchleafRelease !== 'number') {
    return unread('"switchleafRelease" is missing', whole);
  }
  const { switchleafRelease: format, revision, date, checksum, book } = found;
  if (format > RELEASE_FORMAT) {
    const facts = { format, known: RELEASE_FORMAT };
    diagnostics.report('SL145', facts, keyPlace(file, 'switchleafRelease'));
    return undefined;
  }
  if (typeof revision !== 'string' || revision === '') return unread('"revision" is missing', whole);
  if (typeof date !== 'string' || !/^\d{4}-\d\d-\d\d$/.test(date)) return unread('"date" is missing', whole);
  if (!PARTS.every((part) => typeof book?.[part] === 'object' && book[part] !== null)) {
    return unread('"book" is not whole', whole);
  }
  if (!book || checksum !== crc32(JSON.stringify(book))) {
    diagnostics.report('SL146', {}, keyPlace(file, 'checksum'));
    return undefined;
  }
  const name = file.path.replace(/^.*\/|\.json$/g, '');
  return { name, revision, date, ...book };
}

const PARTS = ['comparison', 'occurring', 'listings'] as const;

/** The line of the head that a key begins. */
function keyPlace(file: SourceFile, key: string): Place {
  const start = Math.max(0, file.text.indexOf(`"${key}"`));
  const end = file.text.indexOf('\n', start);
  return { file, start, end: Math.min(end < 0 ? file.text.length : end, start + 80) };
}

/** Revisions as people count them: 9, 10, 10a. */
function byRevision(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}
