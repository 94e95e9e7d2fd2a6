/** A normal case that can happen and stand on a fit, from which cases are followed. */
import type { Facts } from '../because.ts';
import { isCertain } from '../cells.ts';
import type { Compiled } from '../compile.ts';
import type { SettledFit } from '../fits.ts';
import { settingsOn } from '../positions.ts';
import type { Possible } from '../possible.ts';
import { isHidden, type Meaning, normalValue, optionLevels } from '../space.ts';

/**
 * A value for every variable that readers see: conditions, lamps and sequences at their normal values where they have one,
 * controls where they stay by themselves, numbers as low as can be outside of any tolerance. What cannot stand together gives
 * way, the later kind to the earlier.
 */
export function startingCase(compiled: Compiled, fit: SettledFit): Facts {
  const { space, diagrams } = compiled;
  const possible = compiled.possible[fit.index] as Possible;
  const options = optionLevels(space, fit);
  const levels = space.meanings.flatMap((meaning, level) =>
    isHidden(meaning) || options.has(level) ? [] : [{ meaning, level }],
  );
  const given = new Map<number, number>();
  for (const { meaning, level } of levels.toSorted((a, b) => rank(a.meaning) - rank(b.meaning) || a.level - b.level)) {
    const open = possible.only([level], given);
    const value = wished(compiled, fit, meaning, level).find(
      (each) => diagrams.restrict(open, level, each) !== diagrams.no,
    );
    if (value === undefined) throw new Error(`nothing can stand at level ${level}`);
    given.set(level, value);
  }
  return new Map([...given].sort(([a], [b]) => a - b));
}

/** Kinds of variables in the order in which they choose. */
function rank(meaning: Meaning): number {
  const hasNormal = normalValue(meaning) !== undefined;
  switch (meaning.kind) {
    case 'condition':
    case 'lamp':
      return hasNormal ? 0 : 4;
    case 'sequence':
      return hasNormal ? 1 : 5;
    case 'control':
      return 2;
    default:
      return 3;
  }
}

/** The values of a variable, the one that is most wished for first. */
function wished({ space, fleet }: Compiled, fit: SettledFit, meaning: Meaning, level: number): readonly number[] {
  const all = Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => value);
  const best = (values: readonly number[], cost: (value: number) => number): number[] =>
    values.toSorted((a, b) => cost(a) - cost(b) || a - b);
  switch (meaning.kind) {
    case 'control':
      return best(settingsOn(space, level, fit), (value) => {
        const positions = [...(meaning.values[value] ?? [])].map(([control, at]) => control.positions[at]);
        const isHeld = positions.some((position) => position?.returns !== undefined);
        return (isHeld ? 2 : 0) + (positions.some((position) => position?.abnormal) ? 1 : 0);
      });
    case 'sequence': {
      const { initial, modes, normal = initial } = meaning.sequence;
      const first = modes.findIndex(({ id }) => id === normal);
      return best(settingsOn(space, level, fit), (value) => (value === first ? 0 : 1));
    }
    case 'number': {
      const { number: range, id } = meaning.condition;
      const open = fleet.detectors.filter((detector) => detector.number === id);
      return best(all, (value) => {
        const cell = meaning.cells[value];
        return cell && range && open.every((detector) => isCertain(detector, range, cell)) ? 0 : 1;
      });
    }
    default:
      return best(all, (value) => (value === normalValue(meaning) ? 0 : 1));
  }
}
