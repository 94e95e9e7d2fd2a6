/** What can be moved in a case, with what cannot stand as things are and why. */
import { controlsOn, type Meaning, type SettledFit, type Situation, variableTitle } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import { controlAddress, inputAnchor } from '../addresses.ts';
import type { Inline, Listed } from '../book.ts';
import type { CaseView, ChangedView, InputView, StepView } from '../book-explorer.ts';
import { cellText, plain, text, variableAddress } from '../cells.ts';
import type { ExploredFleet } from './explored-fleet.ts';
import { setStep } from './steps.ts';

export function levelTitle({ explorer }: ExploredFleet, level: number, on: readonly SettledFit[]): string {
  return variableTitle(meaningOf(explorer, level), on);
}

export function inputViews(
  fleet: ExploredFleet,
  start: Situation,
  now: Situation,
  on: readonly SettledFit[],
): InputView[] {
  const { explorer } = fleet;
  const canSet = (values: readonly (readonly [number, number])[]): boolean => explorer.canSet(now, new Map(values));
  return explorer.inputs.flatMap((level): InputView[] => {
    const settings = explorer.settings(now, level);
    if (settings.length === 0) return [];
    const meaning = meaningOf(explorer, level);
    const present = now.inputs.get(level);
    const barred = settings.filter((value) => value !== present && !canSet([[level, value]]));
    const returns = present === undefined ? undefined : returnOf(meaning, present, on);
    return [
      {
        id: inputAnchor(anchorId(meaning, on)),
        title: listedLevel(meaning, on),
        settings: settings.map((value) => ({
          step: setStep(explorer.fleet, new Map([[level, value]]), on),
          words: cellText(meaning, [value], on),
          chosen: value === present,
          held: returnOf(meaning, value, on) !== undefined,
          barred: barred.includes(value),
        })),
        moved: start.inputs.get(level) !== present,
        barred: barredViews(fleet, now, level, barred, on),
        ...(returns !== undefined && canSet([[level, returns]])
          ? { letGo: { step: setStep(explorer.fleet, new Map([[level, returns]]), on), words: 'Let go' } }
          : {}),
      },
    ];
  });
}

/** Settings that the same stands in the way of are told together. */
function barredViews(
  { explorer }: ExploredFleet,
  now: Situation,
  level: number,
  barred: readonly number[],
  on: readonly SettledFit[],
): InputView['barred'] {
  const meaning = meaningOf(explorer, level);
  const runs: { values: number[]; against: readonly number[] }[] = [];
  for (const value of barred) {
    const against = explorer.conflict(now, level, value);
    const same = runs.find((run) => {
      const touches = meaning.kind !== 'number' || run.values.at(-1) === value - 1;
      return touches && run.against.join() === against.join();
    });
    if (same) same.values.push(value);
    else runs.push({ values: [value], against });
  }
  return runs.map(({ values, against }) => {
    const said = against.map((each) => factWords(explorer, each, now.inputs.get(each) ?? 0, on));
    const along = alongStep(explorer, now, level, values, on);
    const why = said.length === 0 ? ' cannot be.' : ` cannot be with ${list(said, 'and')}.`;
    return { words: [...cellText(meaning, values, on), text(why)], ...(along ? { along } : {}) };
  });
}

/** Sets what cannot be with what must move for it; of several settings only what stands in the way of all of them is moved. */
function alongStep(
  explorer: ExploredFleet['explorer'],
  now: Situation,
  level: number,
  values: readonly number[],
  on: readonly SettledFit[],
): StepView | undefined {
  const [first = 0] = values;
  const together = explorer.together(now, level, first);
  if (!together) return undefined;
  const others = new Map([...together].filter(([each]) => each !== level));
  const cleared = explorer.after(now, { kind: 'set', values: others });
  const isEnough = cleared && values.every((value) => explorer.canSet(cleared, new Map([[level, value]])));
  const isClearing = values.length > 1 && isEnough;
  const said = list(
    [...others].map(([each, value]) => factWords(explorer, each, value, on)),
    'and',
  );
  const which = values.length > 1 ? factWords(explorer, level, first, on) : 'it';
  return {
    step: setStep(explorer.fleet, isClearing ? others : together, on),
    words: isClearing ? `Set ${said}` : `Set ${which} with ${said}`,
  };
}

/** "Airspeed: above 236 kt". */
function factWords(
  explorer: ExploredFleet['explorer'],
  level: number,
  value: number,
  on: readonly SettledFit[],
): string {
  const meaning = meaningOf(explorer, level);
  return `${variableTitle(meaning, on)}: ${plain(cellText(meaning, [value], on))}`;
}

/** What the last step set. */
export function movedInputs(
  { explorer }: ExploredFleet,
  before: Situation,
  now: Situation,
  on: readonly SettledFit[],
): ChangedView[] {
  return [...now.inputs].flatMap(([level, value]) => {
    const was = before.inputs.get(level);
    if (was === value || was === undefined) return [];
    const meaning = meaningOf(explorer, level);
    const [from, to] = [was, value].map((each) => plain(cellText(meaning, [each], on))) as [string, string];
    return [
      { what: listedLevel(meaning, on), before: { glyph: 'none', text: from }, after: { glyph: 'none', text: to } },
    ];
  });
}

export function setInputs(
  { explorer }: ExploredFleet,
  start: Situation,
  now: Situation,
  on: readonly SettledFit[],
): CaseView['set'] {
  return [...now.inputs].flatMap(([level, value]): { what: Listed; words: Inline[] }[] => {
    if (start.inputs.get(level) === value) return [];
    const meaning = meaningOf(explorer, level);
    return [{ what: listedLevel(meaning, on), words: cellText(meaning, [value], on) }];
  });
}

/** The value that a control springs back to from another. */
function returnOf(meaning: Meaning, value: number, on: readonly SettledFit[]): number | undefined {
  if (meaning.kind !== 'control') return undefined;
  const control = controlsOn(meaning, on).find((each) => meaning.values[value]?.has(each));
  const position = control?.positions[meaning.values[value]?.get(control) ?? -1];
  if (!control || position?.returns === undefined) return undefined;
  const back = control.positions.findIndex(({ id }) => id === position.returns);
  return meaning.values.findIndex((each) => each.get(control) === back);
}

function listedLevel(meaning: Meaning, on: readonly SettledFit[]): Listed {
  const [control] = meaning.kind === 'control' ? controlsOn(meaning, on) : [];
  const to = control ? controlAddress(control) : variableAddress(meaning);
  return { to, title: variableTitle(meaning, on) };
}

function anchorId(meaning: Meaning, on: readonly SettledFit[]): string {
  switch (meaning.kind) {
    case 'control':
      return (controlsOn(meaning, on)[0] ?? meaning.control).id;
    case 'lamp':
      return `${meaning.item.id}.${meaning.lamp.id}`;
    case 'condition':
    case 'number':
      return meaning.condition.id;
    default:
      throw new Error(`nobody sets a ${meaning.kind}`);
  }
}

function meaningOf({ fleet }: ExploredFleet['explorer'], level: number): Meaning {
  const meaning = fleet.space.meanings[level];
  if (!meaning) throw new Error(`no variable stands at level ${level}`);
  return meaning;
}
