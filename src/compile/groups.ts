/**
 * Fit groups: two fits are alike on an attribute when their normal forms are the same node. That is the only equality.
 *
 * The normal form of an attribute on a fit maps each case that can happen to what can be said of it: its state; which it
 * may be, where a detector's tolerance leaves it open; that it is not stated; or, on a fit with unknown options, that it
 * depends on them.
 */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Aircraft, Attribute, Item } from '../model/index.ts';
import type { Fit, Holder, SettledFit } from './fits.ts';
import { IMPOSSIBLE, NOT_FITTED, type Outcomes } from './outcomes.ts';
import type { Possible } from './possible.ts';
import { isHidden, levelOf, optionLevels, type Space } from './space.ts';

/** Aircraft on which an attribute behaves the same. */
export interface Group {
  readonly fits: readonly Fit[];
  /** On the book's date; empty where the group comes later. */
  readonly aircraft: readonly Aircraft[];
  /** With the times of those that join or leave. */
  readonly holders: readonly Holder[];
  /** The normal form; its support holds no option. */
  readonly form: Node;
}

/** One attribute of one item, over the whole fleet. */
export interface Behaviour {
  readonly item: Item;
  readonly attribute: Attribute;
  /** From extended cases to outcomes, over all fits. */
  readonly node: Node;
  /** The levels that it depends on on some fit, and the options that decide between fits, ascending. None is hidden. */
  readonly own: readonly number[];
  /** Parallel to the fits. */
  readonly forms: readonly Node[];
  /** Parallel to the settled fits: what the forms of fits with unknown options are made of. */
  readonly settledForms: readonly Node[];
  /** In the order of the fleet's first aircraft of each. */
  readonly groups: readonly Group[];
}

/** What a control's or a sequence's variable can be on a fit, by level. */
export type Settings = ReadonlyMap<number, readonly number[]>;

/**
 * A behaviour on one fit: without options, and the same for settings that a control or a sequence cannot have there as for one
 * that it can, so that it depends on nothing that no aircraft of the fit could show.
 */
export function behaviourOn(
  diagrams: Diagrams,
  space: Space,
  node: Node,
  fit: Pick<SettledFit, 'options'>,
  settings: Settings,
): Node {
  const here = diagrams.restrictAll(node, optionLevels(space, fit));
  return diagrams.support(here).reduce((rest, level) => {
    const values = settings.get(level) ?? [];
    const [some] = values;
    if (some === undefined) return rest;
    return diagrams.ite(diagrams.literal(level, values), rest, diagrams.restrict(rest, level, some));
  }, here);
}

/**
 * The levels that a behaviour depends on on one of the fits at least, and the options that it reads, ascending. A detector
 * counts as its number.
 */
export function ownLevels(diagrams: Diagrams, space: Space, node: Node, onFits: readonly Node[]): number[] {
  const options = diagrams.support(node).filter((level) => space.meanings[level]?.kind === 'option');
  const read = new Set([...new Set(onFits)].flatMap((each) => diagrams.support(each)));
  const seen = [...read].flatMap((level) => {
    const meaning = space.meanings[level];
    if (meaning?.kind === 'detector') return [levelOf(space, meaning.detector.number)];
    return isHidden(meaning) ? [] : [level];
  });
  return [...new Set([...options, ...seen])].sort((a, b) => a - b);
}

/** The normal form of a behaviour on one settled fit, `here`, projected on `own`, the levels that matter on some fit. */
export function normalForm(
  diagrams: Diagrams,
  outcomes: Outcomes,
  space: Space,
  here: Node,
  own: readonly number[],
  possible: Possible,
): Node {
  const hidden = hiddenIn(diagrams, space, here);
  return seenForm(diagrams, outcomes, space, here, possible.only([...own, ...hidden]));
}

/** A behaviour on one settled fit as readers see it, where it `happens`: without what is hidden from them. */
export function seenForm(diagrams: Diagrams, outcomes: Outcomes, space: Space, here: Node, happens: Node): Node {
  const hidden = hiddenIn(diagrams, space, here);
  // Answers that nobody has given come first, since a tolerance may leave open whether one is asked for at all.
  const [unstated, open] = [true, false].map((asked) =>
    hidden.filter((level) => (space.meanings[level]?.kind === 'unstated') === asked),
  ) as [number[], number[]];
  const stated = unstated.reduce(
    (form, level) => {
      const query = queryAt(space, level);
      return diagrams.fold(`unless ${query}`, form, [level], (a, b) => outcomes.unlessAsked(query, a, b));
    },
    diagrams.ite(happens, here, diagrams.terminal(IMPOSSIBLE)),
  );
  return diagrams.fold('either', stated, open, (a, b) => outcomes.either(a, b));
}

function hiddenIn(diagrams: Diagrams, space: Space, node: Node): number[] {
  return diagrams.support(node).filter((level) => isHidden(space.meanings[level]));
}

/** The first query of the rules whose answer the variable at a level stands for. */
export function queryAt(space: Space, level: number): string {
  const meaning = space.meanings[level];
  const rule =
    meaning?.kind === 'unstated' ? meaning.attribute.rules.find(({ query }) => query !== undefined) : undefined;
  return rule?.query ?? '';
}

/** The form of a fit out of the forms of all that it may be. What isn't fitted is alike everywhere, whatever can happen there. */
export function formOfFit(diagrams: Diagrams, outcomes: Outcomes, fit: Fit, forms: readonly Node[]): Node {
  const isMissing = (form: Node): boolean =>
    diagrams.terminals(form).every((outcome) => outcome === NOT_FITTED || outcome === IMPOSSIBLE);
  if (forms.every(isMissing)) return diagrams.terminal(NOT_FITTED);
  const [first, ...others] = forms;
  if (first === undefined) throw new Error('a fit that may be nothing');
  if (others.every((form) => form === first)) return first;
  const members = (tuple: number): readonly number[] => {
    const meaning = outcomes.meaning(tuple);
    return meaning.kind === 'tuple' ? meaning.of : [];
  };
  const start = diagrams.map('first of a tuple', first, (outcome) => outcomes.ofTuple([outcome]));
  const tuples = others.reduce(
    (tuple, form) => diagrams.apply('tuple', tuple, form, (a, b) => outcomes.ofTuple([...members(a), b])),
    start,
  );
  return diagrams.map(`fit ${[...fit.options.values()].join(' ')}`, tuples, (tuple) => {
    const of = members(tuple);
    const [only] = of;
    if (only !== undefined && of.every((outcome) => outcome === only)) return only;
    return outcomes.ofDepends(decidingOptions(fit, of), of);
  });
}

/** The unknown options that make a difference: all by itself where one does, or else all of them. */
export function decidingOptions(
  { unknown, settled }: Pick<Fit, 'unknown' | 'settled'>,
  of: readonly number[],
): readonly string[] {
  const deciding = unknown.filter((option) =>
    settled.some((a, i) =>
      settled.some(
        (b, j) =>
          of[i] !== of[j] &&
          unknown.every((other) => (a.options.get(other) === b.options.get(other)) === (other !== option)),
      ),
    ),
  );
  return deciding.length > 0 ? deciding : unknown;
}

/** Classes of fits with the same form. */
export function groupFits(fits: readonly Fit[], forms: readonly Node[], order: readonly Aircraft[]): Group[] {
  const byForm = new Map<Node, Fit[]>();
  for (const fit of fits) {
    const form = forms[fit.index] as Node;
    byForm.set(form, [...(byForm.get(form) ?? []), fit]);
  }
  return [...byForm].map(([form, members]) => {
    const serials = new Set(members.flatMap(({ aircraft }) => aircraft.map(({ serial }) => serial)));
    return {
      form,
      fits: members,
      aircraft: order.filter(({ serial }) => serials.has(serial)),
      holders: holdersOf(members, order),
    };
  });
}

/** The aircraft that have one of the fits, now or later, each with its time or times; `order` is the fleet's. */
export function holdersOf(fits: readonly Fit[], order: readonly Aircraft[]): Holder[] {
  const times = Map.groupBy(
    fits.flatMap(({ holders }) => holders),
    ({ aircraft }) => aircraft,
  );
  return order.flatMap((aircraft) => joined(times.get(aircraft) ?? []));
}

/** The times of one aircraft in several fits; times that follow each other are one. */
function joined(times: readonly Holder[]): Holder[] {
  const inOrder = times.toSorted((a, b) => (a.from ?? '').localeCompare(b.from ?? ''));
  return inOrder.reduce<Holder[]>((list, time) => {
    const last = list.at(-1);
    if (last?.until === undefined || time.from === undefined || nextDay(last.until) !== time.from)
      return [...list, time];
    const { until: _, ...rest } = last;
    return [...list.slice(0, -1), { ...rest, ...(time.until === undefined ? {} : { until: time.until }) }];
  }, []);
}

function nextDay(date: string): string {
  const day = new Date(`${date}T00:00:00Z`);
  day.setUTCDate(day.getUTCDate() + 1);
  return day.toISOString().slice(0, 10);
}
