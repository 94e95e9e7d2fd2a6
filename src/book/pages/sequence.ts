/** The page of a sequence: its modes, what leads from one to another and when, and what reads it. */
import { type Compiled, type Fit, formatNumber, holdsOn, type SettledFit } from '../../compile/index.ts';
import { type Duration, durationWords, type Expression } from '../../language/index.ts';
import type { Fleet, Mode, Sequence, Store, Transition } from '../../model/index.ts';
import { panelAddress, SEQUENCES, sequenceAddress } from '../addresses.ts';
import type { Inline } from '../book.ts';
import type { ModeView, SequencePage, SequencesPage, StoreView, TransitionView } from '../book-time.ts';
import { plain, text } from '../cells.ts';
import { effectivityOf } from '../effectivity.ts';
import { expressionWords } from '../expression-words.ts';
import { citations, definedBase, itemsReading, listedItem } from '../links.ts';
import { listedNames, listedSequence, listedSound, listedTimeline, placeOfTimeline } from '../links-time.ts';
import { namedIn, signalsIn } from '../mentions.ts';
import { stateDiagram } from '../state-diagram.ts';
import { timelineView } from '../timelines.ts';
import { trailTo } from '../trail.ts';

export function sequencesPage(compiled: Compiled): SequencesPage {
  const { fleet } = compiled;
  const { sequences, timelines } = fleet;
  return {
    kind: 'sequences',
    address: SEQUENCES,
    title: 'Sequences and timelines',
    trail: trailTo(),
    sequences: sequences.filter(({ kind }) => kind === 'sequence').map(listedSequence),
    latches: sequences.filter(({ kind }) => kind === 'latch').map(listedSequence),
    timelines: timelines.map((timeline) => listedTimeline(fleet, timeline)),
    own: timelines
      .filter((timeline) => placeOfTimeline(compiled.fleet, timeline) === SEQUENCES)
      .map((timeline) => timelineView(compiled, timeline)),
  };
}

export function sequencePage(compiled: Compiled, sequence: Sequence): SequencePage {
  const { fleet, fits } = compiled;
  const panel = fleet.panels.find(({ id }) => id === sequence.panel);
  if (!panel) throw new Error(`${sequence.id} stands on no panel`);
  const having = fits.filter((fit) => fit.settled.some((settled) => hasSequence(compiled, sequence, settled)));
  const transitions = sequence.transitions.map((_, index) => transitionView(compiled, sequence, index, having));
  const guards = sequence.transitions.flatMap(expressionsOf);
  const flows = sequence.stores.flatMap((store) => store.flows.map(({ when }) => when));
  const shown = fleet.timelines.filter(({ shows }) => shows.some(({ id }) => id === sequence.id));
  const here = shown.filter((timeline) => placeOfTimeline(compiled.fleet, timeline) === sequenceAddress(sequence));
  const items = itemsReading(compiled, sequence.id);
  return {
    kind: 'sequence',
    address: sequenceAddress(sequence),
    title: sequence.title,
    trail: trailTo(panel),
    ...definedBase(fleet, sequence),
    citations: citations(fleet, [sequence, ...sequence.transitions]),
    latch: sequence.kind === 'latch',
    panel: { to: panelAddress(panel), title: panel.title },
    fitted: effectivityOf(compiled, having),
    modes: sequence.modes.map((mode) => modeView(compiled, sequence, mode)),
    priorityDeclared: sequence.priorityDeclared,
    transitions,
    signals: signalsIn(fleet, [...guards, ...flows]).map(({ title, expression }) => ({
      title,
      words: expressionWords(fleet, expression),
    })),
    stores: sequence.stores.map((store) => storeView(compiled, store)),
    diagram: stateDiagram(sequence, transitions.map(transitionWords)),
    timelines: here.map((timeline) => timelineView(compiled, timeline)),
    timelinesElsewhere: shown
      .filter((timeline) => !here.includes(timeline))
      .map((timeline) => listedTimeline(fleet, timeline)),
    items: items.filter(({ kind }) => kind !== 'message').map(listedItem),
    messages: items.filter(({ kind }) => kind === 'message').map(listedItem),
    sounds: fleet.sounds
      .filter(({ triggers }) =>
        triggers.some(
          ({ moves, becomes, while: during }) =>
            moves === sequence.id ||
            namesIt(
              compiled,
              sequence,
              [becomes, during].filter((each) => each !== undefined),
            ),
        ),
      )
      .map(listedSound),
    sequences: fleet.sequences
      .filter((other) => other !== sequence && namesIt(compiled, sequence, other.transitions.flatMap(expressionsOf)))
      .map(listedSequence),
    reads: listedNames(fleet, [...guards, ...flows], sequence.id),
  };
}

function hasSequence({ diagrams, space, expressions }: Compiled, sequence: Sequence, fit: SettledFit): boolean {
  return holdsOn(diagrams, space, expressions.itemFitted(sequence), fit);
}

/** The fits of which one that they may be has a family of sequences that passes. */
function fitsWhere(compiled: Compiled, passes: (family: Compiled['families'][number][number]) => boolean): Fit[] {
  return compiled.fits.filter(({ settled }) =>
    settled.some(({ index }) => (compiled.families[index] ?? []).some(passes)),
  );
}

function modeView(compiled: Compiled, sequence: Sequence, mode: Mode): ModeView {
  const reached = fitsWhere(compiled, ({ sequences, resting, arrivals }) => {
    const index = sequences.indexOf(sequence);
    const passing = [...arrivals.values()].flatMap((each) => (each.sequence === sequence ? [each.transition.to] : []));
    return index >= 0 && ([...resting.values()].some((modes) => modes[index] === mode.id) || passing.includes(mode.id));
  });
  const sets = mode.sets.map(({ store, level }) => {
    const found = sequence.stores.find(({ id }) => id === store);
    return `sets ${found?.title ?? store} to ${formatNumber(level)} ${found?.unit ?? ''}`;
  });
  return {
    id: mode.id,
    title: mode.title,
    says: mode.says,
    marks: [
      ...(mode.id === sequence.initial ? ['at first'] : []),
      ...(mode.id === sequence.normal ? ['normal'] : []),
      ...(mode.final ? ['final'] : []),
      ...sets,
    ],
    ...(reached.length === 0 ? {} : { reached: effectivityOf(compiled, reached) }),
  };
}

function transitionView(compiled: Compiled, sequence: Sequence, index: number, having: readonly Fit[]): TransitionView {
  const { fleet } = compiled;
  const transition = sequence.transitions[index] as Transition;
  const title = (mode: string): string => sequence.modes.find(({ id }) => id === mode)?.title ?? mode;
  const { guard } = transition;
  const taken = fitsWhere(compiled, (family) => family.taken.has(transition));
  return {
    number: index + 1,
    from: transition.from.map(title),
    to: title(transition.to),
    waits: guard ? expressionWords(fleet, guard.when) : [text('in every case')],
    delay: delayWords(fleet, transition),
    ...(taken.length === having.length ? {} : { on: effectivityOf(compiled, taken) }),
  };
}

/** "for 2 s without a break", "after 60 s in the mode", "2 s after this begins: ..."; empty where it is taken at once. */
export function delayWords(fleet: Fleet, { guard, after, since }: Transition): Inline[] {
  const delays: Inline[][] = [
    ...(guard?.holds ? [[text(`for ${durationText(guard.holds)} without a break`)]] : []),
    ...(after ? [[text(`after ${durationText(after)} in the mode`)]] : []),
    ...(since
      ? [
          [
            text(`${durationText(since.delay)} after this begins${since.restarts ? ', each time anew' : ''}: `),
            ...expressionWords(fleet, since.event),
          ],
        ]
      : []),
  ];
  return delays.flatMap((words, at) => (at === 0 ? words : [text(', and '), ...words]));
}

/** "with the APU speed at 95 % or above, for 2 s without a break". */
function transitionWords({ waits, delay }: TransitionView): Inline[] {
  const told = [waits, delay].filter((words) => !['', 'in every case'].includes(plain(words)));
  return told.flatMap((words, at) => (at === 0 ? words : [text(', '), ...words]));
}

/** "2 s", "60 s ± 5 s". */
function durationText({ seconds, tolerance }: Duration): string {
  return `${durationWords(seconds)}${tolerance === undefined ? '' : ` ± ${durationWords(tolerance)}`}`;
}

function storeView({ fleet }: Compiled, store: Store): StoreView {
  const { unit } = store;
  return {
    id: store.id,
    title: store.title,
    range: `0 to ${formatNumber(store.capacity)} ${unit}, ${formatNumber(store.start)} ${unit} at first`,
    flows: store.flows.map(({ kind, when, perMinute }) => ({
      rate: `${kind} by ${formatNumber(perMinute)} ${unit} a minute`,
      when: expressionWords(fleet, when),
    })),
  };
}

function expressionsOf({ guard, since }: Transition): Expression[] {
  return [...(guard ? [guard.when] : []), ...(since ? [since.event] : [])];
}

function namesIt({ fleet }: Compiled, sequence: Sequence, expressions: readonly Expression[]): boolean {
  return namedIn(fleet, expressions).some(({ kind, id }) => kind === 'sequence' && id === sequence.id);
}
