/**
 * A family of large contents, as the files that an author would write and as the formulas that they were written from.
 * A panel's items read the controls and conditions of their own panel and of its neighbours, and some that the whole
 * aircraft shares; variants of the fleet differ in many options, aircraft of one variant in a few. The same parameters
 * always give the same content.
 */
import { chooser, type Random, random } from './random-numbers.ts';
import {
  type Fitted,
  type Formula,
  NUMBER_TO,
  type ScaleCondition,
  type ScaleContent,
  type ScaleControl,
  type ScaleDetector,
  type ScaleItem,
  type ScaleOverride,
  type ScaleParameters,
  TOLERANCE,
} from './scale-content.ts';
import { filesOf } from './scale-files.ts';
import { Literals } from './scale-literals.ts';

export const SCALE: ScaleParameters = {
  seed: 20261125,
  options: 60,
  conditions: 100,
  controls: 50,
  detectors: 6,
  items: 1000,
  aircraft: 48,
  nevers: 12,
  support: 14,
  perPanel: 50,
};

export function scaleContent(parameters: ScaleParameters = SCALE): ScaleContent {
  const draw = random(parameters.seed);
  const { pick, chance, below, some } = chooser(draw);
  const panels = Math.ceil(parameters.items / parameters.perPanel);
  const list = <T>(length: number, make: (at: number) => T): T[] => Array.from({ length }, (_, at) => make(at));

  const options = list(parameters.options, (at) => ({
    id: `option-${at}`,
    values: list(2 + below(3), (value) => `v${value}`),
  }));
  const fitted = (one: number): Fitted => {
    if (!chance(one)) return undefined;
    const { id, values } = pick(options);
    return { option: id, value: pick(values) };
  };
  const variants = list(Math.ceil(parameters.aircraft / 4), () => options.map(({ values }) => pick(values)));
  const aircraft = list(parameters.aircraft, () => {
    const variant = pick(variants);
    const changed = new Set(some(options, below(3)));
    return new Map(
      options.map((option, at) => [option.id, changed.has(option) ? pick(option.values) : (variant[at] ?? '')]),
    );
  });
  const controls = list(parameters.controls, (at): ScaleControl => {
    const positions = pick([
      ['OFF', 'ON'],
      ['OFF', 'AUTO', 'ON'],
      ['OFF', 'LOW', 'MED', 'HIGH'],
    ]);
    return {
      id: `control-${at}`,
      panel: at % panels,
      fitted: at === 0 ? undefined : fitted(0.25),
      positions: positions.map((id, index) => ({
        id,
        fitted: index === 1 && index + 1 < positions.length ? fitted(0.4) : undefined,
      })),
    };
  });
  const conditions = list(parameters.conditions, (at): ScaleCondition => {
    const values =
      at % 10 === 9
        ? []
        : pick([
            ['on', 'off'],
            ['on', 'off'],
            ['on', 'off'],
            ['on', 'off', 'moving'],
          ]);
    return { id: `condition-${at}`, panel: at % panels, values, normal: values.length > 0 && chance(0.4) };
  });
  const numbers = conditions.filter(({ values }) => values.length === 0);
  const detectors = list(numbers.length > 0 ? parameters.detectors : 0, (at): ScaleDetector => {
    const number = pick(numbers);
    return {
      id: `detector-${at}`,
      panel: number.panel,
      number: number.id,
      above: TOLERANCE + 10 * below((NUMBER_TO - 2 * TOLERANCE) / 10),
    };
  });

  const literals = new Literals(draw, controls, conditions, detectors);
  const never = list(parameters.nevers, () => {
    const panel = below(panels);
    const near = some(literals.near(panel, panels, false), 2 + below(2));
    return { op: 'all', of: near.map((name) => literals.of(name)) } as const;
  });
  const overrides: ScaleOverride[] = [
    { id: 'check', kind: 'annunciator', when: literals.of(controls[0]?.id ?? ''), then: 'lit' },
    { id: 'fail', zone: 'cabin', when: literals.of(conditions[0]?.id ?? ''), then: 'dark' },
  ];
  const items: ScaleItem[] = [];
  const reads = new Map<string, ReadonlySet<string>>();
  for (let at = 0; at < parameters.items; at += 1) {
    const panel = Math.floor(at / parameters.perPanel);
    const id = `item-${at}`;
    const kind = pick(['light', 'sign', 'annunciator'] as const);
    const zone = chance(0.2) ? 'cabin' : 'flight-deck';
    const itemFitted = fitted(0.15);
    const own = new Set(itemFitted ? [itemFitted.option] : []);
    for (const override of overrides) {
      if (override.kind === kind || override.zone === zone)
        for (const name of literals.reads(override.when)) own.add(name);
    }
    const earlier = items.filter((item) => item.panel === panel && !item.fitted).map((item) => item.id);
    const names = some(literals.near(panel, panels, true), parameters.support);
    const wanted = Math.min(parameters.support, 2 + Math.floor((parameters.support - 1) * draw() ** 1.5));
    const parts: Formula[] = [];
    if (earlier.length > 0 && chance(0.2)) {
      const other = pick(earlier);
      const more = new Set([...own, ...(reads.get(other) ?? [])]);
      if (more.size <= wanted) {
        for (const name of more) own.add(name);
        parts.push({ op: 'state', item: other, state: pick(['dark', 'lit']) });
      }
    }
    for (const name of names) {
      const formula = literals.of(name);
      const more = new Set([...own, ...literals.reads(formula)]);
      if (more.size > wanted) continue;
      for (const each of more) own.add(each);
      parts.push(formula);
    }
    if (parts.length === 0) parts.push(literals.of(conditions[0]?.id ?? ''));
    for (const each of parts) for (const name of literals.reads(each)) own.add(name);
    reads.set(id, own);
    const policy = chance(0.5) ? 'any' : 'first';
    const states = policy === 'any' ? [pick(['lit', 'flashing'])] : ['dark', 'lit', 'flashing'];
    items.push({
      id,
      panel,
      kind,
      zone,
      control: parts.flatMap((part) => (part.op === 'is' && part.id.startsWith('control') ? [part.id] : []))[0],
      fitted: itemFitted,
      policy,
      rules: conjunctions(draw, parts).map((when) => ({ when, then: pick(states) })),
      otherwise: 'dark',
    });
  }
  const content = { options, aircraft, controls, conditions, detectors, never, items, overrides };
  return { ...content, files: filesOf(content) };
}

/** Every part in one conjunction at least, up to three new ones and one that stands elsewhere in each; some hold in the alternative. */
function conjunctions(draw: Random, parts: readonly Formula[]): Formula[] {
  const { below, chance, pick } = chooser(draw);
  const found: Formula[] = [];
  for (let at = 0; at < parts.length; ) {
    const until = at + 1 + below(3);
    const fresh = parts.slice(at, until).map((part) => (chance(0.3) ? ({ op: 'not', of: part } as const) : part));
    const [first, second, ...rest] = fresh;
    const own = first && second && chance(0.3) ? [{ op: 'some', of: [first, second] } as const, ...rest] : fresh;
    found.push({ op: 'all', of: at > 0 && chance(0.6) ? [...own, pick(parts.slice(0, at))] : own });
    at = until;
  }
  return found;
}
