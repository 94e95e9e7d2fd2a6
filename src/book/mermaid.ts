/**
 * Flow diagrams as Mermaid text, in a subset that any Mermaid reads: `flowchart TD`, one vertex or edge a line, hexagons
 * for questions, stadiums for states, double-sided boxes for other parts, every label in quotes. Characters that mean something to Mermaid, to Markdown or to
 * HTML stand as `#NN;` (decimal code point), which Mermaid itself shows as the character.
 */
import type { FlowEdge, FlowVertex } from './book.ts';

/** Words that Mermaid's lexer takes for itself, even as part of a hyphenated id. */
const RESERVED = new Set([
  'acctitle',
  'accdescr',
  'call',
  'class',
  'classdef',
  'click',
  'default',
  'direction',
  'end',
  'flowchart',
  'graph',
  'href',
  'interpolate',
  'linkstyle',
  'style',
  'subgraph',
]);
const BRACKETS = { question: ['{{', '}}'], state: ['([', '])'], part: ['[[', ']]'] } as const;
const ID = /^[a-z][a-z0-9]*(?:[-_][a-z0-9]+)*$/i;

/** Letters, figures, space and harmless marks. The ligature U+FB02 is a letter, but Mermaid uses it as an escape. */
const PLAIN = /^(?:(?!\ufb02)[\p{L}\p{M}\p{Nd}]|[ .,:()+=/'!?±≥≤°×–—…·-])$/u;

/** The label as it stands between quotes in Mermaid text; `plainLabel` gives it back. */
export function mermaidLabel(text: string): string {
  const characters = [...text];
  return characters
    .map((character, i) => {
      const next = characters[i + 1];
      const edge = i === 0 || next === undefined;
      const plain =
        PLAIN.test(character) &&
        // Spaces at either end would be trimmed.
        !(character === ' ' && edge) &&
        // "style x:#35;" loses its semicolon in Mermaid, so a colon needs a space behind it.
        !(character === ':' && next !== ' ' && next !== undefined) &&
        // "1. x" and "- x" would start a Markdown list.
        !(character === '.' && /^[0-9]+\.$/.test(characters.slice(0, i + 1).join(''))) &&
        !((character === '-' || character === '+') && i === 0);
      return plain ? character : `#${character.codePointAt(0)};`;
    })
    .join('');
}

/** Undoes `mermaidLabel`. */
export function plainLabel(label: string): string {
  return label.replace(/#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)));
}

/**
 * A flow as Mermaid flowchart text, with a newline at the end. Vertices and edges keep their order and ids. Ids are
 * letters, figures, single hyphens and underscores and hold no word that Mermaid reserves; any other is a bug and throws.
 */
export function mermaidText(vertices: readonly FlowVertex[], edges: readonly FlowEdge[]): string {
  for (const { id } of vertices) {
    if (
      !ID.test(id) ||
      id
        .toLowerCase()
        .split(/[-_]/)
        .some((part) => RESERVED.has(part))
    ) {
      throw new Error(`"${id}" cannot be the id of a vertex in Mermaid text.`);
    }
  }
  const lines = ['flowchart TD'];
  for (const vertex of vertices) {
    const [open, close] = BRACKETS[vertex.kind];
    // Mermaid refuses an empty label, and trims this one to nothing.
    lines.push(`  ${vertex.id}${open}"${mermaidLabel(vertex.text) || ' '}"${close}`);
  }
  for (const edge of edges) {
    const label = edge.label === '' ? '' : `|"${mermaidLabel(edge.label)}"|`;
    lines.push(`  ${edge.from} -->${label} ${edge.to}`);
  }
  return `${lines.join('\n')}\n`;
}
