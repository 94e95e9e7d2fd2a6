/** One behaviour in the normal cases of a fit, beside the same cases with some conditions away from their normal values. */
import {
  atRest,
  type Behaviour,
  type Compiled,
  type Fit,
  formOfFit,
  IMPOSSIBLE,
  normalValue,
  normalValues,
  type SettledFit,
} from '../compile/index.ts';
import type { Node } from '../logic/index.ts';

/** Conditions by level, each at a value that is not its normal one; in ascending order of levels. */
export type Cause = ReadonlyMap<number, number>;

/** Each normal case with what the item is in it and what it is then, as a pair; undefined where the cause changes nothing. */
export function lossForm(compiled: Compiled, behaviour: Behaviour, fit: Fit, cause: Cause): Node | undefined {
  const { diagrams, outcomes } = compiled;
  if (!fit.settled.some(({ index }) => isTouched(compiled, behaviour.settledForms[index] as Node, cause)))
    return undefined;
  const both = fit.settled.map((settled) => formsOn(compiled, behaviour, settled, cause));
  const [normally, then] = [0, 1].map((side) =>
    formOfFit(
      diagrams,
      outcomes,
      fit,
      both.map((pair) => pair[side] as Node),
    ),
  ) as [Node, Node];
  if (normally === then) return undefined;
  const modes = normalModes(compiled, normally);
  const impossible = (outcome: number): boolean => outcome === IMPOSSIBLE;
  return diagrams.apply(
    'normally and then',
    diagrams.restrictAll(normally, modes),
    diagrams.restrictAll(then, modes),
    (a, b) => (impossible(a) || impossible(b) ? IMPOSSIBLE : outcomes.ofPair([a, b])),
  );
}

/** The pairs that occur, each once, in the order of their states. */
export function lossPairs(
  compiled: Compiled,
  behaviour: Behaviour,
  fit: Fit,
  cause: Cause,
): (readonly [number, number])[] {
  const { diagrams, outcomes } = compiled;
  const form = lossForm(compiled, behaviour, fit, cause);
  if (form === undefined) return [];
  return diagrams
    .terminals(form)
    .filter((pair) => pair !== IMPOSSIBLE)
    .sort((a, b) => outcomes.compare(a, b))
    .map((pair) => outcomes.pair(pair));
}

function isMode({ space }: Compiled, level: number): boolean {
  return space.meanings[level]?.kind === 'sequence';
}

/** Whether a cause can change what a form says: it reads one of the conditions, or a mode, which can follow any. */
function isTouched(compiled: Compiled, form: Node, cause: Cause): boolean {
  return compiled.diagrams.support(form).some((level) => cause.has(level) || isMode(compiled, level));
}

/** What an item is in normal cases and what it is then. A mode that cannot stand then goes on at once. */
function formsOn(compiled: Compiled, behaviour: Behaviour, fit: SettledFit, cause: Cause): readonly [Node, Node] {
  const { diagrams, space } = compiled;
  const form = inNormalPositions(compiled, behaviour.settledForms[fit.index] as Node);
  const normals = new Map(
    space.meanings.flatMap((meaning, level): [number, number][] => {
      const value = normalValue(meaning);
      return value === undefined || isMode(compiled, level) ? [] : [[level, value]];
    }),
  );
  if (!isTouched(compiled, form, cause)) {
    const usual = standing(compiled, fit, form, normals, []);
    return [usual, usual];
  }
  const lossy = new Map([...normals, ...cause]);
  const follows = diagrams.support(form).some((level) => isMode(compiled, level));
  const then = follows ? atRest(compiled, fit, form, lossy, normals) : standing(compiled, fit, form, lossy, []);
  // Where sequences come to rest can hang on modes that the item itself does not read: they too must be able to stand.
  return [standing(compiled, fit, form, normals, diagrams.support(then)), then];
}

/** The form with cases that a control makes abnormal taken out: a lamp check is nothing that a loss does. */
function inNormalPositions({ diagrams, space }: Compiled, form: Node): Node {
  let usual = form;
  for (const level of diagrams.support(form)) {
    const meaning = space.meanings[level];
    const values = meaning?.kind === 'control' ? normalValues(meaning) : undefined;
    if (values) usual = diagrams.ite(diagrams.literal(level, values), usual, diagrams.terminal(IMPOSSIBLE));
  }
  return usual;
}

/** A form where some facts hold and the case can stand, as far as it and what else is `read` say. */
function standing(
  { diagrams, possible }: Compiled,
  { index }: SettledFit,
  form: Node,
  facts: ReadonlyMap<number, number>,
  read: readonly number[],
): Node {
  const here = diagrams.restrictAll(form, facts);
  const happens = (possible[index] as Compiled['possible'][number]).only([...diagrams.support(here), ...read], facts);
  return diagrams.ite(happens, here, diagrams.terminal(IMPOSSIBLE));
}

/** The normal modes of sequences that have one, as far as they can stand. */
function normalModes({ diagrams, space }: Compiled, node: Node): Map<number, number> {
  const modes = new Map<number, number>();
  for (const level of diagrams.support(node)) {
    const meaning = space.meanings[level];
    const normal = normalValue(meaning);
    if (meaning?.kind !== 'sequence' || normal === undefined) continue;
    const usual = diagrams.restrictAll(node, new Map([...modes, [level, normal]]));
    if (usual !== diagrams.terminal(IMPOSSIBLE)) modes.set(level, normal);
  }
  return modes;
}
