/** Who reads whom: the cross-links of the book, both ways. */
import { type Compiled, levelOf, type Meaning, variableTitle } from '../compile/index.ts';
import { type Expression, referencesOf } from '../language/index.ts';
import type { Citation, Condition, Control, Defined, Fleet, Item } from '../model/index.ts';
import { conditionAddress, controlAddress, itemAddress } from './addresses.ts';
import type { CitationView, Listed } from './book.ts';
import { variableAddress } from './cells.ts';
import { meaningAt } from './tables.ts';

export function listedControl(control: Control): Listed {
  return { to: controlAddress(control), title: control.title, detail: control.form };
}

export function listedItem(item: Item): Listed {
  const detail = item.kind === 'message' ? item.legend : kindWords(item);
  // "READY annunciator" says by itself what it is.
  const isSaid = detail === undefined || item.title.endsWith(detail);
  return { to: itemAddress(item), title: item.title, ...(isSaid ? {} : { detail }) };
}

/** "white light", "red or white light"; "sign, red on white", where the colour is told in more than names. */
export function kindWords({ colour, kind }: Pick<Item, 'colour' | 'kind'>): string {
  if (colour === undefined) return kind;
  return /^[\p{L}-]+(?:(?:, | and | or )[\p{L}-]+)*$/u.test(colour) ? `${colour} ${kind}` : `${kind}, ${colour}`;
}

export function listedCondition(condition: Condition): Listed {
  return { to: conditionAddress(condition), title: condition.title };
}

/** Conditions and supplies by id, in the fleet's order. */
export function listedSupplies(fleet: Fleet, ids: readonly string[]): Listed[] {
  return [
    ...fleet.conditions.filter(({ id }) => ids.includes(id)).map(listedCondition),
    ...fleet.items.filter(({ id }) => ids.includes(id)).map((item) => ({ to: itemAddress(item), title: item.title })),
  ];
}

/** The page of a variable; counterparts have one each. */
export function listedVariables(meaning: Meaning): Listed[] {
  if (meaning.kind !== 'control') return [{ to: variableAddress(meaning), title: variableTitle(meaning) }];
  return meaning.controls.map((control) => ({ to: controlAddress(control), title: control.title }));
}

/** The items whose behaviour depends on a variable, on some fit. */
export function itemsReading(compiled: Compiled, id: string): Item[] {
  const level = levelOf(compiled.space, id);
  const reading = compiled.behaviours.filter(({ own }) => own.includes(level)).map(({ item }) => item);
  return [...new Set(reading)];
}

/** The variables that an item's behaviour depends on, in declared order, without options and the item's own lamps. */
export function variablesOf(compiled: Compiled, item: Item): Meaning[] {
  const levels = new Set(compiled.behaviours.filter((each) => each.item === item).flatMap(({ own }) => own));
  return [...levels]
    .sort((a, b) => a - b)
    .map((level) => meaningAt(compiled, level))
    .filter((meaning) => meaning.kind !== 'option' && !(meaning.kind === 'lamp' && meaning.item === item));
}

/** The other items that an item's rules name, directly or through signals. */
export function itemsNamedBy(fleet: Fleet, item: Item): Item[] {
  const names = new Set<string>();
  const visit = (expression: Expression): void => {
    for (const reference of referencesOf(expression)) {
      if (names.has(reference.id)) continue;
      names.add(reference.id);
      const signal = fleet.signals.find(({ id }) => id === reference.id);
      if (signal) visit(signal.expression);
    }
  };
  for (const attribute of item.attributes) for (const rule of attribute.rules) if (rule.when) visit(rule.when);
  return fleet.items.filter((other) => other !== item && names.has(other.id));
}

/** "Lighting data sheet 4, revision C, 3.2". */
export function citations(fleet: Fleet, defined: readonly { readonly source?: Citation }[]): CitationView[] {
  const texts = defined.flatMap(({ source }) => {
    const document = fleet.sources.find(({ id }) => id === source?.document);
    if (!source || !document) return [];
    const paragraph = source.paragraph === undefined ? '' : `, ${source.paragraph}`;
    const { revision = document.revision } = source;
    const review = revision === document.revision ? '' : `; to be reviewed, revision ${document.revision} is out`;
    return [`${document.title}, revision ${revision}${paragraph}${review}`];
  });
  return [...new Set(texts)].map((words) => ({ text: words }));
}

/** What of an item may cite: itself and its rules. */
export function citing(item: Item): readonly { readonly source?: Citation }[] {
  return [item, ...item.attributes.flatMap(({ rules }) => rules)];
}

/** What every page of a definition has. */
export function definedBase(fleet: Fleet, defined: Defined): { id: string; about?: string; notes: Fleet['notes'] } {
  return {
    id: defined.id,
    ...(defined.about === undefined ? {} : { about: defined.about }),
    notes: fleet.notes.filter(({ about }) => about.includes(defined.id)),
  };
}
