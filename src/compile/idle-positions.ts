/** Findings about controls: positions between which nothing changes. */
import type { Diagnostics } from '../diagnostics/index.ts';
import type { Expression } from '../language/index.ts';
import type { Node } from '../logic/index.ts';
import type { Control } from '../model/index.ts';
import { expressionsOfSequence } from './cells.ts';
import type { Compiled } from './compile.ts';
import { effectivityText } from './effectivity.ts';
import type { SettledFit } from './fits.ts';
import { IMPOSSIBLE } from './outcomes.ts';
import { positionsOf } from './positions.ts';
import { controlMeaning, levelOf, optionLevels, valueOfPosition } from './space.ts';

/** Positions between which nothing changes on any aircraft that has both. */
export function reportIdlePositions(compiled: Compiled, diagnostics: Diagnostics): void {
  const readers = readersOf(compiled);
  for (const control of compiled.fleet.controls) reportIdle(control, compiled, readers, diagnostics);
}

type Readers = ReadonlyMap<number, readonly Node[]>;

function reportIdle(control: Control, compiled: Compiled, readers: Readers, diagnostics: Diagnostics): void {
  const { space, diagrams, settled, fleet } = compiled;
  const meaning = controlMeaning(space, control);
  const level = levelOf(space, control.id);
  const known = new Map<SettledFit, readonly Node[]>();
  const readersOn = (fit: SettledFit): readonly Node[] => {
    const found = known.get(fit) ?? readersWhere(compiled, fit, level, readers.get(level) ?? []);
    known.set(fit, found);
    return found;
  };
  const alike = (a: number, b: number, fit: SettledFit): boolean =>
    readersOn(fit).every((node) => {
      const at = (value: number): Node => diagrams.restrict(node, level, valueOfPosition(meaning, control, value));
      return diagrams.merge(at(a), at(b), IMPOSSIBLE) !== undefined;
    });
  const having = settled
    .map((fit) => ({ fit, positions: positionsOf(control, fit) }))
    .filter(({ positions }) => positions.length > 1);
  const pairs = control.positions.flatMap((_, a) =>
    control.positions.flatMap((__, b) => {
      const both = having.filter(({ positions }) => a < b && positions.includes(a) && positions.includes(b));
      return both.length > 0 ? [{ a, b, fits: both.map(({ fit }) => fit) }] : [];
    }),
  );
  const same = pairs.filter(({ a, b, fits }) => fits.every((fit) => alike(a, b, fit)));
  if (same.length === 0) return;
  const aircraft = (fits: readonly SettledFit[]): string =>
    effectivityText(
      fleet,
      fits.flatMap((fit) => fit.aircraft),
    );
  const legend = (position: number): string => control.positions[position]?.legend ?? '';
  if (same.length === pairs.length) {
    const facts = { control: control.title, positions: [], aircraft: aircraft(having.map(({ fit }) => fit)) };
    diagnostics.report('SL454', facts, control.place);
    return;
  }
  for (const { a, b, fits } of same) {
    const facts = { control: control.title, positions: [legend(a), legend(b)], aircraft: aircraft(fits) };
    diagnostics.report('SL454', facts, control.positions[b]?.place);
  }
}

/** The readers of a control's variable on a fit, in the cases that can happen there. */
function readersWhere(
  { space, diagrams, possible }: Compiled,
  fit: SettledFit,
  level: number,
  readers: readonly Node[],
): readonly Node[] {
  const here = [...new Set(readers.map((node) => diagrams.restrictAll(node, optionLevels(space, fit))))];
  return here.flatMap((node) => {
    const support = diagrams.support(node);
    if (!support.includes(level)) return [];
    const care = possible[fit.index]?.about(support) ?? diagrams.yes;
    // Positions lead to different modes: what they change is then in the guards, with inputs that have both positions in common.
    const modes = diagrams.support(care).filter((each) => space.meanings[each]?.kind === 'sequence');
    return [diagrams.ite(diagrams.exists(care, modes), node, diagrams.terminal(IMPOSSIBLE))];
  });
}

/** By level, everything that a position could change: behaviours, guards of sequences, what sounds wait for. */
function readersOf({ fleet, space, diagrams, expressions, behaviours }: Compiled): Readers {
  // Truth values become outcomes of their own, since 0 is what cannot happen.
  const truth = (node: Node): Node => diagrams.map('truth', node, (value) => value + 1);
  const asked = (expression: Expression): Node => truth(expressions.compile(expression, true));
  const readers = [
    ...behaviours.map(({ node }) => node),
    ...fleet.sequences.flatMap((sequence) => [...expressionsOfSequence(sequence)].map(asked)),
    ...fleet.sounds.flatMap(({ triggers }) =>
      triggers.flatMap(({ becomes, while: during }) =>
        [becomes, during].flatMap((each) => (each ? [asked(each)] : [])),
      ),
    ),
    // A sound that follows each movement of a control tells its positions apart.
    ...fleet.sounds.flatMap(({ triggers }) =>
      triggers.flatMap(({ moves }) => {
        const level = moves === undefined ? undefined : space.levelOf.get(moves);
        if (level === undefined) return [];
        const size = space.variables[level]?.size ?? 0;
        return Array.from({ length: size }, (_, value) => truth(diagrams.literal(level, [value])));
      }),
    ),
  ];
  const byLevel = new Map<number, Node[]>();
  for (const node of new Set(readers)) {
    for (const level of diagrams.support(node)) {
      const others = byLevel.get(level);
      if (others) others.push(node);
      else byLevel.set(level, [node]);
    }
  }
  return byLevel;
}
