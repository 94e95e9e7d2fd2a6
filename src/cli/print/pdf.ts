/** What the browser's PDF lacks: bookmarks, facts about the document, and the same bytes each time. */
import {
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFObject,
  PDFRef,
} from '@cantoo/pdf-lib';

/** All at once: nothing else waits for its turn meanwhile. */
const READING = { updateMetadata: false, parseSpeed: Number.POSITIVE_INFINITY };

export interface About {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  /** ISO date of the book: a clock would make each print another file. */
  readonly date: string;
  readonly language: string;
}

export interface Bookmark {
  readonly title: string;
  /** The id that it leads to. */
  readonly to: string;
  readonly below: readonly Bookmark[];
}

/** By id that a link leads to, the number of its page from 1. */
export async function pagesOfIds(bytes: Uint8Array): Promise<Map<string, number>> {
  const pdf = await PDFDocument.load(bytes, READING);
  const pages = new Map(pdf.getPages().map(({ ref }, at) => [ref.toString(), at + 1]));
  const found = new Map<string, number>();
  for (const [id, target] of destinations(pdf)) {
    const page = target.get(0);
    const number = page instanceof PDFRef ? pages.get(page.toString()) : undefined;
    if (number !== undefined) found.set(id, number);
  }
  return found;
}

function destinations(pdf: PDFDocument): [string, PDFArray][] {
  const dests = pdf.catalog.lookup(PDFName.of('Dests'));
  if (!(dests instanceof PDFDict)) return [];
  return dests.entries().flatMap(([name, value]): [string, PDFArray][] => {
    const target: PDFObject | undefined = value instanceof PDFRef ? pdf.context.lookup(value) : value;
    return target instanceof PDFArray ? [[name.decodeText(), target]] : [];
  });
}

/** The finished file. */
export async function finished(bytes: Uint8Array, about: About, bookmarks: readonly Bookmark[]): Promise<Uint8Array> {
  const pdf = await PDFDocument.load(bytes, READING);
  const day = new Date(`${about.date}T00:00:00Z`);
  pdf.setTitle(about.title, { showInWindowTitleBar: true });
  pdf.setAuthor(about.author);
  pdf.setSubject(about.subject);
  pdf.setCreator('Switchleaf');
  pdf.setProducer('Switchleaf');
  pdf.setCreationDate(day);
  pdf.setModificationDate(day);
  pdf.setLanguage(about.language);
  if (bookmarks.length > 0) addBookmarks(pdf, bookmarks);
  return pdf.save({
    // Streams of objects would halve a tagged file, and take minutes.
    useObjectStreams: false,
    addDefaultPage: false,
    updateFieldAppearances: false,
    objectsPerTick: Number.POSITIVE_INFINITY,
  });
}

/** The outline of ISO 32000-1, section 12.3.3. What no link leads to has no place and is left out. */
function addBookmarks(pdf: PDFDocument, bookmarks: readonly Bookmark[]): void {
  const { context } = pdf;
  const targets = new Map(destinations(pdf));
  const root = context.nextRef();
  const add = (
    some: readonly Bookmark[],
    parent: PDFRef,
  ): { first: PDFRef; last: PDFRef; count: number } | undefined => {
    const there = some.flatMap((one) => {
      const target = targets.get(one.to);
      return target ? [{ ...one, target, ref: context.nextRef() }] : [];
    });
    there.forEach(({ title, target, ref, below }, at) => {
      const entry = context.obj({});
      entry.set(PDFName.of('Title'), PDFHexString.fromText(title));
      entry.set(PDFName.of('Parent'), parent);
      entry.set(PDFName.of('Dest'), target);
      const before = there[at - 1];
      const after = there[at + 1];
      if (before) entry.set(PDFName.of('Prev'), before.ref);
      if (after) entry.set(PDFName.of('Next'), after.ref);
      const inner = add(below, ref);
      if (inner) {
        entry.set(PDFName.of('First'), inner.first);
        entry.set(PDFName.of('Last'), inner.last);
        // Negative: folded.
        entry.set(PDFName.of('Count'), PDFNumber.of(-inner.count));
      }
      context.assign(ref, entry);
    });
    const [first] = there;
    const last = there.at(-1);
    return first && last ? { first: first.ref, last: last.ref, count: there.length } : undefined;
  };
  const all = add(bookmarks, root);
  if (!all) return;
  const outlines = context.obj({});
  outlines.set(PDFName.of('Type'), PDFName.of('Outlines'));
  outlines.set(PDFName.of('First'), all.first);
  outlines.set(PDFName.of('Last'), all.last);
  outlines.set(PDFName.of('Count'), PDFNumber.of(all.count));
  context.assign(root, outlines);
  pdf.catalog.set(PDFName.of('Outlines'), root);
  pdf.catalog.set(PDFName.of('PageMode'), PDFName.of('UseOutlines'));
}
