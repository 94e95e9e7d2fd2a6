/** Table cells, column titles and states in the author's words. */
import { absentValue, IMPOSSIBLE, type Meaning, NOT_FITTED, valuesTitle, variableTitle } from '../compile/index.ts';
import type { Attribute } from '../model/index.ts';
import { conditionAddress, controlAddress, optionAddress } from './addresses.ts';
import type { Address, Inline, StateView } from './book.ts';

export function text(words: string): Inline {
  return { kind: 'text', text: words };
}

/** Where the page of a variable is. */
export function variableAddress(meaning: Meaning): Address {
  if (meaning.kind === 'option') return optionAddress(meaning.option);
  return meaning.kind === 'control' ? controlAddress(meaning.control) : conditionAddress(meaning.condition);
}

export function columnTitle(meaning: Meaning): Inline[] {
  return [{ kind: 'link', to: variableAddress(meaning), text: variableTitle(meaning) }];
}

/** A set of values as a cell; positions are legends, as they stand on the panel. */
export function cellText(meaning: Meaning, values: readonly number[] | undefined): Inline[] {
  if (values === undefined) return [text('any')];
  if (meaning.kind !== 'control') return [text(valuesTitle(meaning, values))];
  return separate(
    values.map((value) =>
      value === absentValue(meaning.control)
        ? text('not fitted')
        : { kind: 'legend', text: meaning.control.positions[value]?.legend ?? '' },
    ),
  );
}

/** "A, B or C" out of single runs. */
function separate(parts: readonly Inline[]): Inline[] {
  return parts.flatMap((part, index) => {
    if (index === 0) return [part];
    return [text(index === parts.length - 1 ? ' or ' : ', '), part];
  });
}

/** The word and glyph of an outcome of an attribute. */
export function stateView(attribute: Attribute, outcome: number, state: string | undefined): StateView {
  if (outcome === IMPOSSIBLE) return { glyph: 'impossible', text: 'cannot happen' };
  if (outcome === NOT_FITTED) return { glyph: 'not-fitted', text: 'not fitted' };
  const found = attribute.states.find(({ id }) => id === state);
  if (!found) throw new Error(`${attribute.id} has no state ${state ?? outcome}`);
  return { glyph: found.glyph, text: found.title };
}

/** The plain text of a run. */
export function plain(parts: readonly Inline[]): string {
  return parts.map((part) => part.text).join('');
}

export function upperFirst(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
