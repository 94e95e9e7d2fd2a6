/** Which files of a content folder mean what. */

import type { Diagnostics, SourceFile } from '../diagnostics/index.ts';
import { nearestName } from '../diagnostics/index.ts';

/** The files of the author, by kind. */
export interface ContentFiles {
  readonly book?: SourceFile;
  readonly options?: SourceFile;
  readonly aircraft?: SourceFile;
  readonly modifications?: SourceFile;
  readonly conditions?: SourceFile;
  readonly signals?: SourceFile;
  readonly overrides?: SourceFile;
  readonly timelines?: SourceFile;
  readonly claims?: SourceFile;
  readonly sources?: SourceFile;
  readonly queries?: SourceFile;
  readonly glossary?: SourceFile;
  readonly sheets?: SourceFile;
  readonly practice?: SourceFile;
  readonly panels: readonly SourceFile[];
  readonly procedures: readonly SourceFile[];
  readonly notes: readonly SourceFile[];
  readonly tours: readonly SourceFile[];
  readonly notices: readonly SourceFile[];
  readonly releases: readonly SourceFile[];
  /** Decision tables. */
  readonly tables: readonly SourceFile[];
  /** Files of no kind, already reported. What they define counts as broken, not as missing. */
  readonly misnamed: readonly SourceFile[];
  /** Whether a file that would define names is not there, under no name: what is unknown then is no mistake of its own. */
  readonly lacksNames: boolean;
}

const SINGLE = {
  book: 'book.yaml',
  options: 'options.yaml',
  aircraft: 'aircraft.csv',
  modifications: 'modifications.csv',
  conditions: 'conditions.yaml',
  signals: 'signals.yaml',
  overrides: 'overrides.yaml',
  timelines: 'timelines.yaml',
  claims: 'claims.yaml',
  sources: 'sources.yaml',
  queries: 'queries.yaml',
  glossary: 'glossary.yaml',
  sheets: 'sheets.yaml',
  practice: 'practice.yaml',
} as const;
const REQUIRED = ['book.yaml', 'options.yaml', 'aircraft.csv', 'conditions.yaml'] as const;

const PANEL = /^panels\/[^/]+\.yaml$/;
const PROCEDURE = /^procedures\/[^/]+\.yaml$/;
const TABLE = /^tables\/[^/]+\.csv$/;
const NOTE = /^notes\/.+\.md$/;
/** Names that are parts of addresses. */
const TOUR = /^tours\/[a-z0-9]+(?:-[a-z0-9]+)*\.md$/;
const NOTICE = /^notices\/[a-z0-9]+(?:-[a-z0-9]+)*\.md$/;
/** Written by `switchleaf release`. */
const RELEASE = /^releases\/[a-z0-9]+(?:-[a-z0-9]+)*\.json$/;
const KINDS = [PANEL, PROCEDURE, NOTE, TABLE, TOUR, NOTICE, RELEASE];

/**
 * True for the files that the reader wants to see, among them misnamed ones, which it reports. `path` is relative to the
 * content folder, with forward slashes. README files and whatever starts with a dot are not content.
 */
export function isContentPath(path: string): boolean {
  const parts = path.split('/');
  if (parts.some((part) => part.startsWith('.')) || /^readme\.md$/i.test(parts.at(-1) ?? '')) return false;
  return /\.(ya?ml|csv|md)$/i.test(path) || /^releases\/.+\.json$/i.test(path);
}

/** Sorts the files by kind; reports those of no kind, and the required ones that are not there. */
export function sortFiles(files: readonly SourceFile[], diagnostics: Diagnostics): ContentFiles {
  const content = files.filter((file) => isContentPath(file.path));
  const byPath = new Map(content.map((file) => [file.path, file]));
  const panels = content.filter((file) => PANEL.test(file.path));
  const procedures = content.filter((file) => PROCEDURE.test(file.path));
  const notes = content.filter((file) => NOTE.test(file.path));
  const tables = content.filter((file) => TABLE.test(file.path));
  const tours = content.filter((file) => TOUR.test(file.path));
  const notices = content.filter((file) => NOTICE.test(file.path));
  const releases = content.filter((file) => RELEASE.test(file.path));
  const single = Object.entries(SINGLE).flatMap(([kind, path]) => {
    const file = byPath.get(path);
    return file === undefined ? [] : [[kind, file] as const];
  });

  const known = new Set<string>(Object.values(SINGLE));
  const meant = new Set<string>();
  const misnamed: SourceFile[] = [];
  for (const file of content) {
    if (known.has(file.path) || KINDS.some((kind) => kind.test(file.path))) continue;
    misnamed.push(file);
    const nearest = nearestPath(
      file.path,
      [...known].filter((path) => !byPath.has(path)),
    );
    if (nearest !== undefined) meant.add(nearest);
    const facts = { path: file.path, ...(nearest === undefined ? {} : { nearest }) };
    diagnostics.report('SL103', facts, { file, start: 0, end: 0 });
  }
  const lacking = REQUIRED.filter((path) => !byPath.has(path) && !meant.has(path));
  for (const path of lacking) diagnostics.report('SL101', { path });
  const lacksPanels = panels.length === 0 && ![...meant].some((path) => path.startsWith('panels/'));
  if (lacksPanels) diagnostics.report('SL102', {});
  const lacksNames = lacksPanels || lacking.some((path) => path === SINGLE.options || path === SINGLE.conditions);
  const texts = { notes, tours, notices, releases };
  return { ...Object.fromEntries(single), panels, procedures, ...texts, tables, misnamed, lacksNames };
}

/** The path that a misnamed file was meant to have. */
function nearestPath(path: string, free: readonly string[]): string | undefined {
  const tidy = path.toLowerCase().replace(/\.yml$/, '.yaml');
  if (KINDS.some((kind) => kind.test(tidy))) return tidy;
  const folder = /^panels?\/([^/]+\.yaml)$/.exec(tidy) ?? /^panels\/.+\/([^/]+\.yaml)$/.exec(tidy);
  if (folder !== null) return `panels/${folder[1] ?? ''}`;
  const procedure = /^procedures?\/(?:.+\/)?([^/]+\.yaml)$/.exec(tidy);
  if (procedure !== null) return `procedures/${procedure[1] ?? ''}`;
  const table = /^tables?\/(?:.+\/)?([^/]+\.csv)$/.exec(tidy);
  if (table !== null) return `tables/${table[1] ?? ''}`;
  const text = /^(tour|notice)s?\/(?:.+\/)?([^/]+)\.md$/.exec(tidy);
  if (text !== null) {
    const [, kind = '', name = ''] = text;
    return `${kind}s/${name.replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '') || kind}.md`;
  }
  if (/^[^/]+\.md$/.test(tidy)) return `notes/${tidy}`;
  return nearestName(tidy, free);
}
