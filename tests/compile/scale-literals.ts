/** Comparisons of single variables, as the rules of the scale family are made of. */
import { chooser, type Random } from './random-numbers.ts';
import {
  type Formula,
  NUMBER_TO,
  type ScaleCondition,
  type ScaleControl,
  type ScaleDetector,
} from './scale-content.ts';

/** Comparisons of single variables, and what they read. */
export class Literals {
  readonly #choose: ReturnType<typeof chooser>;
  readonly #draw: Random;
  readonly #controls: ReadonlyMap<string, ScaleControl>;
  readonly #conditions: ReadonlyMap<string, ScaleCondition>;
  readonly #detectors: ReadonlyMap<string, ScaleDetector>;

  constructor(
    draw: Random,
    controls: readonly ScaleControl[],
    conditions: readonly ScaleCondition[],
    detectors: readonly ScaleDetector[],
  ) {
    this.#draw = draw;
    this.#choose = chooser(draw);
    this.#controls = new Map(controls.map((each) => [each.id, each]));
    this.#conditions = new Map(conditions.map((each) => [each.id, each]));
    this.#detectors = new Map(detectors.map((each) => [each.id, each]));
  }

  /** What stands on the panel, on the one beside it, and the first panel's, which all share. */
  near(panel: number, panels: number, detectors: boolean): string[] {
    const here = new Set([0, panel, (panel + 1) % panels]);
    const all = [
      ...this.#controls.values(),
      ...this.#conditions.values(),
      ...(detectors ? this.#detectors.values() : []),
    ];
    return all.filter((each) => here.has(each.panel)).map(({ id }) => id);
  }

  of(id: string): Formula {
    const { pick, some, below } = this.#choose;
    const control = this.#controls.get(id);
    if (control) {
      const ids = control.positions.map((position) => position.id);
      return {
        op: 'is',
        id,
        values: ids.length > 2 && this.#draw() < 0.3 ? some(ids, 2) : [pick(ids)],
        guarded: control.fitted !== undefined,
      };
    }
    if (this.#detectors.has(id)) return { op: 'trips', id };
    const values = this.#conditions.get(id)?.values ?? [];
    if (values.length === 0) return { op: 'above', id, value: 10 * (1 + below(NUMBER_TO / 10 - 2)) };
    return { op: 'is', id, values: [pick(values)], guarded: false };
  }

  /** The variables, options included, that a comparison of this class depends on. */
  reads(formula: Formula): string[] {
    if (formula.op === 'trips') return [this.#detectors.get(formula.id)?.number ?? ''];
    if (formula.op !== 'is' && formula.op !== 'above') return [];
    const guard = this.#controls.get(formula.id)?.fitted;
    return [formula.id, ...(guard ? [guard.option] : [])];
  }
}
