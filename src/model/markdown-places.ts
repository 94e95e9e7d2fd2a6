/** Where the parts of a Markdown node stand in its file. */
import type { Nodes } from 'mdast';
import type { Directives, LeafDirective, TextDirective } from 'mdast-util-directive';
import type { Place, SourceFile } from '../diagnostics/index.ts';
import type { ScalarNode } from './yaml-source.ts';

export function placeOf(file: SourceFile, node: Nodes): Place {
  const start = node.position?.start.offset ?? 0;
  return { file, start, end: node.position?.end.offset ?? start };
}

/** Whether a directive was written with a label or attributes, so that it was surely meant as one. */
export function hasLabelOrAttributes(file: SourceFile, node: TextDirective): boolean {
  const { start, end } = placeOf(file, node);
  return /[[{]/.test(file.text.slice(start, end));
}

/**
 * An attribute of a directive as a text with places; undefined when the directive has none of that name. Character
 * references in the value move the places behind them, which no expression needs.
 */
export function attributeSource(
  file: SourceFile,
  node: TextDirective | LeafDirective,
  name: string,
): ScalarNode | undefined {
  const value = node.attributes?.[name];
  if (value === null || value === undefined) return undefined;
  const { start, end } = placeOf(file, node);
  const source = file.text.slice(start, end);
  const braces = source.lastIndexOf('{');
  const match = new RegExp(`(?<![\\w-])${name}\\s*=\\s*["']?`).exec(source.slice(braces));
  const from = match ? start + braces + match.index + match[0].length : start;
  return {
    kind: 'scalar',
    value,
    written: value,
    place: { file, start: from, end: Math.min(from + value.length, end) },
    offset: (index) => from + index,
  };
}

/** Where the name of an attribute of a directive stands; the whole directive where it is written in short: `{.wide}`. */
export function attributeKeyPlace(file: SourceFile, node: Directives, name: string): Place {
  const { start, end } = placeOf(file, node);
  const whole = file.text.slice(start, end);
  // What stands within a container may have braces of its own.
  const source = node.type === 'containerDirective' ? (whole.split(/[\r\n]/, 1)[0] ?? '') : whole;
  const braces = source.lastIndexOf('{');
  const found = source.slice(braces).search(new RegExp(`(?<=[{\\s"'])${name}(?=[\\s=}])`));
  if (found < 0) return { file, start, end };
  const from = start + braces + found;
  return { file, start: from, end: from + name.length };
}
