/** Draws a random family. The same number always gives the same one, whatever else is drawn. */
import { type Chooser, chooser, random } from '../compile/random-numbers.ts';
import type { Family, FamilyControl, FamilyItem, FamilyOption, FamilyRule, Formula } from './family.ts';

/** What a family may have beside conditions, numbers, detectors, controls, options, overrides and claims. */
export interface Reach {
  /** Aircraft with options that nobody knows, rules whose state is not stated, latches, quiet overrides. */
  readonly everything: boolean;
}

/** Which positions are abnormal is drawn by the numbers of another family, far away. */
const UNUSUAL = 500_000_000;

const STATES = ['dark', 'lit', 'dim'] as const;

/** Ids with the atoms that read them, by who may read them. */
interface Words {
  readonly options: Formula[];
  readonly inputs: Formula[];
  readonly behind: Formula[];
}

export function randomFamily(seed: number, { everything }: Reach = { everything: true }): Family {
  const choose = chooser(random(seed));
  const { below, chance, pick, some } = choose;
  const words: Words = { options: [], inputs: [], behind: [] };
  const atom = (text: string, ...reads: string[]): Formula => ({ atom: text, reads });

  const options: FamilyOption[] = ['grade', 'block', 'kit'].slice(0, 2 + below(2)).map((id) => ({
    id,
    values: ['one', 'two', 'three'].slice(0, 2 + below(2)).map((value) => ({ id: value })),
  }));
  for (const { id, values } of options)
    for (const value of values)
      words.options.push(atom(`${id} is ${value.id}`, id), atom(`${id} is not ${value.id}`, id));
  const [first, second] = options as [FamilyOption, FamilyOption];
  const requires = chance(0.15) ? atom(`${first.id} is one`, first.id) : undefined;
  if (requires)
    options[1] = {
      ...second,
      values: second.values.map((value) => (value.id === 'two' ? { ...value, requires } : value)),
    };
  const aircraft = Array.from({ length: 2 + below(3) }, () => {
    const values = Object.fromEntries(options.map(({ id, values: all }) => [id, pick(all).id]));
    if (everything && chance(0.06)) values[pick(options).id] = 'unknown';
    if (requires && values[second.id] === 'two' && values[first.id] !== 'one') values[second.id] = 'one';
    return { values };
  });
  const onlyFit = (): Formula => formula(choose, words.options, 1);
  const changed = pick(options.filter(({ values }) => values.every((value) => !value.requires)));
  const others = changed.values.filter(({ id }) => id !== aircraft[0]?.values[changed.id]);
  const changes = chance(0.15) && !requires ? [{ serial: 1, option: changed.id, value: pick(others).id }] : [];

  const conditions = some(
    [
      { id: 'gear', values: ['down', 'up'] },
      { id: 'bus', values: ['powered', 'lost'], normal: 'powered' },
      { id: 'spare', values: ['lost', 'powered'], normal: 'powered' },
      { id: 'door', values: ['open', 'shut', 'ajar'] },
    ],
    1 + below(3),
  );
  for (const { id, values } of conditions) {
    for (const value of values) words.inputs.push(atom(`${id} is ${value}`, id));
    if (values.length > 2) words.inputs.push(atom(`${id} in (${values.slice(1).join(', ')})`, id));
  }
  const numbers = chance(0.5) ? [{ id: 'speed' }] : [];
  const detectors: Family['detectors'][number][] = [];
  const inOrder: string[][] = [];
  if (numbers.length > 0) {
    words.inputs.push(
      ...some(['>= 0.5', '> 1', '< 1.5', '<= 1.75', '> 2.25', '= 2.5'], 2).map((by) => atom(`speed ${by} kt`, 'speed')),
    );
    const fast = {
      id: 'fast',
      trips: `speed > ${pick(['1', '1.5'])} kt`,
      tolerance: pick(['0.5', '1']),
      reads: ['speed'],
    };
    const faster = { id: 'faster', trips: 'speed >= 2 kt', tolerance: pick(['0.5', '1']), reads: ['speed'] };
    if (chance(0.7)) detectors.push(fast);
    if (detectors.length > 0 && chance(0.3)) detectors.push(faster);
    if (detectors.length > 1 && chance(0.5)) inOrder.push(['fast', 'faster']);
    for (const { id } of detectors) words.inputs.push(atom(id, id), atom(id, id));
  }
  // Numbers of their own: what else is drawn stays as it is.
  const isUnusual = chooser(random(seed + UNUSUAL)).chance;
  const controls = drawControls(choose, words, onlyFit, isUnusual);

  const inputs = (size: number): Formula => formula(choose, words.inputs, size);
  const never = chance(0.6) ? Array.from({ length: 1 + below(2) }, () => ({ all: [inputs(1), inputs(2)] })) : [];
  const signals = chance(0.3) ? [{ id: 'mix', when: inputs(3) }] : [];
  words.behind.push(...words.inputs, ...words.inputs, ...words.options);
  for (const { id } of signals) words.behind.push(atom(id, id), atom(id, id));
  const latches =
    everything && chance(0.15) ? [{ id: 'hold', set: inputs(1), reset: inputs(1), wins: pick(['set', 'reset']) }] : [];
  for (const { id } of latches) words.behind.push(atom(`${id} is set`, id), atom(`${id} is reset`, id));

  const items: FamilyItem[] = [];
  const count = 2 + below(3);
  for (let at = 0; at < count; at += 1) {
    const item = drawItem(choose, words, `item-${at + 1}`, { onlyFit, everything, controls, conditions });
    items.push(item);
    for (const state of item.states) {
      const text = `${item.id} is ${state}`;
      words.behind.push(atom(item.fitted ? `(fitted(${item.id}) and ${text})` : text, item.id));
    }
  }
  const kinds = [...new Set(items.map(({ kind }) => kind))].filter((kind) => kind !== 'message');
  const overrides =
    kinds.length > 0 && chance(0.5)
      ? Array.from({ length: 1 + below(2) }, (_, at) => {
          return {
            id: `override-${at + 1}`,
            kind: pick(kinds),
            when: { all: [inputs(1), inputs(1)] },
            then: pick(['dark', 'lit']),
            quiet: everything && chance(0.3),
          };
        })
      : [];
  const claims = Array.from({ length: below(3) }, () => ({
    ...(chance(0.6) ? { premise: formula(choose, words.behind, 2) } : {}),
    holds: formula(choose, words.behind, 2),
  }));
  const values = { options, aircraft, changes, conditions, numbers, detectors, inOrder, controls };
  return { ...values, never, signals, latches, items, overrides, claims };
}

/** Up to `size` atoms, some denied, joined by "and" or "or" or both. */
function formula({ below, chance, pick }: Chooser, atoms: readonly Formula[], size: number): Formula {
  const literal = (): Formula => (chance(0.25) ? { not: pick(atoms) } : pick(atoms));
  const parts = Array.from({ length: 1 + below(size) }, literal);
  const [only] = parts;
  if (only && parts.length === 1) return only;
  if (parts.length === 3 && only) return { all: [only, { any: parts.slice(1) }] };
  return chance(0.55) ? { all: parts } : { any: parts };
}

function drawControls(
  { below, chance, pick }: Chooser,
  words: Words,
  onlyFit: () => Formula,
  isUnusual: Chooser['chance'],
): FamilyControl[] {
  const controls: FamilyControl[] = [];
  const read = (id: string, position: string, isBehind: boolean, isHeld = false): void => {
    const text = isHeld ? `${id} is held` : `${id} is ${position}`;
    words.inputs.push({ atom: isBehind ? `(fitted(${id}) and ${text})` : text, reads: [id] });
  };
  const auto = chance(0.4) ? onlyFit() : undefined;
  const seldom = { abnormal: isUnusual(0.35) };
  const positions = [{ id: 'OFF' }, { id: 'AUTO', ...(auto ? { fitted: auto } : {}) }, { id: 'ON', ...seldom }];
  const sw = { id: 'sw', positions: chance(0.6) ? positions : [{ id: 'OFF' }, { id: 'ON' }] };
  controls.push(sw);
  for (const { id } of sw.positions) read('sw', id, false);
  if (auto && sw.positions.length > 2) words.inputs.push({ atom: 'fitted(sw.AUTO)', reads: ['sw'] });
  if (chance(0.25)) {
    controls.push({ id: 'push', positions: [{ id: 'OUT' }, { id: 'IN', returns: 'OUT', abnormal: isUnusual(0.5) }] });
    read('push', 'IN', false, true);
  }
  if (chance(0.45)) {
    const fitted = onlyFit();
    controls.push({ id: 'kn', fitted, positions: [{ id: 'LOW' }, { id: 'HIGH', ...seldom }] });
    for (const position of ['LOW', 'HIGH']) read('kn', position, true);
    if (chance(0.4)) {
      const as = chance(0.7) ? { as: 'LOW' } : {};
      const other = [{ id: 'MIN', ...as }, { id: 'MAX', as: 'HIGH', ...seldom }, { id: 'EXTRA' }].slice(
        0,
        2 + below(2),
      );
      controls.push({ id: 'dial', fitted: { not: fitted }, counterpart: 'kn', positions: other });
      read('dial', pick(other).id, true);
    }
  }
  return controls;
}

function drawItem(
  choose: Chooser,
  words: Words,
  id: string,
  given: {
    readonly onlyFit: () => Formula;
    readonly everything: boolean;
    readonly controls: readonly FamilyControl[];
    readonly conditions: Family['conditions'];
  },
): FamilyItem {
  const { below, chance, pick } = choose;
  const kind = pick(['light', 'light', 'annunciator', 'message'] as const);
  const states = kind === 'message' ? ['shown', 'not-shown'] : STATES.slice(0, chance(0.3) ? 3 : 2);
  const policy = pick(['first', 'first', 'first', 'any', 'unique'] as const);
  const state = pick(states);
  const others = states.filter((each) => each !== state);
  const then = (): string => {
    if (policy === 'any' && !chance(0.1)) return state;
    return given.everything && policy === 'first' && chance(0.04) ? '?' : pick(states);
  };
  const rules: FamilyRule[] = Array.from({ length: policy === 'unique' ? 1 : 1 + below(3) }, () => ({
    when: formula(choose, words.behind, 3),
    then: then(),
  }));
  if (!chance(0.02)) rules.push({ then: policy === 'first' ? pick(states) : pick(others) });
  const supply = given.conditions.find(({ id: name }) => name === 'bus')?.id;
  const lamps =
    kind === 'light' && chance(0.12)
      ? [{ id: 'left', ...(supply === undefined ? {} : { supply }) }, { id: 'right' }].slice(0, 1 + below(2))
      : [];
  return {
    id,
    kind,
    ...(chance(0.12) ? { fitted: given.onlyFit() } : {}),
    ...(chance(0.5) ? { control: 'sw' } : {}),
    policy,
    states,
    rules,
    lamps,
  };
}
