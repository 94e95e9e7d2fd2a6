/**
 * Cuts a number condition into cells: the intervals between the thresholds that the content compares it with. Within one
 * cell every expression gives the same answer, so a cell is one value of the diagram's variable.
 */
import { addDecimals, type Comparison, type Expression, subtractDecimals, thresholdCut } from '../language/index.ts';
import { claimsOf, type Detector, type Fleet, type NumberRange, type Sequence } from '../model/index.ts';

/** Where two cells meet, in the author's notation: `value` itself belongs to the lower cell or to the upper one. */
export interface Cut {
  /** First step (0 = `from`) of the upper cell. */
  readonly step: bigint;
  readonly value: string;
  readonly belongsTo: 'lower' | 'upper';
}

/** A cell: an inclusive interval of step numbers. A missing cut means the end of the range. */
export interface NumberCell {
  readonly first: bigint;
  readonly last: bigint;
  readonly below?: Cut;
  readonly above?: Cut;
}

/** Every expression of the content, in the author's order. */
export function* expressionsOf(fleet: Fleet): Iterable<Expression> {
  for (const never of fleet.never) yield never.expression;
  for (const signal of fleet.signals) yield signal.expression;
  for (const override of fleet.overrides) yield override.when;
  for (const sequence of fleet.sequences) yield* expressionsOfSequence(sequence);
  for (const { triggers } of fleet.sounds) {
    for (const { becomes, while: during } of triggers) yield* [becomes, during].filter((each) => each !== undefined);
  }
  for (const { expects } of fleet.timelines) for (const { holds } of expects) yield holds;
  for (const item of fleet.items) {
    for (const attribute of item.attributes) for (const rule of attribute.rules) if (rule.when) yield rule.when;
  }
  for (const claim of claimsOf(fleet)) yield claim.expression;
}

/** Every expression of a sequence that is about the aircraft: guards, events and what fills and drains stores. */
export function* expressionsOfSequence(sequence: Sequence): Iterable<Expression> {
  for (const { guard, since } of sequence.transitions) {
    if (guard) yield guard.when;
    if (since) yield since.event;
  }
  for (const { flows } of sequence.stores) for (const { when } of flows) yield when;
}

/** Where a detector's band ends: compared as it compares, its answer is certain on the outer sides of both. */
export function detectorCuts({ value, tolerance }: Detector): readonly [low: string, high: string] {
  return [subtractDecimals(value, tolerance), addDecimals(value, tolerance)];
}

/** Whether a detector's answer follows from the number in a cell, which lies on one side of each end of the band. */
export function isCertain(detector: Detector, range: NumberRange, { first }: NumberCell): boolean {
  const [low, high] = detectorCuts(detector).map((value) => {
    const holds = thresholdCut(range, detector.by, value);
    return holds !== undefined && holds[0] <= first && first <= holds[1];
  });
  return low === high;
}

/** The comparisons with numbers and with stores inside an expression. */
export function* comparisonsIn(expression: Expression): Iterable<Extract<Expression, { op: 'compare' | 'level' }>> {
  switch (expression.op) {
    case 'compare':
    case 'level':
      yield expression;
      return;
    case 'and':
    case 'or':
    case 'lamps':
      for (const arg of expression.args) yield* comparisonsIn(arg);
      return;
    case 'not':
      yield* comparisonsIn(expression.arg);
      return;
    case 'implies':
      yield* comparisonsIn(expression.premise);
      yield* comparisonsIn(expression.conclusion);
  }
}

/** The cells of a number, from the comparisons made with it. Exact: steps are counted as integers. */
export function cutCells(range: NumberRange, comparisons: Iterable<{ by: Comparison; value: string }>): NumberCell[] {
  const whole = thresholdCut(range, '<=', range.to);
  if (!whole) throw new Error(`the range ${range.from} to ${range.to} is empty`);
  const last = whole[1];
  const cuts = new Map<bigint, Cut>();
  const cut = (step: bigint, value: string, belongsTo: Cut['belongsTo']): void => {
    if (step > 0n && step <= last && !cuts.has(step)) cuts.set(step, { step, value, belongsTo });
  };
  for (const { by, value } of comparisons) {
    const holds = thresholdCut(range, by, value);
    if (!holds) continue;
    if (by === '>' || by === '=') cut(by === '=' ? holds[1] + 1n : holds[0], value, 'lower');
    if (by === '<=') cut(holds[1] + 1n, value, 'lower');
    if (by === '>=' || by === '=') cut(holds[0], value, 'upper');
    if (by === '<') cut(holds[1] + 1n, value, 'upper');
  }
  const sorted = [...cuts.values()].sort((a, b) => (a.step < b.step ? -1 : 1));
  return [undefined, ...sorted].map((below, index) => {
    const above = sorted[index];
    return {
      first: below?.step ?? 0n,
      last: above ? above.step - 1n : last,
      ...(below ? { below } : {}),
      ...(above ? { above } : {}),
    };
  });
}
