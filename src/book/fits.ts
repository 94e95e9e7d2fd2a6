/** Fits as words need them. */
import type { Behaviour, Compiled, Fit, Group, SettledFit } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import { type Option, UNKNOWN } from '../model/index.ts';

/** Everything that fits may be, each once. */
export function settledOf(fits: readonly Fit[]): SettledFit[] {
  return [...new Set(fits.flatMap(({ settled }) => settled))];
}

/** The group of a behaviour that a fit is in. */
export function groupOf(behaviour: Pick<Behaviour, 'item' | 'groups'>, fit: Fit): Group {
  const group = behaviour.groups.find(({ fits }) => fits.includes(fit));
  if (!group) throw new Error(`${behaviour.item.id} has no group for the fit`);
  return group;
}

/** The fit that an aircraft has from a day on; undefined where nothing changes on that day. */
export function fitFrom({ fits }: Compiled, serial: string, date: string): Fit | undefined {
  return fits.find(({ holders }) => holders.some(({ aircraft, from }) => aircraft.serial === serial && from === date));
}

/** The value of an option on a fit: "Automatic", or "unknown (Manual or Automatic)", as far as the constraints permit. */
export function optionValue(option: Option, fit: Fit): string {
  const id = fit.options.get(option.id);
  if (id !== UNKNOWN) return option.values.find((value) => value.id === id)?.title ?? '';
  const possible = new Set(fit.settled.map(({ options }) => options.get(option.id)));
  const titles = option.values.filter((value) => possible.has(value.id)).map(({ title }) => title);
  return titles.length === 1 ? `unknown, but can only be ${titles[0]}` : `unknown (${list(titles)})`;
}
