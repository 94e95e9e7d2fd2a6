/** Reads of controls and items that some aircraft lack, without a `fitted(...)` that keeps them out. */

import type { Place } from '../diagnostics/index.ts';
import { type Expression, unguardedReads } from '../language/index.ts';
import type { Surroundings } from './behaviour.ts';
import { effectivityText } from './effectivity.ts';
import type { SettledFit } from './fits.ts';
import { optionLevels } from './space.ts';

/** Reports each unguarded read once, with all the aircraft that lack it. Says whether there was one. */
export function reportUnguarded(expression: Expression, fits: readonly SettledFit[], around: Surroundings): boolean {
  const { fleet, space, diagrams, expressions } = around;
  const found = new Map<string, { place: Place; id: string; title: string; fits: SettledFit[] }>();
  for (const fit of fits) {
    const levels = optionLevels(space, fit);
    const holds = (node: number): boolean => diagrams.restrictAll(node, levels) === diagrams.yes;
    const reads = unguardedReads(expression, {
      option: (id) => fit.options.get(id) ?? '',
      signal: (id) => expressions.signal(id),
      fitted: (reference, position) => {
        if (reference.kind === 'option' || reference.kind === 'condition') return true;
        return holds(expressions.fitted(reference, position));
      },
    });
    for (const { reference, place } of reads) {
      const key = `${place.file.path} ${place.start} ${reference.id}`;
      const named = [...fleet.controls, ...fleet.items, ...fleet.sequences].find(({ id }) => id === reference.id);
      const entry = found.get(key) ?? { place, id: reference.id, title: named?.title ?? reference.id, fits: [] };
      entry.fits.push(fit);
      found.set(key, entry);
    }
  }
  for (const { place, id, title, fits: lacking } of found.values()) {
    const aircraft = effectivityText(
      fleet,
      lacking.flatMap((fit) => fit.aircraft),
    );
    around.diagnostics.report('SL407', { name: title, id, aircraft }, place);
  }
  return found.size > 0;
}
