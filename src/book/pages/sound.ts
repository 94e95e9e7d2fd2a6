/** The page of a sound: what it sounds like, and what sets it off. */
import { type Compiled, type Fit, holdsOn, type SettledFit } from '../../compile/index.ts';
import type { Sound } from '../../model/index.ts';
import { panelAddress, soundAddress } from '../addresses.ts';
import type { SoundGroup, SoundPage, TriggerTableView } from '../book-time.ts';
import { effectivityOf } from '../effectivity.ts';
import { citations, definedBase } from '../links.ts';
import { listedNames } from '../links-time.ts';
import { trailTo } from '../trail.ts';
import { triggerTableView } from '../trigger-tables.ts';

export function soundPage(compiled: Compiled, sound: Sound): SoundPage {
  const { fleet } = compiled;
  const panel = fleet.panels.find(({ id }) => id === sound.panel);
  if (!panel) throw new Error(`${sound.id} stands on no panel`);
  const named = sound.triggers.flatMap(({ becomes, while: during }) =>
    [becomes, during].filter((each) => each !== undefined),
  );
  return {
    kind: 'sound',
    address: soundAddress(sound),
    title: sound.title,
    trail: trailTo(panel),
    ...definedBase(fleet, sound),
    citations: citations(fleet, [sound, ...sound.triggers]),
    sounds: sound.sounds,
    panel: { to: panelAddress(panel), title: panel.title },
    groups: groups(compiled, sound),
    reads: listedNames(fleet, named),
  };
}

type Table = Omit<TriggerTableView, 'id'>;

/** Fits with the same table stand together; those that lack the sound come last. */
function groups(compiled: Compiled, sound: Sound): SoundGroup[] {
  const tables = new Map(compiled.settled.map((fit) => [fit, tableOn(compiled, sound, fit)]));
  const of = (fit: Fit): (Table | undefined)[] => {
    const all = fit.settled.map((settled) => tables.get(settled));
    return [...new Map(all.map((table) => [JSON.stringify(table), table])).values()];
  };
  const classes = [...Map.groupBy(compiled.fits, (fit) => JSON.stringify(of(fit))).values()];
  const lacks = ([fit]: readonly Fit[]): boolean => fit === undefined || of(fit).every((table) => table === undefined);
  return [...classes.filter((each) => !lacks(each)), ...classes.filter(lacks)].map((fits, index): SoundGroup => {
    const [first] = fits as [Fit];
    const id = `${sound.id}-${index + 1}`;
    const distinct = of(first);
    return {
      id,
      effectivity: effectivityOf(compiled, fits),
      tables: distinct.flatMap((table, at) => (table ? [{ id: `${id}-table-${at + 1}`, ...table }] : [])),
      dependsOn:
        distinct.length > 1
          ? compiled.fleet.options.filter(({ id: option }) => first.unknown.includes(option)).map(({ title }) => title)
          : [],
    };
  });
}

function tableOn(compiled: Compiled, sound: Sound, fit: SettledFit): Table | undefined {
  const { diagrams, space, expressions } = compiled;
  return holdsOn(diagrams, space, expressions.itemFitted(sound), fit)
    ? triggerTableView(compiled, sound, fit)
    : undefined;
}
