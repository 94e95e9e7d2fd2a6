/** A random family after somebody has edited it a little, as between two revisions of a book. */
import { chooser, random } from '../compile/random-numbers.ts';
import type { Family, FamilyItem, FamilyRule } from './family.ts';

export const EDITS = [
  'then',
  'denied',
  'rule gone',
  'never gone',
  'threshold',
  'tolerance',
  'value',
  'modified',
] as const;
export type Edit = (typeof EDITS)[number];

/** Undefined where the family has nothing of that kind to edit. */
export function edited(family: Family, edit: Edit, seed: number): Family | undefined {
  const { pick } = chooser(random(seed));
  const { items, never, detectors, conditions, aircraft, options } = family;
  const ruled = (change: (item: FamilyItem, rule: FamilyRule, at: number) => readonly FamilyRule[] | undefined) => {
    const item = pick(items);
    const at = pick([...item.rules.keys()]);
    const rule = item.rules[at];
    const rules = rule && change(item, rule, at);
    return rules && { ...family, items: items.map((each) => (each === item ? { ...item, rules } : each)) };
  };
  const put = (rules: readonly FamilyRule[], at: number, rule: FamilyRule): readonly FamilyRule[] =>
    rules.with(at, rule);
  switch (edit) {
    case 'then':
      return ruled(({ rules, states }, rule, at) => {
        const others = states.filter((state) => state !== rule.then);
        return others.length > 0 ? put(rules, at, { ...rule, then: pick(others) }) : undefined;
      });
    case 'denied':
      return ruled(({ rules }, { when, then }, at) =>
        when ? put(rules, at, { when: { not: when }, then }) : undefined,
      );
    case 'rule gone':
      return ruled(({ rules }, { when }, at) => (when ? rules.toSpliced(at, 1) : undefined));
    case 'never gone':
      return never.length > 0 ? { ...family, never: never.slice(1) } : undefined;
    case 'threshold': {
      const text = JSON.stringify(items);
      const moved = text.replace(/speed (>=?|<=?) \d(?:\.\d+)? kt/g, 'speed $1 2 kt');
      return moved === text ? undefined : { ...family, items: JSON.parse(moved) as Family['items'] };
    }
    case 'tolerance':
      return detectors.length > 0
        ? { ...family, detectors: detectors.map((one) => ({ ...one, tolerance: one.tolerance === '1' ? '0.5' : '1' })) }
        : undefined;
    case 'value': {
      const [first, ...rest] = conditions;
      return first && { ...family, conditions: [{ ...first, values: [...first.values, 'further'] }, ...rest] };
    }
    case 'modified': {
      const option = pick(options.filter(({ values }) => values.every((value) => !value.requires)));
      const [first, ...rest] = aircraft;
      const others = option.values.filter(({ id }) => id !== first?.values[option.id]);
      if (!first || others.length === 0) return undefined;
      return { ...family, aircraft: [{ values: { ...first.values, [option.id]: pick(others).id } }, ...rest] };
    }
  }
}
