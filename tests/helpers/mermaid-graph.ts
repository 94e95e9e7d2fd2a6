/**
 * Reads Mermaid flowchart text with Mermaid's own parser and lists what it found, for tests that walk a diagram as any
 * Mermaid sees it. Works in Vitest's node environment: the document that Mermaid wants comes from happy-dom.
 */
import { Window } from 'happy-dom';

export interface MermaidGraph {
  readonly vertices: readonly { readonly id: string; readonly text: string; readonly shape: string }[];
  readonly edges: readonly { readonly from: string; readonly to: string; readonly label: string }[];
}

/** Mermaid's flowchart database, as far as it is read here. */
interface FlowDatabase {
  getVertices(): ReadonlyMap<string, { readonly id: string; readonly text?: string; readonly type?: string }>;
  getEdges(): readonly { readonly start: string; readonly end: string; readonly text: string }[];
}

let loading: Promise<typeof import('mermaid').default> | undefined;

async function load(): Promise<typeof import('mermaid').default> {
  if (globalThis.document === undefined) {
    const window = new Window();
    Object.assign(globalThis, { window, document: window.document });
  }
  const { default: mermaid } = await import('mermaid');
  // The first parse registers the kinds of diagram.
  await mermaid.parse('flowchart TD\n  a');
  return mermaid;
}

/** Mermaid keeps `#35;` as a mark of its own until it draws; a browser then shows the character. */
function shown(text: string): string {
  const mark = /\ufb02\u00b0\u00b0(\d+)\u00b6\u00df/g;
  if (text.replace(mark, '').includes('\ufb02\u00b0')) throw new Error(`A named entity in a label: ${text}`);
  return text.replace(mark, (_, code: string) => String.fromCodePoint(Number(code)));
}

/** The vertices in the order in which they stand in the text, and the edges likewise. Throws Mermaid's error. */
export async function readMermaid(text: string): Promise<MermaidGraph> {
  loading ??= load();
  const mermaid = await loading;
  const diagram = await mermaid.mermaidAPI.getDiagramFromText(text);
  const database = diagram.db as unknown as FlowDatabase;
  return {
    vertices: [...database.getVertices().values()].map((vertex) => ({
      id: vertex.id,
      text: shown(vertex.text ?? vertex.id),
      shape: vertex.type ?? '',
    })),
    edges: database.getEdges().map((edge) => ({ from: edge.start, to: edge.end, label: shown(edge.text) })),
  };
}

export interface MermaidStates {
  readonly states: readonly { readonly id: string; readonly text: string }[];
  /** `[*]` is `start` or `end`. */
  readonly transitions: readonly { readonly from: string; readonly to: string; readonly label: string }[];
}

/** Mermaid's database of states, as far as it is read here. */
interface StateDatabase {
  getStates(): ReadonlyMap<string, { readonly id: string; readonly descriptions: readonly string[] }>;
  getRelations(): readonly { readonly id1: string; readonly id2: string; readonly relationTitle?: string }[];
}

/** The states and transitions of a state diagram, in the order in which they stand. Throws Mermaid's error. */
export async function readMermaidStates(text: string): Promise<MermaidStates> {
  loading ??= load();
  const mermaid = await loading;
  const diagram = await mermaid.mermaidAPI.getDiagramFromText(text);
  const database = diagram.db as unknown as StateDatabase;
  const plainId = (id: string): string => id.replace(/^root_/, '');
  return {
    states: [...database.getStates().values()]
      .filter(({ id }) => !id.startsWith('root_'))
      .map(({ id, descriptions }) => ({ id, text: shown(descriptions.join(' ')) })),
    transitions: database.getRelations().map(({ id1, id2, relationTitle = '' }) => ({
      from: plainId(id1),
      to: plainId(id2),
      label: shown(relationTitle),
    })),
  };
}
