/** Seeded families of problems: bare rule lists, and contents of the scale family as problems. */
import { chooser, random } from '../compile/random-numbers.ts';
import type * as scale from '../compile/scale-content.ts';
import { NUMBER_TO } from '../compile/scale-content.ts';
import type { Formula, Item, Problem, Variable } from './problem.ts';

export interface Bounds {
  readonly seed: number;
  readonly items: number;
  /** The least and the most variables of an item. */
  readonly reads: readonly [number, number];
}

const OPTIONS = 6;
const OTHERS = 60;
const FITS = 12;
const NEVERS = 8;

/** Rule lists over six options and sixty other variables with two to five values. */
export function ruleLists({ seed, items, reads: [least, most] }: Bounds): Problem {
  const draw = random(seed);
  const { below, chance, pick, some } = chooser(draw);
  const list = <T>(length: number, make: (at: number) => T): T[] => Array.from({ length }, (_, at) => make(at));
  const variables = list(
    OPTIONS + OTHERS,
    (at): Variable => ({ id: `x${at}`, size: 2 + below(at < OPTIONS ? 2 : 4), isNumber: false }),
  );
  const literal = (variable: number): Formula => {
    const { size } = variables[variable] as Variable;
    const values = some(
      list(size, (value) => value),
      1 + below(Math.max(1, size - 1)),
    );
    return { op: 'in', variable, values: values.sort((a, b) => a - b) };
  };
  const others = list(OTHERS, (at) => OPTIONS + at);
  const fits = new Map(
    list(4 * FITS, () => list(OPTIONS, (at) => below((variables[at] as Variable).size))).map((fit) => [
      fit.join(),
      fit,
    ]),
  );
  return {
    variables,
    options: OPTIONS,
    fits: [...fits.values()].slice(0, FITS),
    constraints: list(NEVERS, () => ({ op: 'not', of: { op: 'all', of: some(others, 2 + below(2)).map(literal) } })),
    items: list(items, (at): Item => {
      const count = least + below(most - least + 1);
      const read = some(
        [
          ...some(
            list(OPTIONS, (option) => option),
            below(3),
          ),
          ...some(others, count),
        ],
        OPTIONS + OTHERS,
      ).slice(0, count);
      const rules: { when: Formula; then: number }[] = [];
      for (let from = 0; from < read.length; ) {
        const until = from + 1 + below(3);
        const fresh = read.slice(from, until);
        const old = from > 0 && chance(0.6) ? [pick(read.slice(0, from))] : [];
        rules.push({ when: { op: 'all', of: [...fresh, ...old].map(literal) }, then: below(3) });
        if (chance(0.5)) rules.push({ when: { op: 'all', of: some(read, 2).map(literal) }, then: below(3) });
        from = until;
      }
      return { id: `item-${at}`, rules, otherwise: below(3) };
    }),
  };
}

/** The outcomes of the items of the scale family. */
export const SCALE_STATES = ['dark', 'lit', 'flashing', 'not fitted'];

/** A content of the scale family without detectors, as the problem that its files state. */
export function problemOf(content: scale.ScaleContent): Problem {
  if (content.detectors.length > 0) throw new Error('detectors are no part of a problem');
  const thresholds = thresholdsOf(content);
  const variables: Variable[] = [
    ...content.options.map(({ id, values }) => ({ id, size: values.length, isNumber: false })),
    ...content.conditions.map(({ id, values }) => {
      const isNumber = values.length === 0;
      return { id, size: isNumber ? (thresholds.get(id)?.length ?? 0) + 1 : values.length, isNumber };
    }),
    ...content.controls.map(({ id, fitted, positions }) => {
      return { id, size: positions.length + (fitted ? 1 : 0), isNumber: false };
    }),
  ];
  const at = new Map(variables.map(({ id }, index) => [id, index]));
  const names = new Map([
    ...content.options.map(({ id, values }): [string, readonly string[]] => [id, values]),
    ...content.conditions.map(({ id, values }): [string, readonly string[]] => [id, values]),
    ...content.controls.map(({ id, positions }): [string, readonly string[]] => [id, positions.map((each) => each.id)]),
  ]);
  const isOneOf = (id: string, wanted: readonly string[]): Formula => ({
    op: 'in',
    variable: at.get(id) as number,
    values: wanted.map((each) => names.get(id)?.indexOf(each) as number),
  });
  const items = new Map<string, scale.ScaleItem>(content.items.map((item) => [item.id, item]));
  const formulaOf = (formula: scale.Formula): Formula => {
    switch (formula.op) {
      case 'is':
        return isOneOf(formula.id, formula.values);
      case 'above': {
        const cuts = thresholds.get(formula.id) ?? [];
        const first = cuts.indexOf(formula.value) + 1;
        return {
          op: 'in',
          variable: at.get(formula.id) as number,
          values: cuts.slice(first - 1).map((_, more) => first + more),
        };
      }
      case 'trips':
        throw new Error('detectors are no part of a problem');
      case 'state':
        return whenIn(itemOf(items.get(formula.item) as scale.ScaleItem), SCALE_STATES.indexOf(formula.state));
      case 'not':
        return { op: 'not', of: formulaOf(formula.of) };
      default:
        return { op: formula.op, of: formula.of.map(formulaOf) };
    }
  };
  const itemOf = ({ id, kind, zone, fitted, rules, otherwise }: scale.ScaleItem): Item => ({
    id,
    rules: [
      ...(fitted
        ? [
            {
              when: { op: 'not', of: isOneOf(fitted.option, [fitted.value]) } as const,
              then: SCALE_STATES.indexOf('not fitted'),
            },
          ]
        : []),
      ...[...content.overrides.filter((each) => each.kind === kind || each.zone === zone), ...rules].map((rule) => ({
        when: formulaOf(rule.when),
        then: SCALE_STATES.indexOf(rule.then),
      })),
    ],
    otherwise: SCALE_STATES.indexOf(otherwise),
  });
  const onlyWith = (fitted: scale.Fitted, formula: Formula): Formula[] =>
    fitted ? [{ op: 'some', of: [formula, isOneOf(fitted.option, [fitted.value])] }] : [];
  const fits = new Map(
    content.aircraft.map((fit) => {
      const values = content.options.map((option) => option.values.indexOf(fit.get(option.id) ?? ''));
      return [values.join(), values];
    }),
  );
  return {
    variables,
    options: content.options.length,
    fits: [...fits.values()],
    constraints: [
      ...content.never.map((formula): Formula => ({ op: 'not', of: formulaOf(formula) })),
      ...content.controls.flatMap(({ id, fitted, positions }) => {
        const absent: Formula = { op: 'in', variable: at.get(id) as number, values: [positions.length] };
        return [
          ...onlyWith(fitted, absent),
          ...(fitted
            ? [{ op: 'not', of: { op: 'all', of: [absent, isOneOf(fitted.option, [fitted.value])] } } as const]
            : []),
          ...positions.flatMap((each) => onlyWith(each.fitted, { op: 'not', of: isOneOf(id, [each.id]) })),
        ];
      }),
    ],
    items: content.items.map(itemOf),
    missing: SCALE_STATES.indexOf('not fitted'),
  };
}

/** The item's rules as one formula: where it has an outcome. */
function whenIn({ rules, otherwise }: Item, outcome: number): Formula {
  return rules.reduceRight<Formula>(
    (rest, { when, then }) =>
      then === outcome ? { op: 'some', of: [when, rest] } : { op: 'all', of: [{ op: 'not', of: when }, rest] },
    otherwise === outcome ? { op: 'all', of: [] } : { op: 'some', of: [] },
  );
}

/** By number, the values that something is compared with, ascending. */
function thresholdsOf(content: scale.ScaleContent): Map<string, number[]> {
  const found = new Map<string, number[]>();
  const visit = (formula: scale.Formula): void => {
    if (formula.op === 'above' && formula.value < NUMBER_TO) {
      const known = found.get(formula.id) ?? [];
      found.set(
        formula.id,
        [...new Set([...known, formula.value])].sort((a, b) => a - b),
      );
    } else if (formula.op === 'not') visit(formula.of);
    else if (formula.op === 'all' || formula.op === 'some') formula.of.forEach(visit);
  };
  for (const formula of [...content.never, ...content.overrides.map(({ when }) => when)]) visit(formula);
  for (const { rules } of content.items) for (const { when } of rules) visit(when);
  return found;
}
