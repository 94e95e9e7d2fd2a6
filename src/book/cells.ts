/** Table cells, column titles and states in the author's words. */
import { absentValue, type Compiled, type Meaning, valuesTitle, valueTitle, variableTitle } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Attribute } from '../model/index.ts';
import { conditionAddress, controlAddress, itemAddress, optionAddress, sequenceAddress } from './addresses.ts';
import type { Address, Inline, StateView } from './book.ts';

export function text(words: string): Inline {
  return { kind: 'text', text: words };
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

export function columnTitle(meaning: Meaning): Inline[] {
  return [{ kind: 'link', to: variableAddress(meaning), text: variableTitle(meaning) }];
}

/** A set of values as a cell; positions are legends, as they stand on the panel. */
export function cellText(meaning: Meaning, values: readonly number[] | undefined): Inline[] {
  if (values === undefined) return [text('any')];
  if (meaning.kind !== 'control') return [text(valuesTitle(meaning, values))];
  return separate(
    values.map((value) =>
      value === absentValue(meaning) ? text('not fitted') : { kind: 'legend', text: valueTitle(meaning, value) },
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

/** The words and glyph of an outcome of an attribute. */
export function stateView(compiled: Compiled, attribute: Attribute, outcome: number): StateView {
  const meaning = compiled.outcomes.meaning(outcome);
  const several = (of: readonly number[]): string => list(of.map((each) => stateView(compiled, attribute, each).text));
  switch (meaning.kind) {
    case 'impossible':
      return { glyph: 'impossible', text: 'cannot happen' };
    case 'not fitted':
      return { glyph: 'not-fitted', text: 'not fitted' };
    case 'not stated':
      return { glyph: 'not-stated', text: `not stated (${meaning.query})` };
    case 'either':
      return { glyph: 'either', text: `may be ${several(meaning.of)}` };
    case 'depends': {
      const options = meaning.options.map(
        (id) => compiled.fleet.options.find((option) => option.id === id)?.title ?? id,
      );
      return { glyph: 'depends', text: `${several(meaning.of)}: depends on ${list(options, 'and')}` };
    }
    case 'state': {
      const found = attribute.states.find(({ id }) => id === meaning.state);
      if (!found) throw new Error(`${attribute.id} has no state ${meaning.state}`);
      return { glyph: found.glyph, text: found.title };
    }
    default:
      throw new Error(`${meaning.kind} is nothing that an item can be`);
  }
}

/** The plain text of a run. */
export function plain(parts: readonly Inline[]): string {
  return parts.map((part) => part.text).join('');
}

export function upperFirst(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
