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
  // A table of one column says as much as a flow of one question.
  if (figures.length === 0 && isSaidByOne(cases.map(({ fit, given }) => [given, stateTitle(oracle, id, fit, given)])))
    return [];
  if (figures.length !== 1 || !figure) return [`${figures.length} flows`];
  const parts = await partsOf(figure);
  const faults = cases.flatMap(({ fit, given }) => {
    const reached = walk(parts, oracle, given, fits);
    const wanted = stateTitle(oracle, id, fit, given);
    return reached.toLowerCase() === wanted.toLowerCase()
      ? []
      : [`leads to "${reached}" instead of "${wanted}" for ${JSON.stringify(given)}`];
  });
  return [...faults, ...judgeDrawings(figure, parts)];
}

/** Whether one variable alone tells the state of each case. */
function isSaidByOne(cases: readonly (readonly [Case, string])[]): boolean {
  const variables = Object.keys(cases[0]?.[0] ?? {});
  return variables.some((variable) =>
    [...Map.groupBy(cases, ([given]) => given[variable]).values()].every(
      (alike) => new Set(alike.map(([, state]) => state)).size === 1,
    ),
  );
}

/** The parts of a flow as Mermaid reads them. */
export function partsOf(figure: Element): Promise<Graph[]> {
  return Promise.all(byTag(figure, 'code').map((code) => readMermaid(rawText(code))));
}

export type Graph = Awaited<ReturnType<typeof readMermaid>>;

/** Follows the edges from the first vertex of the first part; throws when not exactly one edge fits. */
export function walk(parts: readonly Graph[], oracle: Oracle, given: Case, fits: readonly Fit[]): string {
  let graph = parts[0] as Graph;
  let vertex = startOf(graph);
  for (;;) {
    const here: Graph['vertices'][number] = vertex;
    const edges = graph.edges.filter(({ from }) => from === here.id);
    if (here.shape === 'subroutine') {
      const next: Graph | undefined = parts[Number(/^Part (\d+)$/.exec(here.text)?.[1]) - 1];
      if (!next || edges.length > 0) throw new Error(`"${here.text}" is no other part`);
      graph = next;
      vertex = startOf(graph);
      continue;
    }
    if (edges.length === 0) return here.text;
    const variable = variableTitled(oracle, here.text, fits);
    const fitting = edges.filter(({ label }) => readValues(oracle, variable, label, fits)(given[variable] ?? ''));
    if (fitting.length !== 1)
      throw new Error(`${fitting.length} ways on from "${here.text}" for ${JSON.stringify(given)}`);
    const next = graph.vertices.find(({ id }) => id === fitting[0]?.to);
    if (!next) throw new Error('an edge leads nowhere');
    vertex = next;
  }
}

/** The one vertex that nothing leads to. */
function startOf({ vertices, edges }: Graph): Graph['vertices'][number] {
  const targets = new Set(edges.map(({ to }) => to));
  const [start, ...others] = vertices.filter(({ id }) => !targets.has(id));
  if (!start || others.length > 0) throw new Error(`${others.length + (start ? 1 : 0)} vertices to start from`);
  return start;
}

/** Every label of a part must stand in each of its drawings, as often as the part has it. */
function judgeDrawings(figure: Element, parts: readonly Graph[]): string[] {
  const places = byClass(figure, 'part');
  if (places.length !== parts.length) return [`${places.length} drawings of ${parts.length} parts`];
  return parts.flatMap((graph, at) => {
    const svgs = byTag(places[at] as Element, 'svg').filter((svg) => byTag(svg, 'title').length > 0);
    const wanted = [...graph.vertices.map(({ text }) => text), ...graph.edges.map(({ label }) => label)]
      .filter((label) => label !== '')
      .sort()
      .join(' | ');
    const drawn = svgs.map((svg) => byTag(svg, 'text').map(textOf).sort().join(' | '));
    if (drawn.length === 0) return ['no drawing'];
    return drawn.filter((words) => words !== wanted).map((words) => `draws ${words} instead of ${wanted}`);
  });
}

/** Text with its line breaks, as in `pre`. */
function rawText(element: Element): string {
  return element.childNodes.map((node) => ('value' in node ? node.value : '')).join('');
}
