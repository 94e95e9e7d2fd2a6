/**
 * Walks every flow diagram as Mermaid's own parser sees it: each normal case leads along one path to its state. Every label
 * must also stand in the drawing.
 */
import { byClass, byId, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { readMermaid } from '../../helpers/mermaid-graph.ts';
import { readValues, variableTitled } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import {
  type AttributeId,
  attributesOf,
  casesOf,
  followsItsLight,
  groupsByOracle,
  isNormalFor,
  itemAddress,
  stateTitle,
} from './groups.ts';
import type { Pages } from './pages.ts';

/** Faults of the flow diagrams on the items' own pages. */
export async function judgeFlows(pages: Pages, oracle: Oracle): Promise<string[]> {
  const faults: string[] = [];
  for (const id of attributesOf(oracle)) {
    const address = itemAddress(oracle, id.item);
    const section = byId(pages.page(address), `${id.item}-${id.attribute}`);
    const groups = section ? byClass(section, 'group') : [];
    for (const [at, fits] of groupsByOracle(oracle, id).entries()) {
      const group = groups[at];
      const found = group
        ? await judgeFlow(group, oracle, id, fits).catch((error: Error) => [error.message])
        : ['no group'];
      faults.push(...found.map((fault) => `${address} ${id.attribute}: ${fault}`));
    }
  }
  return faults;
}

async function judgeFlow(group: Element, oracle: Oracle, id: AttributeId, fits: readonly Fit[]): Promise<string[]> {
  const figures = byClass(group, 'flow').filter(({ tagName }) => tagName === 'figure');
  const cases = fits.flatMap((fit) => {
    const isNormal = isNormalFor(oracle, id, fit);
    return casesOf(oracle, id, fit)
      .filter(isNormal)
      .map((given) => ({ fit, given }));
  });
  const states = new Set(cases.map(({ fit, given }) => stateTitle(oracle, id, fit, given)));
  if (states.size < 2 || followsItsLight(oracle, id))
    return figures.length === 0 ? [] : ['a flow where there is nothing to ask'];
  const [figure] = figures;
  if (figures.length !== 1 || !figure) return [`${figures.length} flows`];
  const graph = await readMermaid(rawText(byTag(figure, 'code')[0] as Element));
  const faults = cases.flatMap(({ fit, given }) => {
    const reached = walk(graph, oracle, given, fits);
    const wanted = stateTitle(oracle, id, fit, given);
    return reached.toLowerCase() === wanted.toLowerCase()
      ? []
      : [`leads to "${reached}" instead of "${wanted}" for ${JSON.stringify(given)}`];
  });
  return [...faults, ...judgeDrawing(figure, graph)];
}

/** Follows the edges from the first vertex; throws when not exactly one edge fits. */
function walk(
  graph: Awaited<ReturnType<typeof readMermaid>>,
  oracle: Oracle,
  given: Case,
  fits: readonly Fit[],
): string {
  const targets = new Set(graph.edges.map(({ to }) => to));
  const roots = graph.vertices.filter(({ id }) => !targets.has(id));
  let [vertex] = roots;
  if (roots.length !== 1 || !vertex) throw new Error(`${roots.length} vertices to start from`);
  for (;;) {
    const here: { readonly id: string; readonly text: string } = vertex;
    const edges = graph.edges.filter(({ from }) => from === here.id);
    if (edges.length === 0) return here.text;
    const variable = variableTitled(oracle, here.text, fits);
    const fitting = edges.filter(({ label }) => readValues(oracle, variable, label, fits)(given[variable] ?? ''));
    if (fitting.length !== 1)
      throw new Error(`${fitting.length} ways on from "${here.text}" for ${JSON.stringify(given)}`);
    vertex = graph.vertices.find(({ id }) => id === fitting[0]?.to);
    if (!vertex) throw new Error('an edge leads nowhere');
  }
}

/** Every label of the graph must stand in the drawing, as often as the graph has it. */
function judgeDrawing(figure: Element, graph: Awaited<ReturnType<typeof readMermaid>>): string[] {
  const [svg] = byTag(figure, 'svg');
  if (!svg) return ['no drawing'];
  const drawn = byTag(svg, 'text').map(textOf).sort();
  const wanted = [...graph.vertices.map(({ text }) => text), ...graph.edges.map(({ label }) => label)]
    .filter((label) => label !== '')
    .sort();
  return drawn.join('\n') === wanted.join('\n') ? [] : [`draws ${drawn.join(' | ')} instead of ${wanted.join(' | ')}`];
}

/** Text with its line breaks, as in `pre`. */
function rawText(element: Element): string {
  return element.childNodes.map((node) => ('value' in node ? node.value : '')).join('');
}
