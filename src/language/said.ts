/** What can be said of a name behind "is" and "in", and what a list of words there says. */
import { type Code, type Facts, nearestName } from '../diagnostics/index.ts';
import type { Declaration } from './expression.ts';
import type { Span, Word } from './syntax.ts';
import { isLampWord, LAMP_WORDS } from './words.ts';

type ItemDeclaration = Extract<Declaration, { kind: 'item' }>;

export type Report = <C extends Code>(code: C, span: Span, facts: Facts<C>) => undefined;

/** What a name can be said to be. */
export interface Sayable {
  readonly values: readonly string[];
  /** Words that stand for several of the values. */
  readonly groups?: ReadonlyMap<string, readonly string[]>;
  /** Whether it is a lamp, which can also be failed or serviceable. */
  readonly lamp?: boolean;
}

/** All words that may follow "is". */
export function wordsOf({ values, groups, lamp }: Sayable): readonly string[] {
  const further = [...(groups?.keys() ?? []), ...(lamp ? LAMP_WORDS : [])];
  return [...values, ...further.filter((word) => !values.includes(word))];
}

/** The attribute that an item's id stands for by itself; undefined where a dot is needed. */
export function ownAttribute(item: ItemDeclaration): string | undefined {
  if (item.lamps?.length) return 'lamp';
  const [first] = item.attributes.keys();
  return item.attributes.size === 1 ? first : undefined;
}

/** What an attribute of an item can be said to be; undefined where the item has none of that id. */
export function attributeOf(item: ItemDeclaration, attribute: string): Sayable | undefined {
  const values = item.attributes.get(attribute);
  if (!values) return undefined;
  return { values, ...(item.groups ? { groups: item.groups } : {}), lamp: item.lamps?.includes(attribute) ?? false };
}

/** What a list of words says: values, or whether a lamp works. */
export interface Said {
  readonly values: readonly string[];
  readonly works: boolean;
}

/** What the words that follow "is" or "in" say of `name`, as it is written. Undefined when wrong, which is reported. */
export function saidBy(name: string, words: readonly Word[], sayable: Sayable, report: Report): Said | undefined {
  const known = wordsOf(sayable);
  const meant: string[] = [];
  let grouped = false;
  let wrong = false;
  for (const [at, word] of words.entries()) {
    const group = sayable.values.includes(word.text) ? undefined : sayable.groups?.get(word.text);
    if (!known.includes(word.text)) {
      report('SL205', word, { name, value: word.text, known, nearest: nearestName(word.text, known) });
      wrong = true;
    } else if (words.slice(0, at).some(({ text }) => text === word.text)) {
      report('SL217', word, { value: word.text });
      wrong = true;
    } else meant.push(...(group ?? [word.text]));
    grouped ||= group !== undefined;
  }
  if (wrong) return undefined;
  const works = sayable.lamp === true && isLampWord(words[0]?.text ?? '');
  const other = words.find(({ text }) => sayable.lamp && isLampWord(text) !== works);
  if (other) return report('SL223', other, { name, word: other.text });
  return { values: grouped ? sayable.values.filter((value) => meant.includes(value)) : meant, works };
}
