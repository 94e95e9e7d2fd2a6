/** How one fit differs from another, item by item, as a table with one plain example. */
import {
  type Behaviour,
  type Compiled,
  difference,
  type Fit,
  IMPOSSIBLE,
  type On,
  type Verdict,
} from '../compile/index.ts';
import type { StateTable } from '../logic/index.ts';
import { controlAddress, itemAddress } from './addresses.ts';
import { attributeTitle, groupAnchor } from './attributes.ts';
import type { ControlDifference, DifferenceView, Inline, StateView } from './book.ts';
import { columnTitle, plain, text } from './cells.ts';
import { groupOf, settledOf } from './fits.ts';
import { listedItem } from './links.ts';
import { isItemOn, itemLegend, positionsText } from './positions.ts';
import { cubeWords } from './sentences.ts';
import { cellRows, meaningAt, outcomeView } from './tables.ts';

/** How the two fits are called in the words of a page. */
export interface Names {
  readonly here: string;
  readonly there: string;
}

/** The items that behave differently, in the order of the panel. */
export function differences(compiled: Compiled, here: Fit, there: Fit, names: Names): DifferenceView[] {
  return compiled.behaviours.flatMap((behaviour) => {
    const view = differenceView(compiled, behaviour, here, there, names);
    return view ? [view] : [];
  });
}

/** The controls whose positions differ, and what bears another legend. */
export function controlDifferences(compiled: Compiled, here: Fit, there: Fit): ControlDifference[] {
  const { controls, items } = compiled.fleet;
  return [
    ...controls.map((control) => ({
      control: { to: controlAddress(control), title: control.title },
      here: positionsText(compiled, control, here),
      baseline: positionsText(compiled, control, there),
    })),
    ...items
      .filter((item) => [here, there].every((fit) => isItemOn(compiled, item, fit)))
      .map((item) => ({
        control: { to: itemAddress(item), title: item.title },
        here: itemLegend(item, here),
        baseline: itemLegend(item, there),
      })),
  ].filter((one) => plain(one.here) !== plain(one.baseline));
}

function differenceView(
  compiled: Compiled,
  behaviour: Behaviour,
  here: Fit,
  there: Fit,
  names: Names,
): DifferenceView | undefined {
  const { item } = behaviour;
  const { verdict, table } = difference(compiled, behaviour, here, there);
  if (verdict === 'alike') return undefined;
  const listed = { ...listedItem(item), title: attributeTitle(behaviour) };
  const words = verdictWords(verdict, names);
  if (!table) return { item: listed, verdict: words, example: [] };
  // Where the two have different controls that count as one, the cells name both.
  const on = settledOf([here, there]);
  return {
    item: listed,
    verdict: words,
    example: example(compiled, behaviour, table, on, names),
    table: {
      id: `${groupAnchor(behaviour, groupOf(behaviour, here))}-difference`,
      columns: table.columns.map((level) => ({ title: columnTitle(meaningAt(compiled, level), on) })),
      resultTitles: [names.here, names.there],
      rows: cellRows(compiled, table, on).map((row, index) => ({
        ...row,
        results: results(compiled, behaviour, table.rows[index]?.outcome ?? IMPOSSIBLE),
      })),
    },
  };
}

function results(compiled: Compiled, { attribute }: Behaviour, outcome: number): [StateView, StateView] {
  const [here, there] = compiled.outcomes.pair(outcome);
  return [outcomeView(compiled, attribute, here), outcomeView(compiled, attribute, there)];
}

function verdictWords(verdict: Verdict, { here, there }: Names): string {
  switch (verdict) {
    case 'alike':
      return 'Alike';
    case 'differs':
      return 'Differs';
    case 'may differ':
      return 'May differ';
    case 'stated here only':
      return `Stated for ${here} only`;
    case 'stated there only':
      return `Stated for ${there} only`;
    case 'not fitted here':
      return `Not fitted on ${here}`;
    case 'not fitted there':
      return `Not fitted on ${there}`;
    case 'other cases':
      return 'Has other cases';
    case 'only possible here':
      return `Has cases that only ${here} can be in`;
    case 'only possible there':
      return `Has cases that only ${there} can be in`;
  }
}

/** The first row in words: "On the ground with …: lit on QQ-OAC, dark on QQ-OAA." */
function example(compiled: Compiled, behaviour: Behaviour, table: StateTable, on: On, names: Names): Inline[] {
  const plainest =
    table.rows.find(({ outcome }) => !compiled.outcomes.pair(outcome).includes(IMPOSSIBLE)) ?? table.rows[0];
  if (!plainest) throw new Error('a difference has no row');
  const [here, there] = results(compiled, behaviour, plainest.outcome);
  return [
    text('For example, '),
    ...cubeWords(compiled, table.columns, plainest.cells, on),
    text(`: ${here.text} on ${names.here}, ${there.text} on ${names.there}.`),
  ];
}
