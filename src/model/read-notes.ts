/** notes/*.md: the author's own prose on one thing or several. */
import type { SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Aircraft, Note } from './fleet.ts';
import { PAGED } from './names.ts';
import { ProseReader, parseProse, readFrontMatter } from './read-prose.ts';
import { frontMatterSchema } from './schema.ts';
import { itemsUnder, scalarUnder } from './yaml-source.ts';

/** Reads one note. Undefined when its front matter cannot be used; what is wrong in the text is reported and left out. */
export function readNote(
  file: SourceFile,
  aircraft: readonly Aircraft[] | undefined,
  context: Context,
): Note | undefined {
  const front = readFrontMatter(file, 'note', frontMatterSchema, context);
  if (!front) return undefined;
  const body = parseProse(file, front);
  const reader = new ProseReader(file, 'note', aircraft, context);
  reader.check(body, () => false);
  return {
    id: file.path
      .replace(/^notes\//, '')
      .replace(/\.md$/, '')
      .replaceAll('/', '-'),
    title: scalarUnder(front.node, 'title')?.written ?? '',
    about: itemsUnder(front.node, 'about').flatMap((node) =>
      node.kind === 'scalar' && context.names.resolve(node.written, PAGED, node.place) ? [node.written] : [],
    ),
    source: file,
    body,
    claims: reader.claims,
    quotes: reader.quotes,
    place: front.node.place,
  };
}
