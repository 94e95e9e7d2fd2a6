/** What the benchmark found, as data and as text. */

/** Milliseconds of one piece of work done by somebody, the first time and the median of later times. */
export interface Figure {
  readonly work: string;
  readonly by: string;
  readonly cold: number;
  readonly warm: number;
  /** Warm, in times of ours; 1 for ours. */
  readonly ratio: number;
}

export interface FamilyReport {
  readonly name: string;
  readonly about: string;
  readonly items: number;
  readonly fits: number;
  readonly variables: number;
  readonly meanSupport: number;
  readonly largestSupport: number;
  readonly tablesPerItem: number;
  readonly meanRows: number;
  /** Milliseconds for all tables of an item: the middle one, and the longest. */
  readonly medianTables: number;
  readonly longestTables: number;
  readonly figures: readonly Figure[];
  /** Of all items as one packed text, and the milliseconds to make and to read it. */
  readonly packed: {
    readonly nodes: number;
    readonly bytes: number;
    readonly gzip: number;
    readonly brotli: number;
    readonly pack: number;
    readonly unpack: number;
    readonly load: number;
  };
}

export interface Aim {
  readonly what: string;
  readonly family: string;
  readonly is: 'at least' | 'at most';
  readonly aim: number;
  readonly figure: number;
  readonly unit: string;
  readonly met: boolean;
}

/** How work grows with one number, the others being the same. */
export interface Growth {
  readonly over: string;
  readonly work: string;
  readonly points: readonly { readonly at: number; readonly milliseconds: number }[];
  /** e where the work grows as the number to the power of e. */
  readonly exponent: number;
}

/** How much a bad order costs, by the number of pairs. */
export interface OrderReport {
  readonly pairs: readonly number[];
  readonly together: readonly { readonly nodes: number; readonly milliseconds: number }[];
  readonly apart: readonly { readonly nodes: number; readonly milliseconds: number }[];
  /** Of the nodes: in the logarithms of both for the good order, doubling per pair for the bad one. */
  readonly exponentTogether: number;
  readonly factorApart: number;
}

/** Rule lists of as many variables each: where bit sets stop being fast. */
export interface WidthReport {
  readonly reads: readonly number[];
  /** Milliseconds an item. */
  readonly ours: readonly number[];
  readonly bitSets: readonly number[];
  readonly factorOurs: number;
  readonly factorBitSets: number;
}

export interface Report {
  readonly mode: string;
  readonly machine: string;
  readonly seconds: number;
  readonly families: readonly FamilyReport[];
  readonly aims: readonly Aim[];
  readonly width: WidthReport;
  readonly growth: readonly Growth[];
  readonly order: OrderReport;
}

export function aim(what: string, family: string, is: Aim['is'], wanted: number, figure: number, unit: string): Aim {
  return { what, family, is, aim: wanted, figure, unit, met: is === 'at least' ? figure >= wanted : figure <= wanted };
}

export function reportText(report: Report): string {
  const { families, aims, width, growth, order } = report;
  const parts = [
    `Benchmark of the logic, ${report.mode}: ${report.machine}, ${report.seconds.toFixed(0)} s`,
    'Cold: the first time. Warm: the median of later times, each from nothing. Ratio: warm, in times of the diagrams.',
    ...families.map(familyText),
    'Aims',
    aligned(
      aims.map(({ what, family, is, aim: wanted, figure, unit, met }) => [
        met ? '  met' : '  missed',
        `${what} (${family})`,
        `${rounded(figure)} ${unit}`,
        `${is} ${wanted.toLocaleString('en')}`,
      ]),
    ),
    'Rule lists by what an item reads: microseconds an item',
    aligned([
      ['  variables', ...width.reads.map(String), 'a variable more'],
      ['  diagrams', ...width.ours.map((each) => rounded(1000 * each)), `x ${rounded(width.factorOurs)}`],
      ['  bit sets', ...width.bitSets.map((each) => rounded(1000 * each)), `x ${rounded(width.factorBitSets)}`],
    ]),
    'Growth of fleets: work ~ number ^ exponent',
    aligned(
      growth.map(({ over, work, points, exponent }) => [
        `  ${over}`,
        work,
        `^ ${exponent.toFixed(2)}`,
        ...points.map(({ at, milliseconds }) => `${at}: ${time(milliseconds)}`),
      ]),
    ),
    'A known bad order: x1 y1 + x2 y2 + ..., each x beside its y, and all x before all y',
    aligned([
      ['  pairs', ...order.pairs.map(String), ''],
      [
        '  beside: nodes',
        ...order.together.map(({ nodes }) => String(nodes)),
        `^ ${order.exponentTogether.toFixed(2)}`,
      ],
      ['  before: nodes', ...order.apart.map(({ nodes }) => String(nodes)), `x ${order.factorApart.toFixed(2)} a pair`],
      ['  beside: time', ...order.together.map(({ milliseconds }) => time(milliseconds)), ''],
      ['  before: time', ...order.apart.map(({ milliseconds }) => time(milliseconds)), ''],
    ]),
  ];
  return `${parts.join('\n\n')}\n`;
}

function familyText(family: FamilyReport): string {
  const { packed } = family;
  const head = [
    `Family "${family.name}": ${family.about}`,
    `  ${family.items} items, ${family.fits} fits, ${family.variables} variables; an item reads ${family.meanSupport.toFixed(1)} on average, ` +
      `${family.largestSupport} at most; ${family.tablesPerItem.toFixed(1)} tables an item, ${family.meanRows.toFixed(1)} rows each`,
    `  tables of half of the items take less than ${time(family.medianTables)}, the longest ${time(family.longestTables)}`,
    `  packed: ${packed.nodes} nodes, ${packed.bytes} bytes, ${packed.gzip} with gzip, ${packed.brotli} with brotli; ` +
      `made in ${time(packed.pack)}, read in ${time(packed.unpack)}, loaded as diagrams in ${time(packed.load)}`,
  ];
  const rows = family.figures.map(({ work, by, cold, warm, ratio }, at) => [
    family.figures[at - 1]?.work === work ? '' : `  ${work}`,
    by,
    `${time(cold)} cold`,
    `${time(warm)} warm`,
    ratio === 1 ? '' : `x ${rounded(ratio)}`,
  ]);
  return [...head, aligned(rows)].join('\n');
}

/** Columns as wide as their widest cell; numbers stand to the right. */
function aligned(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length)));
  return rows
    .map((row) =>
      row
        .map((cell, column) => {
          const width = widths[column] ?? 0;
          return column > 0 && /^[x^\d]/.test(cell) ? cell.padStart(width) : cell.padEnd(width);
        })
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** With a unit in which it is neither tiny nor huge. */
export function time(milliseconds: number): string {
  const [factor, unit] =
    milliseconds >= 1000
      ? [0.001, 's']
      : milliseconds >= 1
        ? [1, 'ms']
        : milliseconds >= 0.001
          ? [1e3, 'us']
          : [1e6, 'ns'];
  return `${rounded(milliseconds * Number(factor))} ${unit}`;
}

/** Three digits, with separators for thousands. */
function rounded(number: number): string {
  return Number(number.toPrecision(3)).toLocaleString('en', { maximumSignificantDigits: 3 });
}
