/** What is lit in the stages of a procedure, and what is new against the stage before. */
import {
  type Behaviour,
  type Compiled,
  type Fit,
  IMPOSSIBLE,
  type OutcomeMeaning,
  stageForms,
} from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { Node } from '../../logic/index.ts';
import type { Attribute, Item } from '../../model/index.ts';
import { attributeTitle } from '../attributes.ts';
import type { LitKind, LitState, LitView, PhaseRow } from '../book-procedures.ts';
import { stateView, text } from '../cells.ts';
import { effectivityOf } from '../effectivity.ts';
import { listedItem } from '../links.ts';
import { cubeWords } from '../phrases.ts';
import { isItemOn } from '../positions.ts';
import { coversOf } from '../sentences.ts';
import type { CourseStage } from './stands.ts';

/** One thing that can be lit: an attribute of an item, or, of a light that names its lamps, one of these. */
export interface Thing {
  readonly behaviour: Behaviour;
  readonly kind: LitKind;
  /** By stage, then by fit: the states in which it is lit, with what each depends on. */
  readonly states: readonly (readonly (readonly LitState[])[])[];
  /** By stage, then by fit: whether it is lit in every case, in whichever of these states. */
  readonly always: readonly (readonly boolean[])[];
  /** The fits that have the item. */
  readonly fits: readonly Fit[];
}

/** Everything that can be lit, in the order of the panels, with what they are in all stages. */
export function thingsIn(compiled: Compiled, course: readonly CourseStage[]): Thing[] {
  return compiled.behaviours.flatMap((behaviour): Thing[] => {
    const { item, attribute } = behaviour;
    if (item.kind === 'supply') return [];
    // What a light drives its lamps to is seen of the lamps.
    if (attribute.id === 'lamp' && item.attributes.some(({ lamp }) => lamp)) return [];
    const forms = course.map(({ onFits }) => stageForms(compiled, behaviour, onFits));
    const states = forms.map((onFits) =>
      onFits.map((form, at) => litStates(compiled, behaviour, form, compiled.fits[at] as Fit)),
    );
    const always = forms.map((onFits) =>
      onFits.map((form) => outcomesOf(compiled, form).every((outcome) => isActive(compiled, attribute, outcome))),
    );
    const fits = compiled.fits.filter((fit) => isItemOn(item, fit));
    return [{ behaviour, kind: item.kind, states, always, fits }];
  });
}

/**
 * What is lit in the stage at an index, what is new in it, and what goes out with it; all of it as if new where it is not
 * `compared` with the stage before. `numbers`: those of lights in drawings.
 */
export function litIn(
  compiled: Compiled,
  things: readonly Thing[],
  at: number,
  compared: boolean,
  numbers: ReadonlyMap<Item, string> = new Map(),
): LitView[] {
  const views: LitView[] = [];
  for (const [item, some] of Map.groupBy(things, ({ behaviour }) => behaviour.item)) {
    const found = new Map<string, { change: LitView['change']; states: readonly LitState[]; by: Map<Fit, Thing[]> }>();
    for (const thing of some) {
      for (const fit of thing.fits) {
        const now = statesOn(thing, at, fit);
        const before = at === 0 || !compared ? [] : statesOn(thing, at - 1, fit);
        const same = JSON.stringify(now) === JSON.stringify(before);
        const change = now.length === 0 ? 'out' : same ? 'stays' : 'new';
        const states = change === 'out' ? before : now;
        if (states.length === 0) continue;
        const key = JSON.stringify([
          change,
          states,
          thing.behaviour.attribute.lamp ? '' : thing.behaviour.attribute.id,
        ]);
        const entry = found.get(key) ?? { change, states, by: new Map<Fit, Thing[]>() };
        entry.by.set(fit, [...(entry.by.get(fit) ?? []), thing]);
        found.set(key, entry);
      }
    }
    for (const { change, states, by } of found.values()) {
      for (const [title, alike] of Map.groupBy(by, ([, lit]) => titleOf(item, some, lit))) {
        // Drawings show its lamps.
        const isDrawn = ({ behaviour: { attribute } }: Thing): boolean =>
          attribute.id === 'lamp' || Boolean(attribute.lamp);
        const number = alike.some(([, lit]) => lit.some(isDrawn)) ? numbers.get(item) : undefined;
        views.push({
          kind: (some[0] as Thing).kind,
          change,
          item: { ...listedItem(item), title },
          ...(number === undefined ? {} : { number }),
          ...(item.kind === 'message' && item.legend !== undefined ? { legend: item.legend } : {}),
          states,
          effectivity: effectivityOf(
            compiled,
            alike.map(([fit]) => fit),
          ),
          everywhere: alike.length === some[0]?.fits.length,
        });
      }
    }
  }
  return views;
}

/** "Logo lights"; "Landing lights: stowage"; "First set of position lights: left lamp and tail lamp" where not all are alike. */
function titleOf(item: Item, all: readonly Thing[], some: readonly Thing[]): string {
  const lamps = all.filter(({ behaviour }) => behaviour.attribute.lamp);
  const [first] = some;
  if (!first?.behaviour.attribute.lamp) return first ? attributeTitle(first.behaviour) : item.title;
  if (some.length === lamps.length) return item.title;
  return `${item.title}: ${list(
    some.map(({ behaviour }) => behaviour.attribute.title),
    'and',
  )}`;
}

/** The states in which a thing is lit in a stage on a fit, with what each depends on; none where it is dark throughout. */
export function statesOn({ states }: Thing, at: number, fit: Fit): readonly LitState[] {
  return states[at]?.[fit.index] ?? [];
}

function litStates(compiled: Compiled, { attribute }: Behaviour, form: Node, fit: Fit): LitState[] {
  const outcomes = outcomesOf(compiled, form);
  if (!outcomes.some((outcome) => isActive(compiled, attribute, outcome))) return [];
  const [only, ...others] = outcomes;
  if (only !== undefined && others.length === 0) return [{ state: stateView(compiled, attribute, only), when: [] }];
  return coversOf(compiled, form)
    .filter(({ outcome }) => isActive(compiled, attribute, outcome))
    .map(({ outcome, columns, cubes }) => ({
      state: stateView(compiled, attribute, outcome),
      when: cubes.flatMap((cube, index) => [
        ...(index === 0 ? [] : [text(', or ')]),
        ...cubeWords(compiled, columns, cube, fit.settled),
      ]),
    }));
}

function outcomesOf({ diagrams }: Compiled, form: Node): number[] {
  return diagrams.terminals(form).filter((outcome) => outcome !== IMPOSSIBLE);
}

/** Whether something is to be seen: a state that is not the one at rest, or what may be such a state. */
function isActive(compiled: Compiled, attribute: Attribute, outcome: number): boolean {
  const meaning: OutcomeMeaning = compiled.outcomes.meaning(outcome);
  if (meaning.kind === 'not stated') return true;
  if ('of' in meaning) return meaning.of.some((each) => isActive(compiled, attribute, each));
  return compiled.outcomes.statesIn(outcome).some((id) => !isRest(attribute, id));
}

/** Dark; of messages not shown, which stands last; of what is never lit at all the first state. */
function isRest({ id: attribute, states }: Attribute, id: string): boolean {
  const state = states.find((each) => each.id === id);
  const unlit = states.every(({ glyph }) => glyph === 'none');
  return state?.glyph === 'dark' || (unlit && state === (attribute === 'display' ? states.at(-1) : states[0]));
}

/** What is lit in some stage, one row an item, over all stages. */
export function phasesOf(things: readonly Thing[], stages: number): PhaseRow[] {
  const seen = things.filter(
    ({ behaviour, kind }) => kind === 'message' || behaviour.attribute.states.some(({ glyph }) => glyph !== 'none'),
  );
  return [...Map.groupBy(seen, ({ behaviour }) => behaviour.item)].flatMap(([item, some]): PhaseRow[] => {
    const cells = Array.from({ length: stages }, (_, at) => phaseCell(some, at));
    if (cells.every(({ lit }) => lit === 'none')) return [];
    return [{ item: { ...listedItem(item), title: item.title }, kind: (some[0] as Thing).kind, cells }];
  });
}

function phaseCell(some: readonly Thing[], at: number): PhaseRow['cells'][number] {
  const fits = some[0]?.fits ?? [];
  const lit = fits.map((fit) => some.flatMap((thing) => statesOn(thing, at, fit)));
  const always = lit.every((states) => states.some(({ when, state }) => when.length === 0 && isPlain(state.glyph)));
  const none = lit.every((states) => states.length === 0);
  const states = lit.flat().map(({ state }) => state.glyph);
  return {
    lit: none ? 'none' : always ? 'all' : 'some',
    flashing: states.length > 0 && states.every((each) => each === 'flashing'),
  };
}

function isPlain(glyph: string): boolean {
  return glyph === 'lit' || glyph === 'flashing' || glyph === 'none';
}
