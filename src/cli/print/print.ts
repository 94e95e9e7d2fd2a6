/** `print`: sheets, notices, one aircraft's reference or the whole book as PDF, by way of a fresh build and a browser of the machine. */
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, resolve } from 'node:path';
import type { Book } from '../../book/index.ts';
import { type Diagnostic, Diagnostics, nearestName } from '../../diagnostics/index.ts';
import type { Request } from '../arguments.ts';
import { type ExitStatus, exitStatus } from '../exit-status.ts';
import { failure, isRefusedByMachine } from '../failure.ts';
import type { Io } from '../io.ts';
import { loadBook } from '../load-book.ts';
import { hasErrors, report } from '../report.ts';
import { chaptersFor, chaptersOf } from './chapters.ts';
import { findChromium } from './find-chromium.ts';
import { aircraftNamed, type Printable, printablesFor } from './printables.ts';
import { NotComposed, type Printer } from './printer.ts';

type PrintRequest = Request & { readonly command: 'print' };

export async function print(request: PrintRequest, io: Io): Promise<ExitStatus> {
  const began = performance.now();
  const { book, diagnostics } = loadBook(resolve(io.cwd, request.content), request.content);
  const nothing = (all: readonly Diagnostic[]) => report(io, 'text', all, 'Nothing was printed.');
  if (book === undefined) return nothing(diagnostics);
  const found = new Diagnostics();
  const wanted = wantedOf(book, request, found);
  const chromium = findChromium();
  if (wanted && chromium === undefined) found.report('SL610', { named: process.env['CHROMIUM_PATH'] ?? '' });
  if (!wanted || chromium === undefined) return nothing([...diagnostics, ...found.all]);

  // From here on there is something to tidy up.
  const { stop } = io;
  const work = mkdtempSync(join(tmpdir(), 'switchleaf-print-'));
  let printer: Printer | undefined;
  try {
    io.stderr.write('Building the book ...\n');
    const site = join(work, 'site');
    mkdirSync(site);
    await (await import('../build-site.ts')).buildSite(book, site);
    const stopped = new Promise<'stopped'>((done) => stop.addEventListener('abort', () => done('stopped')));
    printer = await (await import('./printer.ts')).Printer.start(chromium, site);
    const out = resolve(io.cwd, request.out);
    const all = printAll(book, wanted, request, printer, { out, work }, found, io);
    if (stop.aborted || (await Promise.race([all, stopped])) === 'stopped') return exitStatus.stopped;
    const count = await all;
    const seconds = ((performance.now() - began) / 1000).toFixed(1);
    const shown = relative(io.cwd, out).startsWith('..') ? out : relative(io.cwd, out) || '.';
    const files = count === 1 ? '1 file' : `${count} files`;
    return report(io, 'text', [...diagnostics, ...found.all], `Printed ${files} into ${shown} in ${seconds} s.`);
  } finally {
    await printer?.stop();
    rmSync(work, { recursive: true, force: true });
  }
}

interface Wanted {
  readonly printables: readonly Printable[];
  /** The aircraft that sheets are for, where one was named. */
  readonly serial: string | undefined;
}

/** Undefined after a report. */
function wantedOf(book: Book, { what, aircraft }: PrintRequest, diagnostics: Diagnostics): Wanted | undefined {
  const own = aircraft === undefined ? undefined : aircraftNamed(book, aircraft);
  if (aircraft !== undefined && !own) {
    const nearest = nearestName(
      aircraft,
      book.frame.fleet.map(({ registration }) => registration),
    );
    diagnostics.report('SL612', { name: aircraft, ...(nearest === undefined ? {} : { nearest }) });
    return undefined;
  }
  const found = printablesFor(book, what, own?.serial);
  if ('printables' in found) return { printables: found.printables, serial: own?.serial };
  const nearest = nearestName(found.unknown, found.names);
  diagnostics.report('SL611', { word: found.unknown, ...(nearest === undefined ? {} : { nearest }) });
  return undefined;
}

/** Prints one after another, each written as soon as it is done, so that no more than one is held. Gives how many were written. */
async function printAll(
  book: Book,
  { printables, serial }: Wanted,
  request: PrintRequest,
  printer: Printer,
  { out, work }: { readonly out: string; readonly work: string },
  diagnostics: Diagnostics,
  io: Io,
): Promise<number> {
  let written = 0;
  for (const [at, printable] of printables.entries()) {
    const tell = (words: string): void => {
      io.stderr.write(`[${at + 1}/${printables.length}] ${printable.name}: ${words}\n`);
    };
    tell('printing');
    try {
      const made = join(work, 'made.pdf');
      const suffix = await printOne(book, printable, serial, request, printer, made, tell);
      const file = join(out, `${printable.name}${suffix}.pdf`);
      mkdirSync(dirname(file), { recursive: true });
      copyFileSync(made, file);
      written += 1;
    } catch (error) {
      if (error instanceof NotComposed) diagnostics.report('SL613', { name: printable.name, message: error.message });
      else if (isRefusedByMachine(error)) diagnostics.report('SL609', { out: request.out, reason: failure(error) });
      else throw error;
      if (hasErrors(diagnostics.all.filter(({ code }) => code === 'SL609'))) break;
    }
  }
  return written;
}

/** Prints into a file; gives what its name ends in beside the name of what was asked for. */
async function printOne(
  book: Book,
  printable: Printable,
  serial: string | undefined,
  { worksheet }: PrintRequest,
  printer: Printer,
  file: string,
  tell: (words: string) => void,
): Promise<string> {
  const { operator, type, revision, date, language, title } = book.frame;
  const online = book.frame.address ?? '';
  const about = { author: operator, subject: `${type}, revision ${revision}, as of ${date}`, date, language };
  if (printable.what === 'page') {
    const { page, composed } = printable;
    const query = {
      day: date,
      ...(serial === undefined ? {} : { aircraft: serial }),
      ...(worksheet ? { variant: 'worksheet' } : {}),
    };
    const request = { composed, online, about: { ...about, title: page.title }, file };
    await printer.page(page.address, composed ? query : {}, request);
    if (!composed) return '';
    return `${serial === undefined ? '' : `-${serial}`}${worksheet ? '-worksheet' : ''}`;
  }
  const own = printable.what === 'aircraft' ? aircraftNamed(book, printable.serial) : undefined;
  const document = {
    title: own ? `${own.registration}: ${title}` : title,
    subtitle: own ? `${own.registration}, serial ${own.serial}, alone` : '',
    frame: book.frame,
    chapters: own ? chaptersFor(book, own.serial) : chaptersOf(book),
  };
  const request = { online, serial: own?.serial ?? '', about: { ...about, title: document.title }, file };
  await printer.document(document, request, tell);
  return '';
}
