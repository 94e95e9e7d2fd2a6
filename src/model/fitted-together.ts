/** What must never be fitted together: controls in one place, those that count as one, and positions with one legend. */
import type { Diagnostics, Place } from '../diagnostics/index.ts';
import type { Expression } from '../language/index.ts';
import type { Control, PanelPlace, Position } from './fleet.ts';
import type { KnownFits } from './known-fits.ts';
import { type Entry, entriesUnder, itemsUnder, scalarUnder } from './yaml-source.ts';

/** Reports each pair of controls that some aircraft has, or may have, and must not, at the later one. */
export function reportFittedTogether(
  controls: readonly Control[],
  places: readonly PanelPlace[],
  fits: KnownFits,
  diagnostics: Diagnostics,
): void {
  controls.forEach((control, at) => {
    for (const other of controls.slice(0, at)) {
      const shared = control.at !== undefined && control.at === other.at;
      if (!shared && classOf(control) !== classOf(other)) continue;
      const found = fits.witness([other, control].flatMap(whenFitted));
      if (!found) continue;
      const facts = { ...found, controls: [other.id, control.id] };
      const related = [{ place: other.place, label: 'the other one' }];
      const place = places.find(({ id }) => id === control.at)?.title ?? '';
      if (shared) diagnostics.report('SL355', { ...facts, place }, control.place, related);
      else diagnostics.report('SL356', facts, control.place, related);
    }
  });
}

/** The control that it counts as. */
function classOf({ id, counterpart }: Control): string {
  return counterpart ?? id;
}

function whenFitted({ fitted }: { readonly fitted?: Expression }): Expression[] {
  return fitted ? [fitted] : [];
}

/** Reports the positions that spring back to one that an aircraft with them lacks. */
export function reportLostReturns(control: Control, fits: KnownFits, diagnostics: Diagnostics): void {
  for (const position of control.positions) {
    const target = control.positions.find(({ id }) => id === position.returns)?.fitted;
    if (!target) continue;
    const lacking: Expression = { op: 'not', arg: target, place: target.place };
    const found = fits.witness([...whenFitted(control), ...whenFitted(position), lacking]);
    if (!found) continue;
    const facts = { ...found, position: position.id, to: position.returns ?? '', known: [] };
    diagnostics.report('SL352', { ...facts, fault: 'absent' }, position.place);
  }
}

/** Reports a control that has no normal position on an aircraft: everything there would be abnormal. */
export function reportNoneNormal(control: Control, fits: KnownFits, diagnostics: Diagnostics): void {
  const normal = control.positions.filter(({ abnormal }) => !abnormal);
  // One without any position there is told of as such.
  if (normal.length === control.positions.length || normal.some(({ fitted }) => !fitted)) return;
  const lacking = normal
    .flatMap(whenFitted)
    .map((fitted): Expression => ({ op: 'not', arg: fitted, place: fitted.place }));
  const found = fits.witness([...whenFitted(control), ...lacking]);
  if (found) diagnostics.report('SL312', { fault: 'none', control: control.id, ...found }, control.place);
}

/** A legend of a position, and what must hold so that it is seen. */
interface Seen {
  readonly words: string;
  readonly place: Place;
  readonly when: readonly Expression[];
}

/** Reports the positions of a control that read the same on some aircraft, at the later one. `entry` is its source. */
export function reportSameLegends(control: Control, entry: Entry, fits: KnownFits, diagnostics: Diagnostics): void {
  const entries = entriesUnder(entry.value, 'positions');
  const seen = control.positions.map((position, at) => legendsOf(position, entries[at] as Entry));
  seen.forEach((legends, at) => {
    for (const others of seen.slice(0, at)) {
      const pair = legends
        .flatMap((legend) => others.map((other) => [other, legend] as const))
        .find(
          ([other, legend]) =>
            other.words.toLocaleLowerCase('en') === legend.words.toLocaleLowerCase('en') &&
            fits.witness([...whenFitted(control), ...other.when, ...legend.when]),
        );
      if (!pair) continue;
      const [other, { words, place }] = pair;
      diagnostics.report('SL307', { words }, place, [{ place: other.place, label: 'also here' }]);
    }
  });
}

function legendsOf(position: Position, { keyPlace, value }: Entry): Seen[] {
  const nodes = itemsUnder(value, 'legends');
  const none: Expression[] = whenFitted(position);
  const seen = position.legends.map(({ when, legend }, at): Seen => {
    const place = scalarUnder(nodes[at], 'legend')?.place ?? keyPlace;
    const here = { words: legend, place, when: [...none, when] };
    none.push({ op: 'not', arg: when, place: when.place });
    return here;
  });
  return [...seen, { words: position.legend, place: scalarUnder(value, 'legend')?.place ?? keyPlace, when: none }];
}
