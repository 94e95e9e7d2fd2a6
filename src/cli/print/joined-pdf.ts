/**
 * PDFs that the browser printed one after another, joined into one file: pages, links from one to another, tags, bookmarks, facts
 * about the document. Each is written as soon as it is there, so that no more than one is held, and the same input gives the same
 * bytes. Sections of ISO 32000-1 are named beside what they ask for.
 */
import { closeSync, openSync, writeSync } from 'node:fs';
import {
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFObject,
  PDFRef,
  PDFString,
} from '@cantoo/pdf-lib';
import type { About, Bookmark } from './about.ts';
import { bytesOf, latin, type Moved, reference, textOf, words } from './pdf-text.ts';
import { SameStreams } from './same-streams.ts';

/** A link to an id of another part is printed as one to this address, with the id behind it. */
export const ELSEWHERE = 'https://elsewhere.invalid/#';

/** All at once: nothing else waits for its turn meanwhile. */
const READING = { updateMetadata: false, parseSpeed: Number.POSITIVE_INFINITY };

/** Numbers of the objects that all parts share; those of the parts follow. */
const OWN = { catalog: 1, info: 2, pages: 3, dests: 4, tags: 5, whole: 6, parents: 7, ids: 8, outline: 9 };

interface Part {
  readonly pages: number;
  readonly tree: string;
  /** The element that holds all others of the part; absent where it has no tags. */
  readonly top: string | undefined;
}

export async function countPages(bytes: Uint8Array): Promise<number> {
  return (await PDFDocument.load(bytes, READING)).getPageCount();
}

export class JoinedPdf {
  readonly #file: number;
  /** Written so far, and what of it is not in the file yet. */
  #length = 0;
  readonly #waiting: Uint8Array[] = [];
  /** Where each object begins, by its number. */
  readonly #offsets: number[] = [];
  #next = Object.keys(OWN).length + 1;
  readonly #parts: Part[] = [];
  /** By id that a link leads to: page and place on it. */
  readonly #dests = new Map<string, string>();
  readonly #streams = new SameStreams();
  /** Ids that links lead to. */
  readonly #wanted = new Set<string>();
  /** The first free key of section 14.7.4.4, by which pages and links find their tags. */
  #parentKey = 0;
  readonly #parentLeaves: string[] = [];
  readonly #idLeaves: string[] = [];
  #added = 0;

  constructor(path: string) {
    this.#file = openSync(path, 'w');
    // Four bytes above 127 tell whoever carries the file that it is not text (section 7.5.2).
    this.#write(latin('%PDF-1.7\n%\xd3\xeb\xe9\xe1\n'));
  }

  /** Adds a printed part behind the others, or before all of them. Gives on which of its pages, from 1, each id stands. */
  async add(
    bytes: Uint8Array,
    place: 'last' | 'first' = 'last',
  ): Promise<{ readonly pages: number; readonly ids: ReadonlyMap<string, number> }> {
    const pdf = await PDFDocument.load(bytes, READING);
    const { context, catalog } = pdf;
    const up = this.#next - 1;
    this.#next += context.largestObjectNumber;
    this.#added += 1;
    const moved = this.#streams.numbers(context, up);
    const left = new Set<PDFObject | undefined>([catalog, context.lookup(context.trailerInfo.Info)]);
    const tree = catalog.get(PDFName.of('Pages')) as PDFRef;
    (context.lookup(tree) as PDFDict).set(PDFName.of('Parent'), PDFRef.of(OWN.pages - up));
    const pages = pdf.getPages();
    const numbers = new Map(pages.map(({ ref }, at) => [ref.toString(), at + 1]));
    const ids = new Map<string, number>();
    const dests = catalog.lookup(PDFName.of('Dests'));
    left.add(dests);
    if (dests instanceof PDFDict)
      for (const [name, value] of dests.entries()) {
        const target = context.lookup(value);
        if (!(target instanceof PDFArray)) continue;
        left.add(target);
        ids.set(name.decodeText(), numbers.get(String(target.get(0))) ?? 1);
        this.#dests.set(name.decodeText(), textOf(target, moved));
      }
    const top = this.#takeTags(catalog, left, up, moved);
    for (const [ref, object] of context.enumerateIndirectObjects()) {
      const number = moved(ref.objectNumber);
      if (left.has(object) || this.#offsets[number] !== undefined) continue;
      if (object instanceof PDFDict) this.#lead(object);
      this.#object(number, bytesOf(object, moved));
    }
    this.#flush();
    const part = { pages: pages.length, tree: textOf(tree, moved), top };
    if (place === 'first') this.#parts.unshift(part);
    else this.#parts.push(part);
    return { pages: pages.length, ids };
  }

  /** Writes what all parts share, and closes the file. What no bookmark can lead to is left out. */
  finish({ title, author, subject, date, language }: About, bookmarks: readonly Bookmark[]): void {
    // A place that the browser did not keep is looked for at the head of its page.
    for (const id of [...this.#wanted].sort()) {
      const head = this.#dests.get(id.split('-')[0] ?? '');
      if (!this.#dests.has(id) && head !== undefined) this.#dests.set(id, head);
    }
    const outline = this.#outline(bookmarks);
    const day = `(D:${date.replaceAll('-', '')}000000Z)`;
    const facts = `/Title ${words(title)} /Author ${words(author)} /Subject ${words(subject)}`;
    const made = `/Creator (Switchleaf) /Producer (Switchleaf) /CreationDate ${day} /ModDate ${day}`;
    this.#own('info', `<<${facts} ${made}>>`);
    const count = this.#parts.reduce((sum, { pages }) => sum + pages, 0);
    this.#own('pages', `<</Type /Pages /Count ${count} /Kids [${this.#parts.map(({ tree }) => tree).join(' ')}]>>`);
    const dests = [...this.#dests].map(([id, target]) => `${PDFName.of(id).toString()} ${target}`);
    this.#own('dests', `<<${dests.join(' ')}>>`);
    const tags = this.#tags(language);
    const shown = `/ViewerPreferences <</DisplayDocTitle true>> /Lang ${words(language)}`;
    const parts = `/Pages ${reference(OWN.pages)} /Dests ${reference(OWN.dests)} ${tags} ${outline}`;
    this.#own('catalog', `<</Type /Catalog ${parts} ${shown}>>`);
    this.#references();
    this.#flush();
    closeSync(this.#file);
  }

  /** Closes a file that will not be finished. */
  abandon(): void {
    closeSync(this.#file);
  }

  /** Tags of a part, section 14.7: gives its topmost element, with keys and ids that no other part has. */
  #takeTags(catalog: PDFDict, left: Set<PDFObject | undefined>, up: number, moved: Moved): string | undefined {
    const { context } = catalog;
    const root = catalog.lookup(PDFName.of('StructTreeRoot'));
    if (!(root instanceof PDFDict)) return undefined;
    const [parents, idTree] = ['ParentTree', 'IDTree'].map((name) => root.lookup(PDFName.of(name)));
    for (const each of [root, parents, idTree]) left.add(each);
    if (idTree instanceof PDFDict)
      for (const leaf of listed(idTree.lookup(PDFName.of('Kids')))) left.add(context.lookup(leaf));

    const key = this.#parentKey;
    const nums = listed(parents instanceof PDFDict ? parents.lookup(PDFName.of('Nums')) : undefined);
    const leaf = nums.map((each) => (each instanceof PDFNumber ? String(each.asNumber() + key) : textOf(each, moved)));
    if (leaf.length > 0) {
      this.#parentLeaves.push(
        this.#further(`<</Limits [${leaf[0]} ${leaf[leaf.length - 2]}] /Nums [${leaf.join(' ')}]>>`),
      );
      this.#parentKey = Number(leaf[leaf.length - 2]) + 1;
    }

    // Ids are made anew: those of the browser differ from run to run.
    const ids = new Map<string, PDFString>();
    const idOf = (old: PDFObject): PDFString => {
      const known = ids.get(old.toString());
      const id = known ?? PDFString.of(`${pad(this.#added)}-${pad(ids.size + 1)}`);
      ids.set(old.toString(), id);
      return id;
    };
    const holders: string[] = [];
    const named = (id: PDFString, holder: PDFRef): number => holders.push(`${id.toString()} ${textOf(holder, moved)}`);
    for (const [ref, object] of context.enumerateIndirectObjects()) {
      if (!(object instanceof PDFDict)) continue;
      for (const name of ['StructParent', 'StructParents']) {
        const old = object.get(PDFName.of(name));
        if (old instanceof PDFNumber) object.set(PDFName.of(name), PDFNumber.of(old.asNumber() + key));
      }
      if (object.get(PDFName.of('Type')) !== PDFName.of('StructElem')) continue;
      const id = object.get(PDFName.of('ID'));
      if (id) {
        object.set(PDFName.of('ID'), idOf(id));
        named(idOf(id), ref);
      }
      for (const attributes of listed(object.lookup(PDFName.of('A')))) {
        const headers = attributes instanceof PDFDict ? listed(attributes.lookup(PDFName.of('Headers'))) : [];
        if (attributes instanceof PDFDict && headers.length > 0)
          attributes.set(PDFName.of('Headers'), context.obj(headers.map(idOf)));
      }
    }
    if (holders.length > 0) {
      const sorted = holders.sort();
      const limits = [sorted[0], sorted.at(-1)].map((each) => each?.split(' ')[0]).join(' ');
      this.#idLeaves.push(this.#further(`<</Limits [${limits}] /Names [${sorted.join(' ')}]>>`));
    }

    const top = root.get(PDFName.of('K'));
    const element = context.lookup(top);
    if (!(top instanceof PDFRef && element instanceof PDFDict)) return undefined;
    element.set(PDFName.of('P'), PDFRef.of(OWN.whole - up));
    element.set(PDFName.of('S'), PDFName.of('Part'));
    return textOf(top, moved);
  }

  /** A link to another part of the document leads there by the name of the place. */
  #lead(object: PDFDict): void {
    if (object.get(PDFName.of('Subtype')) !== PDFName.of('Link')) return;
    const action = object.lookup(PDFName.of('A'));
    const uri = action instanceof PDFDict ? action.lookup(PDFName.of('URI')) : undefined;
    if (!(uri instanceof PDFString || uri instanceof PDFHexString)) return;
    const to = uri.decodeText();
    if (!to.startsWith(ELSEWHERE)) return;
    const id = decodeURIComponent(to.slice(ELSEWHERE.length));
    this.#wanted.add(id);
    object.delete(PDFName.of('A'));
    object.set(PDFName.of('Dest'), PDFName.of(id));
  }

  /** The outline of section 12.3.3. */
  #outline(bookmarks: readonly Bookmark[]): string {
    const add = (some: readonly Bookmark[], parent: string): string | undefined => {
      const there = some.flatMap((one) => {
        const target = this.#dests.get(one.to);
        return target === undefined ? [] : [{ ...one, target, number: this.#next++ }];
      });
      for (const [at, { title, target, number, below }] of there.entries()) {
        const [before, after] = [there[at - 1], there[at + 1]];
        const inner = add(below, reference(number));
        const beside = `${before ? ` /Prev ${reference(before.number)}` : ''}${after ? ` /Next ${reference(after.number)}` : ''}`;
        // A negative count: folded.
        const folded = inner === undefined ? '' : inner.replace('/Count ', '/Count -');
        this.#object(number, [
          latin(`<</Title ${words(title)} /Parent ${parent} /Dest ${target}${beside} ${folded}>>`),
        ]);
      }
      const [first, last] = [there[0], there.at(-1)];
      return first && last
        ? `/First ${reference(first.number)} /Last ${reference(last.number)} /Count ${there.length}`
        : undefined;
    };
    const all = add(bookmarks, reference(OWN.outline));
    if (all === undefined) return '';
    this.#own('outline', `<</Type /Outlines ${all}>>`);
    return `/Outlines ${reference(OWN.outline)} /PageMode /UseOutlines`;
  }

  /** The root of all tags. */
  #tags(language: string): string {
    const tops = this.#parts.flatMap(({ top }) => top ?? []);
    if (tops.length === 0) return '';
    const root = reference(OWN.tags);
    this.#own('whole', `<</Type /StructElem /S /Document /Lang ${words(language)} /P ${root} /K [${tops.join(' ')}]>>`);
    this.#own('parents', `<</Kids [${this.#parentLeaves.join(' ')}]>>`);
    const ids = this.#idLeaves.length > 0 ? ` /IDTree ${reference(OWN.ids)}` : '';
    if (ids !== '') this.#own('ids', `<</Kids [${this.#idLeaves.join(' ')}]>>`);
    const trees = `/ParentTree ${reference(OWN.parents)} /ParentTreeNextKey ${this.#parentKey}${ids}`;
    this.#own('tags', `<</Type /StructTreeRoot /K ${reference(OWN.whole)} ${trees}>>`);
    return `/MarkInfo <</Marked true>> /StructTreeRoot ${root}`;
  }

  /** The table of section 7.5.4: where each object begins; numbers that nothing has are free. */
  #references(): void {
    const start = this.#length;
    const size = this.#next;
    this.#write(latin(`xref\n0 ${size}\n0000000000 65535 f \n`));
    for (let number = 1; number < size; number += 1) {
      const offset = this.#offsets[number];
      const line = offset === undefined ? '0000000000 65535 f \n' : `${String(offset).padStart(10, '0')} 00000 n \n`;
      this.#write(latin(line));
    }
    const ends = `<</Size ${size} /Root ${reference(OWN.catalog)} /Info ${reference(OWN.info)}>>`;
    this.#write(latin(`trailer\n${ends}\nstartxref\n${start}\n%%EOF\n`));
  }

  #own(name: keyof typeof OWN, text: string): void {
    this.#object(OWN[name], [latin(text)]);
  }

  /** Writes a further object; gives the reference to it. */
  #further(text: string): string {
    const number = this.#next++;
    this.#object(number, [latin(text)]);
    return reference(number);
  }

  #object(number: number, bytes: readonly Uint8Array[]): void {
    this.#offsets[number] = this.#length;
    this.#write(latin(`${number} 0 obj\n`));
    for (const each of bytes) this.#write(each);
    this.#write(latin('\nendobj\n'));
  }

  /** Kept until there is enough for the file system to bother. */
  #write(bytes: Uint8Array): void {
    this.#waiting.push(bytes);
    this.#length += bytes.length;
    if (this.#waiting.length > 4000) this.#flush();
  }

  #flush(): void {
    const bytes = Buffer.concat(this.#waiting.splice(0));
    for (let from = 0; from < bytes.length; ) from += writeSync(this.#file, bytes, from);
  }
}

function listed(object: PDFObject | undefined): PDFObject[] {
  return object instanceof PDFArray ? object.asArray() : [];
}

/** So that the order of the signs is that of the numbers, as section 7.9.6 asks of names. */
function pad(number: number): string {
  return String(number).padStart(6, '0');
}
