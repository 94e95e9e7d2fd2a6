/**
 * Holds the differences that an author's text brings in to the rules: of a panel, a control with what it drives, or an item, what looks
 * otherwise, what only one of two aircraft has or can be, and every case of every table with both states.
 */
import { attribute, byClass, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { ABSENT, caseOn, seenCase, sharedName } from '../../helpers/seen-cases.ts';
import { lies, titledValues } from '../../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import { type Block, type Compared, judgeAll, lackingOn, lampsIn, rowsOf, type Scope } from './differences.ts';
import { says } from './flown.ts';
import { type AttributeId, attributesOf } from './groups.ts';
import { outcomeWords } from './outcomes.ts';

export interface Asked {
  readonly of: string;
  /** Registrations. */
  readonly on: string;
  readonly from: string;
}

/** `fly` gives random cases of a fit, for contents that are too large for walking every case. */
export function judgeQuoted(
  part: Element,
  oracle: Oracle,
  { of, on, from }: Asked,
  fly?: (fit: Fit) => readonly Case[],
): string[] {
  const fits: Compared = [oracle.fitOf(on), oracle.fitOf(from)];
  const blocks = byClass(part, 'difference').map((element) => ({ element, names: [on, from] as const }));
  const scope = scopeOf(oracle, of);
  return [
    ...judgeLooks(part, oracle, scope, fits, [on, from]),
    ...(fly ? judgeFlown(blocks, oracle, fits, scope, fly) : judgeAll(blocks, oracle, fits, scope)),
  ];
}

/** Every flown case in which the two differ lies in one row, with what the rules make of it on both; no other case in any. */
function judgeFlown(
  blocks: readonly Block[],
  oracle: Oracle,
  fits: Compared,
  scope: Scope,
  fly: (fit: Fit) => readonly Case[],
): string[] {
  const isTable = ({ element }: Block): boolean => !/\b(?:missing|lone)\b/.test(attribute(element, 'class') ?? '');
  const ids = attributesOf(oracle).filter(
    ({ item }) => scope.hasItem(item) && fits.every((fit) => oracle.isFitted(fit, item)),
  );
  const flown = fits.map((fit) => fly(fit));
  const known = new Set<Block>();
  const faults = ids.flatMap((id) => {
    const block = blocks.filter(isTable).find((each) => lampsIn(each, oracle, id) !== undefined);
    const read = block ? rowsOf(block, oracle, id, fits) : { rows: [], readings: [] };
    if (block) known.add(block);
    if (typeof read === 'string') return [read];
    const used = new Set<number>();
    const wrong = ([0, 1] as const).flatMap((side) =>
      (flown[side] ?? []).flatMap((given) =>
        bothStates(oracle, id, fits, side, given).flatMap(({ seen, words }) => {
          const found = read.readings.flatMap((row, at) => (lies(seen, row) ? [at] : []));
          const said = found.map((at) => read.rows[at]?.slice(-2) ?? []);
          for (const at of found) used.add(at);
          const isSaid = said.some((two) =>
            words.every((each, at) => says(two[at] ?? '', each) || (at !== side && two[at] === 'cannot happen')),
          );
          const isRight = words[0] === words[1] ? found.length === 0 || isSaid : found.length === 1 && isSaid;
          return isRight
            ? []
            : [
                `${id.item}.${id.attribute}: says ${said.join(' and ')} instead of ${words.join(' against ')} for ${JSON.stringify(seen)}`,
              ];
        }),
      ),
    );
    const idle = read.rows.flatMap((_, at) =>
      used.has(at) ? [] : [`${id.item}.${id.attribute}: row ${at + 1} is never so`],
    );
    return [...wrong.slice(0, 3), ...idle];
  });
  return [
    ...faults,
    ...blocks
      .filter((block) => isTable(block) && !known.has(block))
      .map(({ element }) => `tells of ${textOf(element).slice(0, 60)}`),
  ];
}

/** A flown case as readers see it, with each position of the controls that only the other one has, and the states on both. */
function bothStates(oracle: Oracle, id: AttributeId, fits: Compared, side: 0 | 1, given: Case) {
  const [own, other] = [fits[side], fits[1 - side] as Fit];
  const lacking = lackingOn(oracle, id, fits, side);
  const beyond = lackingOn(oracle, id, fits, 1 - side);
  const start = seenCase(oracle, oracle.variables(id.item, id.attribute), given);
  const all = lacking.reduce<Case[]>(
    (some, name) =>
      some.flatMap((one) =>
        titledValues(oracle, name, [other])
          .filter(([value]) => value !== ABSENT)
          .map(([value]) => ({ ...one, [name]: value })),
      ),
    [start],
  );
  const wordsOn = (fit: Fit, one: Case): string =>
    outcomeWords(oracle, id, { ways: [[oracle.state(fit, id.item, id.attribute, one)]], options: [] });
  return all.flatMap((seen) => {
    const there = caseOn(oracle, other, { ...seen, ...Object.fromEntries(beyond.map((name) => [name, ABSENT])) });
    if (!there) return [];
    const detected = Object.fromEntries(
      [...oracle.content.detectors.keys()].flatMap((name) => (given[name] === undefined ? [] : [[name, given[name]]])),
    );
    const words = [wordsOn(own, given), wordsOn(other, { ...detected, ...there })];
    return [{ seen, words: side === 0 ? words : words.toReversed() }];
  });
}

interface Told extends Scope {
  readonly hasControl: (id: string) => boolean;
}

function scopeOf(oracle: Oracle, of: string): Told {
  const { controls, items } = oracle.content;
  const same = (id: string | undefined): boolean =>
    id !== undefined && controls.has(id) && sharedName(oracle, id) === sharedName(oracle, of);
  if (controls.has(of))
    return {
      hasItem: (id) => {
        const { kind, attributes, stations } = items.get(id) ?? {};
        return (
          kind !== 'message' &&
          [...[...(attributes?.values() ?? [])].map(({ control }) => control), ...(stations ?? [])].some(same)
        );
      },
      hasControl: (id) => id === of,
      hasValuesOf: (name) => name === sharedName(oracle, of),
    };
  if (items.has(of)) return { hasItem: (id) => id === of, hasControl: () => false, hasValuesOf: () => false };
  return {
    hasItem: (id) => items.get(id)?.panel === of,
    hasControl: (id) => controls.get(id)?.panel === of,
    hasValuesOf: (name) =>
      [...controls.values()].some(({ id, panel }) => panel === of && sharedName(oracle, id) === name),
  };
}

/** Controls and legends that look otherwise, each in a row with what it looks like on both. */
function judgeLooks(part: Element, oracle: Oracle, scope: Told, fits: Compared, names: readonly string[]): string[] {
  const shown = byTag(part, 'table')
    .filter((table) => byTag(table, 'caption').some((caption) => textOf(caption).endsWith(': what looks otherwise')))
    .flatMap((table) => byTag(table, 'tr'))
    .map((row) =>
      [...byTag(row, 'th'), ...byTag(row, 'td')].map((cell) => textOf(cell).replaceAll(' ,', ',')).join(' | '),
    );
  const { controls, items } = oracle.content;
  const rows = [
    ...[...controls.values()]
      .filter(({ id }) => scope.hasControl(id))
      .map(({ id, title }) => [title, ...fits.map((fit) => looksOf(oracle, id, fit))]),
    ...[...items.values()]
      .filter(
        ({ id, kind }) => kind !== 'message' && scope.hasItem(id) && fits.every((fit) => oracle.isFitted(fit, id)),
      )
      .map(({ id, title }) => [title, ...fits.map((fit) => oracle.legendsOn(fit, id).join(' / '))]),
  ].filter(([, here, there]) => here !== there);
  const wanted = rows.length === 0 ? [] : [['Where', ...names], ...rows].map((row) => row.join(' | '));
  return wanted.toSorted().join('\n') === shown.toSorted().join('\n')
    ? []
    : [`looks: ${shown.join('; ')} instead of ${wanted.join('; ')}`];
}

const NUMBERS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven'];

function looksOf(oracle: Oracle, control: string, fit: Fit): string {
  const positions = oracle.valuesOn(fit, control);
  if (positions.length === 0) return 'Not fitted';
  const legends = positions.map((position) => oracle.legendsOn(fit, control, position).join(' / '));
  return `${NUMBERS[positions.length]} position${positions.length === 1 ? '' : 's'}: ${legends.join(', ')}`;
}
