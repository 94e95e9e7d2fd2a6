/** How one fit differs from another, panel by panel: exact tables, and what only one of them can be in sentences. */
import {
  type Comparable,
  difference,
  type Fit,
  type Formed,
  idOf,
  type LoneSetting,
  loneSettings,
  type Meaning,
  type Verdict,
  valueIds,
} from '../compile/index.ts';
import type { Panel } from '../model/index.ts';
import { controlAddress, itemAddress, panelAddress } from './addresses.ts';
import { attributeTitle, groupAnchor } from './attributes.ts';
import type { Inline, Listed } from './book.ts';
import type { ControlDifference, LoneView, NotFittedView, PanelDifferences } from './book-differences.ts';
import { link, plain, upperFirst } from './cells.ts';
import { type Differing, differenceViews } from './difference-tables.ts';
import { followsItsLight } from './lamps.ts';
import { before, type Names } from './names.ts';
import { cubeWords } from './phrases.ts';
import { isItemOn, itemLegend, positionsText } from './positions.ts';
import { formSentences } from './sentences.ts';
import { meaningAt } from './tables.ts';

/** All that differs, by panel; panels in which nothing does are left out. `anchor` makes the anchors of its parts. */
export function differences(
  compiled: Comparable,
  here: Fit,
  there: Fit,
  names: Names,
  anchor: (id: string) => string = (id) => id,
): PanelDifferences[] {
  const lone = loneSettings(compiled, here, there);
  const differing = compiled.behaviours.flatMap((behaviour): Differing[] => {
    const { verdict, table } = difference(compiled, behaviour, here, there, lone);
    return verdict === 'alike' ? [] : [{ behaviour, verdict: verdictWords(verdict, names), table }];
  });
  const views = differenceViews(compiled, differing, [here, there], names, anchor);
  const loneViews = lone.flatMap((setting) => loneView(compiled, setting, here, there, names, anchor));
  return compiled.fleet.panels
    .map(
      (panel): PanelDifferences => ({
        panel: { to: panelAddress(panel), title: panel.title },
        looks: looks(compiled, panel, here, there),
        notFitted: notFitted(differing, panel),
        lone: loneViews.filter((each) => each.panel === panel.id).map(({ view }) => view),
        differences: views.filter((each) => each.panel === panel.id).map(({ view }) => view),
      }),
    )
    .filter((each) => each.looks.length + each.notFitted.length + each.lone.length + each.differences.length > 0);
}

/** The controls of a panel whose positions differ, and what bears another legend. */
function looks(compiled: Comparable, panel: Panel, here: Fit, there: Fit): ControlDifference[] {
  const { controls, items } = compiled.fleet;
  return [
    ...controls
      .filter((control) => control.panel === panel.id)
      .map((control) => ({
        control: { to: controlAddress(control), title: control.title },
        here: positionsText(control, here),
        baseline: positionsText(control, there),
      })),
    ...items
      .filter((item) => item.panel === panel.id && [here, there].every((fit) => isItemOn(item, fit)))
      .map((item) => ({
        control: { to: itemAddress(item), title: item.title },
        here: itemLegend(item, here),
        baseline: itemLegend(item, there),
      })),
  ].filter((one) => plain(one.here) !== plain(one.baseline));
}

/** Whole items that only one of the two has. */
function notFitted(differing: readonly Differing[], panel: Panel): NotFittedView[] {
  const lacking = differing.filter(({ behaviour, table }) => !table && behaviour.item.panel === panel.id);
  return [...Map.groupBy(lacking, ({ verdict }) => verdict)].map(([verdict, some]) => ({
    verdict,
    items: [...new Set(some.map(({ behaviour }) => behaviour.item))].map(listedTitle),
  }));
}

function listedTitle(item: Formed['item']): Listed {
  return { to: itemAddress(item), title: item.title };
}

/** What is seen in a position, mode or value that the other fit never has; nothing where no item depends on it. */
function loneView(
  compiled: Comparable,
  { level, value, on }: LoneSetting,
  here: Fit,
  there: Fit,
  names: Names,
  anchor: (id: string) => string,
): { panel: string; view: LoneView }[] {
  const { diagrams } = compiled;
  const fit = on === 'here' ? here : there;
  const formOf = (behaviour: Formed): number => behaviour.forms[fit.index] as number;
  const seen = compiled.behaviours.filter(
    (behaviour) => diagrams.support(formOf(behaviour)).includes(level) && !followsItsLight(compiled, behaviour),
  );
  const [first] = seen;
  if (!first) return [];
  const meaning = meaningAt(compiled, level);
  const said = formSentences(
    compiled,
    seen.map((behaviour) => ({ behaviour, form: diagrams.restrict(formOf(behaviour), level, value) })),
    fit.settled,
  );
  const words = cubeWords(compiled, [level], [[value]], fit.settled);
  const view: LoneView = {
    id: anchor(`only-${idOf(meaning)}-${valueIds(meaning)[value]}`),
    of: idOf(meaning),
    title: [{ ...words[0], text: upperFirst(words[0]?.text ?? '') } as Inline, ...words.slice(1)],
    verdict: `Only possible ${before(names)} ${on === 'here' ? names.here : names.there}`,
    says: said.map(({ words, of }) => ({ words, tables: tableLinks(of, fit) })),
  };
  return [{ panel: panelOf(meaning) ?? first.item.panel, view }];
}

/**
 * Where the whole tables of what a sentence is about stand, by name. A fit that no aircraft has has the tables of a group that behaves the same, or none.
 */
function tableLinks(of: readonly Formed[], fit: Fit): Inline[] {
  return of.flatMap((behaviour) => {
    const { forms } = behaviour;
    const isAlike = (other: Fit): boolean => other === fit || forms[other.index] === forms[fit.index];
    const group = behaviour.groups.find(({ fits }) => fits.some(isAlike));
    if (!group) return [];
    return [link(itemAddress(behaviour.item), attributeTitle(behaviour), groupAnchor(behaviour, group))];
  });
}

function panelOf(meaning: Meaning): string | undefined {
  if (meaning.kind === 'control') return meaning.control.panel;
  return meaning.kind === 'sequence' ? meaning.sequence.panel : undefined;
}

function verdictWords(verdict: Verdict, names: Names): string {
  const [here, there] = [names.here, names.there].map((name) => `${before(names)} ${name}`);
  switch (verdict) {
    case 'alike':
      return 'Alike';
    case 'differs':
      return 'Differs';
    case 'may differ':
      return 'May differ';
    case 'stated here only':
      return `Stated ${here} only`;
    case 'stated there only':
      return `Stated ${there} only`;
    case 'not fitted here':
      return `Not fitted ${here}`;
    case 'not fitted there':
      return `Not fitted ${there}`;
    case 'other cases':
      return 'Can be in other cases';
    case 'only possible here':
      return `Has cases only possible ${here}`;
    case 'only possible there':
      return `Has cases only possible ${there}`;
  }
}
