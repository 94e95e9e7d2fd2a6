/**
 * A walk through cases as its address has it: the steps from the start, each made of ids, so that it can be passed on and taken back.
 * "landing-left=ON" sets an input, several joined by "&"; "wait~apu~opening~starting" lets time pass; "is~apu~running" supposes.
 */
import {
  type Act,
  controlsOn,
  type Explorer,
  idOf,
  type Meaning,
  type SettledFit,
  type Situation,
  valueIds,
  valueOfPosition,
  valueTitle,
} from '../../compile/index.ts';
import { slug } from '../row-keys.ts';

type Fleet = Explorer['fleet'];

/** The step that sets inputs, by the names that they have on some fits. */
export function setStep(fleet: Fleet, values: ReadonlyMap<number, number>, on: readonly SettledFit[]): string {
  return [...values]
    .map(([level, value]) => {
      const meaning = meaningOf(fleet, level);
      return `${nameOf(meaning, value, on)}=${idOfValue(meaning, value, on)}`;
    })
    .join('&');
}

export function waitStep(fleet: Fleet, { level, from, to }: Fleet['leaps'][number]): string {
  const meaning = meaningOf(fleet, level);
  return ['wait', idOf(meaning), ...[from, to].map((mode) => valueIds(meaning)[mode])].join('~');
}

export function supposeStep(fleet: Fleet, level: number, value: number): string {
  const meaning = meaningOf(fleet, level);
  return ['is', idOf(meaning), valueIds(meaning)[value]].join('~');
}

/** What a step says; undefined where it names nothing that this fleet has. */
export function actOf(fleet: Fleet, step: string): Act | undefined {
  const parts = step.split('~');
  if (parts.length > 1) {
    const [kind, id = '', ...ids] = parts;
    const level = fleet.space.levelOf.get(id);
    if (level === undefined) return undefined;
    const [first = -1, second = -1] = ids.map((each) => valueIds(meaningOf(fleet, level)).indexOf(each));
    if (kind === 'is' && first >= 0 && ids.length === 1) return { kind: 'suppose', level, value: first };
    return kind === 'wait' && first >= 0 && second >= 0 ? { kind: 'wait', level, from: first, to: second } : undefined;
  }
  const values = new Map<number, number>();
  for (const part of step.split('&')) {
    const [id = '', word = ''] = part.split('=');
    const level = fleet.space.levelOf.get(id);
    const value = level === undefined ? -1 : valueCalled(meaningOf(fleet, level), id, word);
    if (level === undefined || value < 0) return undefined;
    values.set(level, value);
  }
  return { kind: 'set', values };
}

/** The situations from the start on, as far as the steps can be followed. */
export function followed(explorer: Explorer, start: Situation, steps: readonly string[]): Situation[] {
  const found = [start];
  for (const step of steps) {
    const act = actOf(explorer.fleet, step);
    const next = act && explorer.after(found.at(-1) ?? start, act);
    if (!next) break;
    found.push(next);
  }
  return found;
}

function meaningOf({ space }: Fleet, level: number): Meaning {
  const meaning = space.meanings[level];
  if (!meaning) throw new Error(`no variable stands at level ${level}`);
  return meaning;
}

/** Of controls that share a variable, the one that the fits have. */
function nameOf(meaning: Meaning, value: number, on: readonly SettledFit[]): string {
  if (meaning.kind !== 'control') return idOf(meaning);
  const having = controlsOn(meaning, on).find((control) => meaning.values[value]?.has(control));
  return (having ?? meaning.control).id;
}

function idOfValue(meaning: Meaning, value: number, on: readonly SettledFit[]): string {
  if (meaning.kind === 'number') return slug(valueTitle(meaning, value));
  if (meaning.kind !== 'control') return valueIds(meaning)[value] ?? '';
  const control = controlsOn(meaning, on).find((each) => meaning.values[value]?.has(each)) ?? meaning.control;
  return control.positions[meaning.values[value]?.get(control) ?? -1]?.id ?? valueIds(meaning)[value] ?? '';
}

function valueCalled(meaning: Meaning, id: string, word: string): number {
  if (meaning.kind === 'control') {
    const control = meaning.controls.find((each) => each.id === id);
    const position = control?.positions.findIndex((each) => each.id === word) ?? -1;
    return control && position >= 0 ? valueOfPosition(meaning, control, position) : -1;
  }
  if (meaning.kind === 'number')
    return meaning.cells.findIndex((_, value) => slug(valueTitle(meaning, value)) === word);
  const isInput = meaning.kind === 'condition' || meaning.kind === 'lamp';
  return isInput ? valueIds(meaning).indexOf(word) : -1;
}
