/** The behaviours of the trade, one folder each: content, what must come out, and a wrong twin. README.md says the format. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { SourceFile } from '../../src/diagnostics/index.ts';

export interface TableEntry {
  readonly item: string;
  readonly on?: readonly string[];
  readonly parts?: 'normal' | 'all';
  readonly table: string;
}
export interface SoundEntry {
  readonly sound: string;
  readonly on?: readonly string[];
  readonly table: string;
}
export interface TimelineEntry {
  readonly timeline: string;
  readonly table: string;
  readonly changes?: readonly Between[];
}
/** A change of a sequence, and the earliest and latest times at which its delays let it come: "28 s to 32 s". */
export interface Between {
  readonly moves: string;
  readonly to: string;
  readonly at: string;
  readonly between: string;
}
export interface StageEntry {
  /** The ids of the procedure and of the stage: "flight climb". */
  readonly stage: string;
  readonly on?: readonly string[];
  readonly table: string;
}
export interface ClaimEntry {
  readonly claim: string;
  readonly fails: readonly string[];
}
export interface FindingEntry {
  readonly finding: string;
  readonly says: readonly string[];
}
export interface AlikeEntry {
  readonly alike: string;
  readonly groups: readonly (readonly string[])[];
}
export type Entry = TableEntry | SoundEntry | TimelineEntry | StageEntry | ClaimEntry | FindingEntry | AlikeEntry;

export interface WrongTwin {
  readonly file: string;
  readonly replace: string;
  readonly with: string;
  readonly misses: readonly string[];
}

export interface Behaviour {
  readonly name: string;
  /** The content folder. */
  readonly folder: string;
  readonly files: readonly SourceFile[];
  readonly expected: readonly Entry[];
  readonly wrong: WrongTwin;
}

/** All of them, by name. A folder without a wrong twin is a mistake. */
export function allBehaviours(): readonly Behaviour[] {
  const here = import.meta.dirname;
  return readdirSync(here, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(here, entry.name, 'expected.yaml')))
    .map(({ name }) => name)
    .sort()
    .map((name) => {
      const folder = join(here, name, 'content');
      return {
        name,
        folder,
        files: filesOf(folder),
        expected: parse(readFileSync(join(here, name, 'expected.yaml'), 'utf8')),
        wrong: parse(readFileSync(join(here, name, 'wrong.yaml'), 'utf8')),
      };
    });
}

/** What `misses` calls an entry. */
export function nameOf(entry: Entry): string {
  if ('item' in entry) return entry.item;
  if ('sound' in entry) return entry.sound;
  if ('timeline' in entry) return entry.timeline;
  if ('stage' in entry) return entry.stage;
  if ('claim' in entry) return entry.claim;
  return 'finding' in entry ? entry.finding : `alike ${entry.alike}`;
}

/** The content with the one rule changed. */
export function wrongFiles({ files, wrong, name }: Behaviour): readonly SourceFile[] {
  const parts = files.find(({ path }) => path === wrong.file)?.text.split(wrong.replace) ?? [];
  if (parts.length !== 2) throw new Error(`${name}: "${wrong.replace}" does not stand exactly once in ${wrong.file}`);
  const text = parts.join(wrong.with);
  return files.map((file) => (file.path === wrong.file ? { ...file, text } : file));
}

/** The content with one more claim. */
export function withClaim(files: readonly SourceFile[], sentence: string, holds: string): readonly SourceFile[] {
  const path = 'claims.yaml';
  const claims = files.find((file) => file.path === path)?.text ?? '';
  const text = `${claims}- sentence: ${JSON.stringify(sentence)}\n  holds: ${JSON.stringify(holds)}\n`;
  return [...files.filter((file) => file.path !== path), { path, text }];
}

function filesOf(folder: string): SourceFile[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.(yaml|csv|md)$/.test(path))
    .sort()
    .map((path) => ({ path: path.replaceAll('\\', '/'), text: readFileSync(join(folder, path), 'utf8') }));
}
