/**
 * What differs between two fits, as markup. The built pages and the page that compares any two aircraft are written by these same
 * functions.
 */
import type {
  Address,
  ComparisonView,
  ControlDifference,
  DifferenceView,
  Inline,
  LoneView,
  NotFittedView,
  PanelDifferences,
} from '../book/index.ts';
import { nameIn } from './address.ts';
import { rowAnchors } from './anchors.ts';
import { escaped, linkHtml, stateHtml, tells, wordsHtml } from './html.ts';
import { grouped, isShort, plain } from './rows.ts';

type Names = readonly [here: string, there: string];

/** The cases in which two fits differ: a state table with two results. */
export function differenceTableHtml(table: DifferenceView['table'], caption: string, from: Address): string {
  const id = escaped(table.id);
  const titles = table.columns.map(({ title, each, lamps }) => {
    const words = each
      ? each.map((one) => `<span class="each">${wordsHtml(one, from)}</span>`).join(' / ')
      : wordsHtml(title, from);
    return `<th scope="col"${lamps ? ` data-lamp="${escaped(lamps.join(' '))}"` : ''}>${words}</th>`;
  });
  const results = table.resultTitles.map((title) => `<th scope="col" class="result">${escaped(title)}</th>`);
  const bodies = grouped(table.rows).map(
    (rows) => `<tbody>${rows.map((row) => rowHtml(table, row, from)).join('')}</tbody>`,
  );
  return [
    `<div class="wide" role="group" aria-labelledby="${id}-caption" tabindex="0">`,
    `<table class="states two${isShort(table.rows) ? ' short' : ''}" id="${id}">`,
    `<caption id="${id}-caption">${escaped(caption)}</caption>`,
    `<thead><tr>${titles.join('')}${results.join('')}</tr></thead>`,
    ...bodies,
    '</table></div>',
  ].join('');
}

function rowHtml(table: DifferenceView['table'], row: DifferenceView['table']['rows'][number], from: Address): string {
  const cells = row.cells.map(({ any, again, text }, at) => {
    const kinds = [any ? 'any' : '', again ? 'again' : ''].filter((kind) => kind !== '').join(' ');
    const column = escaped(plain(table.columns[at]?.title));
    return `<td${kinds === '' ? '' : ` class="${kinds}"`} data-column="${column}"><span>${wordsHtml(text, from)}</span></td>`;
  });
  const results = row.results.map(
    (result, at) =>
      `<td class="result" data-column="${escaped(table.resultTitles[at] ?? '')}">${stateHtml(result, from)}</td>`,
  );
  return `<tr id="${escaped(`${table.id}_${row.key}`)}">${cells.join('')}${results.join('')}</tr>`;
}

/** The words of a heading with what is found beside them. */
export function verdictHtml(words: readonly Inline[], verdict: string, from: Address): string {
  return `${wordsHtml(words, from)} <span class="verdict">${escaped(verdict)}</span>`;
}

/** The heading's words of one thing that differs. */
export function differenceTitleHtml({ item, lamps, verdict }: DifferenceView, from: Address): string {
  return `<span${tells(lamps)}>${verdictHtml([{ kind: 'link', to: item.to, text: item.title }], verdict, from)}</span>`;
}

/** One plain example, then the cases. */
export function differenceHtml({ example, item, table }: DifferenceView, from: Address): string {
  const words = example.length > 0 ? `<p>${wordsHtml(example, from)}</p>` : '';
  return `${words}${differenceTableHtml(table, `${item.title}: where it differs`, from)}`;
}

/** What is seen in a case that only one of two can be in, in sentences that lead to the tables. */
export function loneHtml({ says }: LoneView, from: Address): string {
  const items = says.map(({ words, tables }) => {
    const links = tables.map((link) => wordsHtml([link], from)).join(', ');
    const tablesHtml = links === '' ? '' : ` <span class="tables">All cases: ${links}</span>`;
    return `<li><span${tells()}>${wordsHtml(words, from)}</span>${tablesHtml}</li>`;
  });
  return `<ul class="says">${items.join('')}</ul>`;
}

/** Things that only one of two has. */
export function notFittedHtml({ items }: NotFittedView, from: Address): string {
  const links = items.map(({ to, title }) => linkHtml(from, to, title));
  return `<p${tells()}>${links.map((link, at) => `${at === 0 ? '' : at === links.length - 1 ? ' and ' : ', '}${link}`).join('')}</p>`;
}

/** A control or a legend that looks otherwise: the cells of its row. */
export function looksHtml({ control, here, baseline }: ControlDifference, from: Address, names: Names): string {
  const cells = [here, baseline].map(
    (words, at) => `<td data-column="${escaped(names[at] ?? '')}"><span>${wordsHtml(words, from)}</span></td>`,
  );
  return `<th scope="row">${linkHtml(from, control.to, control.title)}</th>${cells.join('')}`;
}

/** The head of a table of facts in which the two stand side by side. */
export function factsHeadHtml(first: string, names: Names, more = ''): string {
  const titles = [first, ...names].map((title) => `<th scope="col">${escaped(title)}</th>`);
  return `<thead><tr>${titles.join('')}${more}</tr></thead>`;
}

/** A table of facts with an anchor of its own and one for each row, by the pages that the rows lead to. */
function factsHtml(id: string, caption: string, head: string, rows: readonly { to: Address; cells: string }[]): string {
  const anchors = rowAnchors(
    id,
    rows.map(({ to }) => to),
  );
  const body = rows.map(({ cells }, at) => `<tr id="${escaped(anchors[at] ?? '')}">${cells}</tr>`);
  return [
    `<div class="wide" role="group" aria-label="${escaped(caption)}" tabindex="0"><table class="facts" id="${escaped(id)}">`,
    `<caption>${escaped(caption)}</caption>${head}<tbody>${body.join('')}</tbody>`,
    '</table></div>',
  ].join('');
}

/**
 * What differs between two fits, panel by panel. `prefix` stands before the anchors of what has none of its own; `level` is that of
 * the headings of panels.
 */
export function differencesHtml(
  panels: readonly PanelDifferences[],
  from: Address,
  names: Names,
  { prefix = '', level = 3 }: { readonly prefix?: string | undefined; readonly level?: 3 | 4 | undefined } = {},
): string {
  const [above, below] = [`h${level}`, `h${level + 1}`];
  return panels
    .map(({ panel, looks, notFitted, lone, differences }) =>
      [
        `<section class="of-panel"><${above}>${linkHtml(from, panel.to, panel.title)}</${above}>`,
        looks.length === 0
          ? ''
          : factsHtml(
              `${prefix}looks-${nameIn(panel.to)}`,
              `${panel.title}: what looks otherwise`,
              factsHeadHtml('Where', names),
              looks.map((each) => ({ to: each.control.to, cells: looksHtml(each, from, names) })),
            ),
        ...notFitted.map(
          (one) =>
            `<section class="difference missing"><${below} class="verdict">${escaped(one.verdict)}</${below}>${notFittedHtml(one, from)}</section>`,
        ),
        ...lone.map(
          (one) =>
            `<section class="difference lone" id="${escaped(one.id)}"><${below}>${verdictHtml(one.title, one.verdict, from)}</${below}>${loneHtml(one, from)}</section>`,
        ),
        ...differences.map(
          (one) =>
            `<section class="difference" id="${escaped(one.id)}"><${below}>${differenceTitleHtml(one, from)}</${below}>${differenceHtml(one, from)}</section>`,
        ),
        '</section>',
      ].join(''),
    )
    .join('');
}

/** Panels in short, in sentences. */
export function inShortHtml(panels: ComparisonView['inShort'], from: Address): string {
  const parts = panels.map(
    ({ panel, sentences }) =>
      `<div><dt>${linkHtml(from, panel.to, panel.title)}</dt>${sentences.map((words) => `<dd>${wordsHtml(words, from)}</dd>`).join('')}</div>`,
  );
  return `<dl class="in-short"${tells()}>${parts.join('')}</dl>`;
}

/** All that differs between two aircraft, below a heading of its own. */
export function comparisonHtml(view: ComparisonView, from: Address): string {
  const { names, notes, summary, options, inShort, panels, anchor } = view;
  const rows = options.map(({ option, here, there }) => {
    const cells = [here, there].map(
      (value, at) => `<td data-column="${escaped(names[at] ?? '')}">${escaped(value)}</td>`,
    );
    return { to: option.to, cells: `<th scope="row">${linkHtml(from, option.to, option.title)}</th>${cells.join('')}` };
  });
  return [
    `<h2>${escaped(names.join(' and '))}</h2>`,
    ...notes.map((note) => `<p>${escaped(note)}</p>`),
    `<p class="summary">${summary.map(escaped).join(' ')}</p>`,
    panels.length === 0 ? '' : inShortHtml(inShort, from),
    rows.length === 0 ? '' : factsHtml(`${anchor}options`, 'Options that differ', factsHeadHtml('Option', names), rows),
    differencesHtml(panels, from, names, { prefix: anchor }),
  ].join('');
}
