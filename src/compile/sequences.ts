/** What the runs of sequences show: endless rounds (errors); modes never reached, traps and rival transitions (findings). */
import { list } from '../diagnostics/index.ts';
import type { Node } from '../logic/index.ts';
import type { Sequence } from '../model/index.ts';
import type { Surroundings } from './behaviour.ts';
import { effectivityText } from './effectivity.ts';
import type { SettledFit } from './fits.ts';
import { type Family, keyOfModes, type Modes } from './mode-search.ts';
import { plainest } from './plainest.ts';
import type { Possible } from './possible.ts';
import { findRun } from './time/index.ts';
import { caseTitle } from './words.ts';

type Families = readonly (readonly Family[])[];

/** Reports what is wrong with the sequences. Says whether nothing can be judged because of it. */
export function judgeSequences(around: Surroundings, families: Families): boolean {
  const { fits, diagnostics } = around;
  const endless = fits.flatMap((fit) =>
    (families[fit.index] ?? []).flatMap((family) => (family.endless ? [{ fit, family, round: family.endless }] : [])),
  );
  const told = new Set<string>();
  for (const { fit, family, round } of endless) {
    const [first] = family.sequences;
    const key = modesText(family, round.modes);
    if (!first || told.has(key)) continue;
    told.add(key);
    const alike = endless.filter((each) => modesText(each.family, each.round.modes) === key);
    const facts = {
      sequences: family.sequences.map(({ title }) => title),
      modes: key,
      case: caseText(around, round.inputs, fit, ...alike.map((each) => each.fit).filter((each) => each !== fit)),
      aircraft: effectivityText(
        around.fleet,
        alike.flatMap(({ fit }) => fit.aircraft),
      ),
    };
    diagnostics.report('SL413', facts, first.place);
  }
  return endless.length > 0;
}

/** Modes that no run reaches, modes that no run leaves, transitions that compete. */
export function reportSequenceFindings(around: Surroundings, families: Families): void {
  for (const sequence of around.fleet.sequences) {
    const having = around.fits.flatMap((fit) =>
      (families[fit.index] ?? [])
        .filter((family) => family.sequences.includes(sequence))
        .map((family) => ({ fit, family, index: family.sequences.indexOf(sequence) })),
    );
    if (having.length === 0) continue;
    const unreached = unreachedModes(sequence, having);
    // A message that is never raised is told of as never shown.
    const isOfMessage = around.fleet.items.some(({ latch }) => latch === sequence.id);
    if (isOfMessage && unreached.length > 0) continue;
    for (const { title: mode, place } of unreached) {
      around.diagnostics.report('SL450', { sequence: sequence.title, mode }, place);
    }
    reportTraps(sequence, having, around);
    reportRivals(sequence, having, around);
  }
}

interface Having {
  readonly fit: SettledFit;
  readonly family: Family;
  readonly index: number;
}

function unreachedModes(sequence: Sequence, having: readonly Having[]): Sequence['modes'] {
  return sequence.modes.filter(
    ({ id }) =>
      !having.some(({ family, index }) =>
        [...family.resting.values(), ...[...family.arrivals.keys()].map((key) => key.split(' '))].some(
          (modes) => modes[index] === id,
        ),
      ),
  );
}

/** A mode that is not marked as final and that no transition ever leaves, with a run that leads there. */
function reportTraps(sequence: Sequence, having: readonly Having[], around: Surroundings): void {
  for (const mode of sequence.modes) {
    if (mode.final) continue;
    const trapped = having.filter(
      ({ family, index }) =>
        [...family.resting.values()].some((modes) => modes[index] === mode.id) &&
        !sequence.transitions.some((each) => each.from.includes(mode.id) && family.taken.has(each)),
    );
    // A mode that can be left on some aircraft has its way out by the fit.
    const [first] = trapped;
    if (!first || trapped.length < having.length) continue;
    const facts = {
      sequence: sequence.title,
      mode: mode.title,
      run: runTo(first, new Map([[sequence.id, mode.id]]), around),
      aircraft: effectivityText(
        around.fleet,
        trapped.flatMap(({ fit }) => fit.aircraft),
      ),
    };
    around.diagnostics.report('SL451', facts, mode.place);
  }
}

function reportRivals(sequence: Sequence, having: readonly Having[], around: Surroundings): void {
  const told = new Set<string>();
  for (const { fit, family, index } of having) {
    for (const rival of family.rivals) {
      if (rival.sequence !== sequence || sequence.priorityDeclared) continue;
      const [first, second] = rival.transitions;
      const wanted = new Map(family.sequences.map(({ id }, at) => [id, rival.modes[at] ?? '']));
      const key = `${sequence.transitions.indexOf(first)} ${sequence.transitions.indexOf(second)}`;
      if (told.has(key)) continue;
      told.add(key);
      const facts = {
        sequence: sequence.title,
        first: titleOf(sequence, first.to),
        second: titleOf(sequence, second.to),
        run: `${runTo({ fit, family, index }, wanted, around)}; then ${caseText(around, rival.inputs, fit)}`,
      };
      const related = [{ place: first.place, label: 'the earlier one, which is taken' }];
      around.diagnostics.report('SL452', facts, second.place, related);
    }
  }
}

/** A run to modes, by the ids of their sequences, in words: one with times where one is found, or else without. */
function runTo({ fit, family, index }: Having, wanted: ReadonlyMap<string, string>, around: Surroundings): string {
  const { sequences, resting } = family;
  const first = `at first ${modesText(
    family,
    sequences.map(({ initial }) => initial),
  )}`;
  const timed = findRun(around, fit, sequences, wanted, around.possible[fit.index]?.whole ?? around.diagrams.no);
  const modes = [...resting.values()].find((each) =>
    sequences.every(({ id }, index) => (wanted.get(id) ?? each[index]) === each[index]),
  );
  return [first, ...(timed ?? (modes ? stepsTo({ fit, family, index }, modes, around) : []))].join('; ');
}

function stepsTo({ fit, family }: Having, modes: Modes, around: Surroundings): string[] {
  const steps: string[] = [];
  for (let at = family.arrivals.get(keyOfModes(modes)); at; at = family.arrivals.get(keyOfModes(at.before))) {
    const wait = at.transition.guard?.holds || at.transition.after || at.transition.since ? ', in time' : '';
    steps.unshift(
      `${caseText(around, at.inputs, fit)}: ${at.sequence.title} ${titleOf(at.sequence, at.transition.to)}${wait}`,
    );
  }
  return steps;
}

function modesText({ sequences }: Family, modes: Modes): string {
  return list(
    sequences.map((sequence, index) => `${sequence.title} ${titleOf(sequence, modes[index] ?? '')}`),
    'and',
  );
}

function titleOf(sequence: Sequence, mode: string): string {
  return sequence.modes.find(({ id }) => id === mode)?.title ?? mode;
}

/** The inputs in words that are right on each of the fits; what they read says the same on all of them. */
function caseText(around: Surroundings, wanted: Node, ...on: readonly [SettledFit, ...SettledFit[]]): string {
  const { diagrams, space, inputs } = around;
  // A number goes with its detectors although no guard reads it.
  const possible = (inputs[on[0].index] as Possible).about(diagrams.support(wanted));
  return caseTitle(space, plainest(diagrams, space, wanted, possible), on);
}
