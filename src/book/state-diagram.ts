/** The modes of a sequence and the transitions between them, as data for a drawing and as Mermaid text. */
import type { Sequence } from '../model/index.ts';
import type { Inline } from './book.ts';
import type { StateDiagramView } from './book-time.ts';
import { plain } from './cells.ts';
import { mermaidLabel } from './mermaid.ts';

/** `words` says of each transition, in order, what it waits for. */
export function stateDiagram(sequence: Sequence, words: readonly (readonly Inline[])[]): StateDiagramView {
  const idOf = (mode: string): string => `m${sequence.modes.findIndex(({ id }) => id === mode)}`;
  const vertices = sequence.modes.map(({ id, title, final }) => ({ id: idOf(id), text: title, final }));
  const edges = sequence.transitions.flatMap(({ from, to }, index) =>
    from.map((mode) => ({ from: idOf(mode), to: idOf(to), number: index + 1 })),
  );
  const initial = idOf(sequence.initial);
  const lines = [
    'stateDiagram-v2',
    ...vertices.map(({ id, text }) => `  state "${mermaidLabel(text)}" as ${id}`),
    `  [*] --> ${initial}`,
    ...edges.map(
      ({ from, to, number }) => `  ${from} --> ${to} : ${number}, ${mermaidLabel(plain(words[number - 1] ?? []))}`,
    ),
    ...vertices.filter(({ final }) => final).map(({ id }) => `  ${id} --> [*]`),
  ];
  return {
    id: `${sequence.id}-diagram`,
    title: `${sequence.title}: modes and transitions`,
    initial,
    vertices,
    edges,
    key: words,
    mermaid: `${lines.join('\n')}\n`,
  };
}
