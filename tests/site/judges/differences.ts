/**
 * Holds the differences from the baseline to the rules: which items differ, and every case of every table with both states.
 */
import { byClass, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { lies, readValues, variableTitled } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { type AttributeId, attributesOf, stateTitle } from './groups.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

/** Faults of the differences on every aircraft's page. */
export function judgeDifferences(pages: Pages, oracle: Oracle): string[] {
  const baseline = oracle.aircraft.find(({ serial }) => serial === oracle.content.book.baseline);
  if (!baseline) throw new Error('no baseline');
  return oracle.aircraft.flatMap(({ serial, registration, fit }) => {
    const address = `aircraft/${serial}.html`;
    return attempt(address, () => {
      const shown = byClass(pages.page(address), 'difference');
      const wanted = attributesOf(oracle).filter((id) => !oracle.alike(id.item, id.attribute, fit, baseline.fit));
      const titles = shown.map((section) => textOf(byTag(byTag(section, 'h3')[0] as Element, 'a')[0] as Element));
      const wantedTitles = wanted.map((id) => titleOf(oracle, id));
      if (titles.join('\n') !== wantedTitles.join('\n'))
        return [`differs in ${titles.join(', ')} instead of ${wantedTitles.join(', ')}`];
      return wanted.flatMap((id, at) => {
        const names: [string, string] = [registration, baseline.registration];
        return judgeOne(shown[at] as Element, oracle, id, [fit, baseline.fit], names).map(
          (fault) => `${id.item}.${id.attribute}: ${fault}`,
        );
      });
    });
  });
}

function titleOf({ content }: Oracle, { item, attribute }: AttributeId): string {
  const found = content.items.get(item);
  if (!found) throw new Error(`no item ${item}`);
  return found.attributes.size > 1 ? `${found.title}: ${found.attributes.get(attribute)?.title ?? ''}` : found.title;
}

function judgeOne(
  section: Element,
  oracle: Oracle,
  id: AttributeId,
  fits: [Fit, Fit],
  names: [string, string],
): string[] {
  const verdict = textOf(byClass(section, 'verdict')[0] as Element);
  const tables = byTag(section, 'table');
  const missing = fits.findIndex((fit) => !oracle.isFitted(fit, id.item));
  if (missing >= 0) {
    const wanted = `Not fitted on ${names[missing]}`;
    return verdict === wanted && tables.length === 0 ? [] : [`says "${verdict}" instead of "${wanted}"`];
  }
  const [table] = tables;
  if (!table) return ['no table of what differs'];
  const headings = byTag(byTag(table, 'thead')[0] as Element, 'th').map(textOf);
  if (headings.slice(-2).join() !== names.join()) return [`compares ${headings.slice(-2).join(' with ')}`];
  const columns = headings.slice(0, -2).map((title) => variableTitled(oracle, title));
  const rows = byTag(table, 'tbody')
    .flatMap((body) => byTag(body, 'tr'))
    .map((row) => byTag(row, 'td').map(textOf));
  const used = new Set<number>();
  let disagree = false;
  const variables = oracle.variables(id.item, id.attribute);
  const faults = bothCases(oracle, fits, variables).flatMap((given) => {
    const [here, there] = fits.map((fit) => {
      const own = presentOn(oracle, fit, given);
      return oracle.canHappen(fit, own) ? stateTitle(oracle, id, fit, own) : 'cannot happen';
    });
    const found = rows.flatMap((cells, at) =>
      lies(
        given,
        columns.map((column, each) => [column, readValues(oracle, column, cells[each] ?? '')] as const),
      )
        ? [at]
        : [],
    );
    if (here === there) return found.length === 0 ? [] : [`a row for ${JSON.stringify(given)}, where nothing differs`];
    if (here !== 'cannot happen' && there !== 'cannot happen') disagree = true;
    const [row] = found;
    if (found.length !== 1 || row === undefined) return [`${found.length} rows for ${JSON.stringify(given)}`];
    used.add(row);
    const says = rows[row]?.slice(-2).join(' against ');
    return says === `${here} against ${there}`
      ? []
      : [`says ${says} instead of ${here} against ${there} for ${JSON.stringify(given)}`];
  });
  const idle = rows.flatMap((_, at) => (used.has(at) ? [] : [`row ${at + 1} holds no case that differs`]));
  const wrong = disagree === (verdict === 'Differs') ? [] : [`the verdict is "${verdict}"`];
  return [...faults, ...idle, ...wrong];
}

/**
 * Cases over the variables that can happen on one of the two fits at least. A control that only one of them has stands in
 * each of its positions, also beside what the other one does.
 */
function bothCases(oracle: Oracle, fits: [Fit, Fit], variables: readonly string[]): Case[] {
  const all = new Map<string, Case>();
  for (const [at, fit] of fits.entries()) {
    const other = fits[1 - at] as Fit;
    const lacking = variables.filter((name) => oracle.valuesOn(fit, name).length === 0);
    const beside = lacking.reduce<Case[]>(
      (cases, name) => {
        const values = oracle.valuesOn(other, name);
        return values.length === 0 ? cases : cases.flatMap((one) => values.map((value) => ({ ...one, [name]: value })));
      },
      [{}],
    );
    for (const given of oracle.cases(fit, variables)) {
      for (const more of beside) {
        const whole = { ...given, ...more };
        all.set(JSON.stringify(variables.map((name) => whole[name] ?? null)), whole);
      }
    }
  }
  return [...all.values()];
}

/** What a case says of the controls and conditions that the fit has. */
function presentOn(oracle: Oracle, fit: Fit, given: Case): Case {
  return Object.fromEntries(Object.entries(given).filter(([name]) => oracle.valuesOn(fit, name).length > 0));
}
