/** The cases in which two fits differ, as tables with two results; lamps of a light that differ alike have one table. */
import { type Fit, type Formed, IMPOSSIBLE, normalValue, type On, type Worded } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Cube, StateTable } from '../logic/index.ts';
import { attributeTitle } from './attributes.ts';
import type { Inline, StateView } from './book.ts';
import type { DifferenceView } from './book-differences.ts';
import { columnTitle, plain, text, upperFirst } from './cells.ts';
import { settledOf } from './fits.ts';
import { listedItem } from './links.ts';
import { before, type Names } from './names.ts';
import { cubeWords } from './phrases.ts';
import { cellRows, lampAt, meaningAt, outcomeView } from './tables.ts';

/** One behaviour that differs; without a table where only one of the two has it. */
export interface Differing {
  readonly behaviour: Formed;
  readonly verdict: string;
  readonly table: StateTable | undefined;
}

/** In the order of the panel, each with the id of its panel. */
export function differenceViews(
  compiled: Worded,
  differing: readonly Differing[],
  fits: readonly [Fit, Fit],
  names: Names,
  anchor: (id: string) => string,
): { panel: string; view: DifferenceView }[] {
  // Where the two have different controls that count as one, the cells name both.
  const on = settledOf(fits);
  const tabled = differing.flatMap(({ behaviour, verdict, table }) =>
    table ? [{ behaviour, verdict, table, ...bodyOf(compiled, behaviour, table, on) }] : [],
  );
  const alike = Map.groupBy(tabled, ({ behaviour: { item, attribute }, verdict, rows }) =>
    JSON.stringify([item.id, attribute.lamp ? 'lamp' : attribute.id, verdict, rows]),
  );
  return [...alike.values()].map((some) => {
    const [first] = some as [(typeof some)[number]];
    const { behaviour, table, verdict, rows } = first;
    const { item } = behaviour;
    const id = anchor(`differs-${item.id}-${behaviour.attribute.id}`);
    const titles = some.map((each) => attributeTitle(each.behaviour));
    const lamps = some.map((each) => each.behaviour.attribute.title);
    const about = some.flatMap(({ behaviour: { attribute } }) =>
      attribute.lamp ? [`${item.id}-${attribute.id}`] : [],
    );
    return {
      panel: item.panel,
      view: {
        id,
        item: {
          ...listedItem(item),
          title: some.length > 1 ? `${item.title}: ${list(lamps, 'and')}` : (titles[0] ?? ''),
        },
        ...(about.length > 0 ? { lamps: about } : {}),
        verdict,
        example: rows.length > 1 ? example(compiled, behaviour, table, on, names) : [],
        table: {
          id: `${id}-table`,
          columns: first.columns.map((title, at) => {
            const each = some.map(({ columns }) => columns[at] ?? []);
            const working = new Set(some.map(({ table: one }) => lampAt(compiled, one.columns[at] as number)));
            const these = [...working].filter((lamp) => lamp !== undefined);
            return {
              ...(new Set(each.map(plain)).size > 1
                ? { title: each.flatMap((one, before) => (before === 0 ? one : [text(' / '), ...one])), each }
                : { title }),
              ...(these.length > 0 ? { lamps: these } : {}),
            };
          }),
          resultTitles: [upperFirst(names.here), upperFirst(names.there)],
          rows,
        },
      },
    };
  });
}

function bodyOf(
  compiled: Worded,
  behaviour: Formed,
  table: StateTable,
  on: On,
): { columns: Inline[][]; rows: DifferenceView['table']['rows'] } {
  return {
    columns: table.columns.map((level) => columnTitle(meaningAt(compiled, level), on, behaviour.item)),
    rows: cellRows(compiled, table, on).map((row, index) => ({
      ...row,
      results: results(compiled, behaviour, table.rows[index]?.outcome ?? IMPOSSIBLE),
    })),
  };
}

function results(compiled: Worded, { attribute }: Formed, outcome: number): [StateView, StateView] {
  const [here, there] = compiled.outcomes.pair(outcome);
  return [outcomeView(compiled, attribute, here), outcomeView(compiled, attribute, there)];
}

/** The plainest row in words, without what is normal: "On the ground with …: lit on QQ-OAC, dark on QQ-OAA." */
function example(compiled: Worded, behaviour: Formed, table: StateTable, on: On, names: Names): Inline[] {
  const isCommon = (outcome: number): boolean => !compiled.outcomes.pair(outcome).includes(IMPOSSIBLE);
  const common = table.rows.filter(({ outcome }) => isCommon(outcome));
  const plainest = [...(common.length > 0 ? common : table.rows)].sort(
    (a, b) => abnormal(compiled, table, a.cells) - abnormal(compiled, table, b.cells),
  )[0];
  if (!plainest) throw new Error('a difference has no row');
  const [here, there] = results(compiled, behaviour, plainest.outcome);
  const cells = plainest.cells.map((values, at) => (isUsual(compiled, table, values, at) ? undefined : values));
  const everywhere = cells.every((values) => values === undefined);
  return [
    text('For example, '),
    ...(everywhere ? [text('in normal cases')] : cubeWords(compiled, table.columns, cells, on)),
    text(`: ${here.text} ${before(names)} ${names.here}, ${there.text} ${before(names)} ${names.there}.`),
  ];
}

/** Whether a cell holds the normal value of its column, which goes without saying. */
function isUsual(
  compiled: Worded,
  { columns }: StateTable,
  values: readonly number[] | undefined,
  at: number,
): boolean {
  const normal = normalValue(meaningAt(compiled, columns[at] as number));
  return values !== undefined && normal !== undefined && values.includes(normal);
}

/** How many cells of a row do not hold what is normal. */
function abnormal(compiled: Worded, table: StateTable, cells: Cube): number {
  return cells.filter(
    (values, at) =>
      values !== undefined &&
      normalValue(meaningAt(compiled, table.columns[at] as number)) !== undefined &&
      !isUsual(compiled, table, values, at),
  ).length;
}
