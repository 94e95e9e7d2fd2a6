/**
 * Several things that are seen at once: on which fits that can be, and in which cases. One case has all of it, with one answer of each
 * detector, so that this says more than what each of them can mean by itself.
 */
import {
  type Explorable,
  type ExplorableFit,
  type Fit,
  IMPOSSIBLE,
  isHidden,
  NOT_FITTED,
  type Part,
  Possible,
  partForm,
} from '../compile/index.ts';
import type { Node } from '../logic/index.ts';
import type { Inline } from './book.ts';
import { MOST_ALTERNATIVES } from './occasions.ts';
import { cubeWords } from './phrases.ts';
import { coversOf } from './sentences.ts';
import { meaningAt } from './tables.ts';

/** One thing seen: any of these states of attributes, by their places; none where it says nothing of cases. */
export type SeenOn = (settled: number) => readonly { readonly attribute: number; readonly state: string }[] | undefined;

/** When all of it is seen, of normal cases or of the others. */
export interface TogetherView {
  readonly part: Part;
  readonly alternatives: readonly (readonly Inline[])[];
  /** Others of that part lead there too. */
  readonly more: boolean;
}

export class SeenTogether {
  readonly #fleet: Explorable;
  readonly #possible: readonly Possible[];
  /** By settled fit, attribute and state. */
  readonly #states = new Map<string, Node>();

  constructor(fleet: Explorable) {
    this.#fleet = fleet;
    this.#possible = fleet.on.map(({ possible }) => new Possible(fleet.diagrams, possible));
  }

  /** Whether all of it can be seen in one case of a settled fit. */
  can(settled: number, seen: readonly SeenOn[]): boolean {
    return this.#cases(settled, seen) !== this.#fleet.diagrams.no;
  }

  /**
   * The cases of a fit in which all of it is seen, as readers see them: one node for each set of them, so that fits are told
   * together. They are those of any settled fit that it may be.
   */
  form(fit: number, seen: readonly SeenOn[]): Node {
    const { diagrams, fits, outcomes } = this.#fleet;
    const { settled } = fits[fit] as Fit;
    const shown = settled.map(({ index }) => this.#cases(index, seen));
    const where = diagrams.or(...shown);
    const levels = diagrams.support(where);
    const possible = diagrams.or(...settled.map(({ index }) => (this.#possible[index] as Possible).only(levels)));
    const other = diagrams.ite(possible, diagrams.terminal(NOT_FITTED), diagrams.terminal(IMPOSSIBLE));
    return diagrams.ite(where, diagrams.terminal(outcomes.ofState(SEEN)), other);
  }

  /** A form in words, normal cases first; parts in which all of it is never seen are left out. */
  views(form: Node, fits: readonly number[]): TogetherView[] {
    const { diagrams, space, outcomes } = this.#fleet;
    const seen = outcomes.ofState(SEEN);
    const on = fits.flatMap((fit) => this.#fleet.fits[fit]?.settled ?? []);
    return (['normal', 'abnormal'] as const).flatMap((part): TogetherView[] => {
      const some = partForm(diagrams, space, form, part);
      if (some === undefined) return [];
      // Of abnormal cases it is only true when it is told apart from every case in which something else is seen.
      const among = part === 'normal' ? some : diagrams.apply('among', form, some, amongAll(seen));
      const told = coversOf(this.#fleet, among).find(({ outcome }) => outcome === seen);
      if (!told) return [];
      const cubes = told.cubes.slice(0, MOST_ALTERNATIVES);
      const alternatives = cubes.map((cube) => cubeWords(this.#fleet, told.columns, cube, on));
      return [{ part, alternatives, more: cubes.length < told.cubes.length }];
    });
  }

  /** Over what readers see of the variables behind it. */
  #cases(settled: number, seen: readonly SeenOn[]): Node {
    const { detectors, diagrams } = this.#fleet;
    const shown = diagrams.and(
      ...seen.flatMap((each) => {
        const parts = each(settled);
        if (parts === undefined) return [];
        return [diagrams.or(...parts.map(({ attribute, state }) => this.#stateNode(settled, attribute, state)))];
      }),
    );
    const read = diagrams.support(shown);
    // Readers see the number that a detector hangs on.
    const numbers = detectors.filter(({ level }) => read.includes(level)).map(({ number }) => number);
    const can = diagrams.and(shown, (this.#possible[settled] as Possible).only([...read, ...numbers]));
    return diagrams.exists(
      can,
      read.filter((level) => isHidden(meaningAt(this.#fleet, level))),
    );
  }

  #stateNode(settled: number, attribute: number, state: string): Node {
    const { diagrams, outcomes, on } = this.#fleet;
    const key = `${settled} ${attribute} ${state}`;
    const known = this.#states.get(key);
    if (known !== undefined) return known;
    const behaviour = (on[settled] as ExplorableFit).behaviours[attribute] as Node;
    const node = diagrams.casesOf(behaviour, outcomes.ofState(state));
    this.#states.set(key, node);
    return node;
  }
}

/** No author's state is called so. */
const SEEN = ' seen';

/** A case of a part that is seen, or any case that is not; those of the other part that are seen too are free. */
function amongAll(seen: number): (whole: number, part: number) => number {
  return (whole, part) => (whole === seen && part !== seen ? IMPOSSIBLE : whole);
}
