/** The command line: words in, a request out. Needs nothing but Node, so that help and wrong usage answer at once. */
import { parseArgs } from 'node:util';

export const help = `Usage: switchleaf COMMAND [options]

Commands
  check           judge the content and say what is wrong with it, without building
  build           build the book; the last good one stays when the content has errors
  print WHAT ...  make PDFs: book, aircraft, sheets, notices, practice, changes, or one by name (book)
  release         keep this revision as data, so that later ones tell what has changed since
  preview         serve the book and show each change of the content as it is saved
  explain CODE    say what a code means and what to do about it
  schemas         write JSON Schemas of the content files, with which editors check and complete

Options
  --content DIR   the content folder (content)
  --out DIR       where the book goes (dist), the PDFs (paper), or the schemas (schemas)
  --aircraft NAME registration or serial: the aircraft whose reference or sheets are printed
  --worksheet     print sheets with their states left out, and a key
  --format FORM   how check, build and release report: text or json (text)
  --port NUMBER   the port of the preview (4321)
  --debug         print the stack of a fault in the tool
  --help          print this
  --version       print the version

Exit status: 0 fine, 1 the content has errors, 2 wrong usage, 3 a fault in the tool.
`;

export interface Folders {
  readonly content: string;
  readonly out: string;
}

export type Format = 'text' | 'json';

/** What is asked for. Folders are as written, not yet resolved. */
export type Request =
  | { readonly command: 'check'; readonly content: string; readonly format: Format }
  | { readonly command: 'build'; readonly content: string; readonly out: string; readonly format: Format }
  | {
      readonly command: 'print';
      readonly what: readonly string[];
      readonly content: string;
      readonly out: string;
      readonly aircraft?: string;
      readonly worksheet: boolean;
    }
  | { readonly command: 'release'; readonly content: string; readonly format: Format }
  | { readonly command: 'preview'; readonly content: string; readonly port: number }
  | { readonly command: 'explain'; readonly code: string }
  | { readonly command: 'schemas'; readonly out: string }
  | { readonly command: 'help' }
  | { readonly command: 'version' };

export type Parsed = { readonly request: Request; readonly debug: boolean } | { readonly wrong: string };

const options = {
  content: { type: 'string' },
  out: { type: 'string' },
  format: { type: 'string' },
  port: { type: 'string' },
  aircraft: { type: 'string' },
  worksheet: { type: 'boolean' },
  debug: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
} as const;

/** The options that each command takes beside --debug and --help. */
const takes: Readonly<Record<string, readonly string[]>> = {
  check: ['content', 'format'],
  build: ['content', 'out', 'format'],
  print: ['content', 'out', 'aircraft', 'worksheet'],
  release: ['content', 'format'],
  preview: ['content', 'port'],
  explain: [],
  schemas: ['out'],
};

/** Reads the words after the program's name. Whatever is wrong comes back as a sentence in `wrong`. */
export function parseArguments(words: readonly string[]): Parsed {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(words);
  } catch (error) {
    // parseArgs explains an unknown option in a sentence; what follows the first one is advice that doesn't fit here.
    const [sentence = ''] = (error as Error).message.split('. ');
    return { wrong: `${sentence.replace(/\.$/, '')}.` };
  }
  const { values, positionals } = parsed;
  const debug = values.debug === true;
  if (values.help === true || positionals[0] === 'help') return { request: { command: 'help' }, debug };
  if (values.version === true) return { request: { command: 'version' }, debug };

  const [command, ...rest] = positionals;
  if (command === undefined) return { wrong: 'A command is missing.' };
  const allowed = Object.hasOwn(takes, command) ? takes[command] : undefined;
  if (allowed === undefined) return { wrong: `There is no command "${command}".` };
  const refused = Object.keys(values).find((name) => name !== 'debug' && !allowed.includes(name));
  if (refused !== undefined) return { wrong: `"${command}" takes no --${refused}.` };
  const empty = Object.entries(values).find(([, value]) => value === '');
  if (empty !== undefined) return { wrong: `--${empty[0]} is empty.` };
  const expected = command === 'explain' ? 1 : command === 'print' ? rest.length : 0;
  if (rest.length > expected) return { wrong: `"${command}" takes no "${rest[expected]}".` };

  const format = values.format ?? 'text';
  if (format !== 'text' && format !== 'json') return { wrong: `--format is text or json, not "${format}".` };
  const port = values.port === undefined ? 4321 : Number(values.port);
  if (!/^\d+$/.test(values.port ?? '0') || port > 65535) {
    return { wrong: `--port is a number from 0 to 65535, not "${values.port}".` };
  }
  const content = values.content ?? 'content';
  switch (command) {
    case 'check':
    case 'release':
      return { request: { command, content, format }, debug };
    case 'build':
      return { request: { command, content, out: values.out ?? 'dist', format }, debug };
    case 'print':
      return {
        request: {
          command,
          what: rest.length > 0 ? rest : ['book'],
          content,
          out: values.out ?? 'paper',
          ...(values.aircraft === undefined ? {} : { aircraft: values.aircraft }),
          worksheet: values.worksheet === true,
        },
        debug,
      };
    case 'preview':
      return { request: { command, content, port }, debug };
    case 'schemas':
      return { request: { command, out: values.out ?? 'schemas' }, debug };
    default: {
      const [code] = rest;
      return code === undefined
        ? { wrong: 'explain needs a code, as SL401, with which a report begins.' }
        : { request: { command: 'explain', code }, debug };
    }
  }
}

function parse(words: readonly string[]) {
  return parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
}
