/** Table cells, column titles and states in the author's words. */
import {
  absentValue,
  controlsOn,
  IMPOSSIBLE,
  legendsOf,
  type Meaning,
  type On,
  valuesTitle,
  variableTitle,
  type Worded,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Attribute, Fleet, Item } from '../model/index.ts';
import {
  conditionAddress,
  controlAddress,
  itemAddress,
  optionAddress,
  QUERIES,
  queryAnchor,
  sequenceAddress,
} from './addresses.ts';
import type { Address, Inline, StateView } from './book.ts';

export function text(words: string): Inline {
  return { kind: 'text', text: words };
}

export function link(to: Address, words: string, anchor?: string): Inline {
  return { kind: 'link', to, text: words, ...(anchor === undefined ? {} : { anchor }) };
}

export function legend(words: string): Inline {
  return { kind: 'legend', text: words };
}

/** "Q-3" as a link to the question. */
export function queryLink(id: string): Inline {
  return link(QUERIES, id, queryAnchor(id));
}

/** Where the page of a variable is. */
export function variableAddress(meaning: Meaning): Address {
  switch (meaning.kind) {
    case 'option':
      return optionAddress(meaning.option);
    case 'control':
      return controlAddress(meaning.control);
    case 'condition':
    case 'number':
      return conditionAddress(meaning.condition);
    case 'lamp':
      return itemAddress(meaning.item);
    case 'sequence':
      return sequenceAddress(meaning.sequence);
    default:
      throw new Error(`readers never see ${variableTitle(meaning)}`);
  }
}

/** The title of a variable; counterparts have one link each. A lamp of the item that a table is about goes by its own. */
export function columnTitle(meaning: Meaning, on: On, about?: Item): Inline[] {
  if (meaning.kind === 'lamp' && meaning.item === about) return [text(upperFirst(meaning.lamp.title))];
  if (meaning.kind !== 'control') return [link(variableAddress(meaning), variableTitle(meaning))];
  return joined(
    controlsOn(meaning, on).map((control) => link(controlAddress(control), control.title)),
    ' / ',
  );
}

/** A set of values as a cell; positions are legends, as they stand on the panel on the fits that the cell is about. */
export function cellText(meaning: Meaning, values: readonly number[] | undefined, on: On): Inline[] {
  if (values === undefined) return [text('any')];
  if (meaning.kind !== 'control') return [text(valuesTitle(meaning, values))];
  return separate(
    values.map((value) =>
      value === absentValue(meaning) ? [text('not fitted')] : joined(legendsOf(meaning, value, on).map(legend), ' / '),
    ),
  );
}

/** Runs with the same words between. */
export function joined(parts: readonly Inline[], between: string): Inline[] {
  return parts.flatMap((part, index) => (index === 0 ? [part] : [text(between), part]));
}

/** "A, B or C", or with another last word, out of runs. */
export function separate(parts: readonly (readonly Inline[])[], last = 'or'): Inline[] {
  return parts.flatMap((part, index) => {
    if (index === 0) return part;
    return [text(index === parts.length - 1 ? ` ${last} ` : ', '), ...part];
  });
}

/** The words and glyph of an outcome of an attribute. */
export function stateView(compiled: Worded, attribute: Attribute, outcome: number): StateView {
  const meaning = compiled.outcomes.meaning(outcome);
  switch (meaning.kind) {
    case 'impossible':
      return { glyph: 'impossible', text: 'cannot happen' };
    case 'not fitted':
      return { glyph: 'not-fitted', text: 'not fitted' };
    case 'not stated':
      return {
        glyph: 'not-stated',
        text: `not stated (${meaning.query})`,
        link: { to: QUERIES, anchor: queryAnchor(meaning.query) },
      };
    case 'either':
      return { glyph: 'either', text: `may be ${severalStates(compiled, attribute, meaning.of)}` };
    case 'depends': {
      const options = optionTitles(compiled.fleet, meaning.options);
      const { states, where } = possibleStates(compiled, attribute, meaning.of);
      return { glyph: 'depends', text: `${states}${where}: depends on ${list(options, 'and')}` };
    }
    case 'state': {
      const found = attribute.states.find(({ id }) => id === meaning.state);
      if (!found) throw new Error(`${attribute.id} has no state ${meaning.state}`);
      const colour =
        found.glyph === 'lit' || found.glyph === 'flashing' ? colourOf(compiled.fleet, attribute) : undefined;
      return { glyph: found.glyph, text: found.title, ...(colour === undefined ? {} : { colour }) };
    }
    default:
      throw new Error(`${meaning.kind} is nothing that an item can be`);
  }
}

/** The colours that lit things are drawn in. White is the tone that every lamp has. */
const DRAWN = new Set(['red', 'amber', 'green', 'blue']);
const COLOURS = new WeakMap<Worded['fleet'], ReadonlyMap<Attribute, string>>();

/** The colour that is drawn of what an attribute belongs to, where all of it has one. */
function colourOf(fleet: Worded['fleet'], attribute: Attribute): string | undefined {
  const known =
    COLOURS.get(fleet) ??
    new Map(
      fleet.items.flatMap(({ colour, attributes }) =>
        colour !== undefined && DRAWN.has(colour) ? attributes.map((each) => [each, colour] as const) : [],
      ),
    );
  COLOURS.set(fleet, known);
  return known.get(attribute);
}

/** The states of what depends on options, and what must be said where the case may not be there at all. */
export function possibleStates(
  compiled: Worded,
  attribute: Attribute,
  outcomes: readonly number[],
): { states: string; where: string } {
  const possible = outcomes.filter((each) => each !== IMPOSSIBLE);
  const where = possible.length < outcomes.length ? ' where it can happen' : '';
  return { states: severalStates(compiled, attribute, possible), where };
}

/** "dark, lit or flashing": outcomes in the order of the attribute's states, what is no single state after them. */
export function severalStates(compiled: Worded, attribute: Attribute, outcomes: readonly number[]): string {
  const rank = (outcome: number): number => {
    const state = attribute.states.findIndex(({ id }) => id === compiled.outcomes.state(outcome));
    return state >= 0 ? state : attribute.states.length;
  };
  const ordered = outcomes.toSorted((a, b) => rank(a) - rank(b) || compiled.outcomes.compare(a, b));
  return list(ordered.map((each) => stateView(compiled, attribute, each).text));
}

/** The titles of options. */
export function optionTitles({ options }: Pick<Fleet, 'options'>, ids: readonly string[]): string[] {
  return ids.map((id) => options.find((option) => option.id === id)?.title ?? id);
}

/** The plain text of a run. */
export function plain(parts: readonly Inline[]): string {
  return parts.map((part) => part.text).join('');
}

export function upperFirst(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
