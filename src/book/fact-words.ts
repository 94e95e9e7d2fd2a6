/** Single facts of an expression as sentences say them, what they name linked: "with the logo switch at ON". */
import { formatNumber } from '../compile/index.ts';
import { list, quoted } from '../diagnostics/index.ts';
import type { Comparison, Expression, Reference } from '../language/index.ts';
import { type Attribute, type Fleet, type Item, LAMP, withSmallInitial } from '../model/index.ts';
import {
  CONDITIONS,
  conditionAddress,
  controlAddress,
  itemAddress,
  optionAddress,
  sequenceAddress,
  signalAnchor,
} from './addresses.ts';
import type { Address, Inline } from './book.ts';
import { legend, link, separate, text } from './cells.ts';
import { numberWord } from './number-words.ts';
import { type Phrase, phraseOf, sharedStart, sharingWords } from './strung.ts';

/** What is no "and" and no "or", in plain form. */
export function factPhrase(fleet: Fleet, expression: Expression): Phrase {
  const denied = expression.op === 'not';
  const fact = denied ? expression.arg : expression;
  const not = denied ? 'not ' : '';
  switch (fact.op) {
    case 'constant':
      return single([text(fact.value ? 'always' : 'never')]);
    case 'among':
      return amongPhrase(fleet, fact.of, fact.values, denied);
    case 'compare': {
      const condition = fleet.conditions.find(({ id }) => id === fact.condition);
      const noun = condition?.noun ?? the(condition?.title ?? fact.condition);
      return single([
        ...named('with ', conditionAddress({ id: fact.condition }), noun),
        text(` ${not}`),
        ...boundSaid(fact),
      ]);
    }
    case 'level': {
      const store = fleet.sequences.flatMap(({ stores }) => stores).find(({ id }) => id === fact.store);
      return single([text(`with ${the(store?.title ?? fact.store)} `), ...boundSaid(fact)]);
    }
    case 'fitted': {
      const [to, noun] = thing(fleet, fact.of);
      if (fact.position === undefined) {
        return single(denied ? named('without ', to, noun) : [...named('with ', to, noun), text(' fitted')]);
      }
      const position = positionLegends(fleet, fact.of, [fact.position]);
      return single([text(denied ? 'with no position ' : 'with a position '), ...position, ...named(' on ', to, noun)]);
    }
    case 'signal': {
      const signal = fleet.signals.find(({ id }) => id === fact.id);
      const said = denied ? signal?.saysNot : signal?.says;
      const [to, anchor] = [CONDITIONS, signalAnchor(fact.id)];
      if (said !== undefined) return single(linked(to, said, anchor));
      const title = signal?.title ?? fact.id;
      return single([text('while '), link(to, title, anchor), text(denied ? ' does not hold' : ' holds')]);
    }
    case 'detector': {
      const detector = fleet.detectors.find(({ id }) => id === fact.id);
      if (!detector) throw new Error(`no detector is called ${fact.id}`);
      return single(linked(conditionAddress({ id: detector.number }), denied ? detector.saysNot : detector.says));
    }
    case 'lamps':
      return lampsPhrase(fleet, fact, denied);
    default:
      throw new Error(`${fact.op} is no single fact`);
  }
}

/** The words of a bound: "above 60 kt", "at 60 kt or below". */
export function boundSaid(fact: Expression): Inline[] {
  if (fact.op !== 'compare' && fact.op !== 'level') throw new Error(`${fact.op} has no bound`);
  return [text(compared(fact.by, `${formatNumber(fact.value)} ${fact.unit}`))];
}

export function messageLink(message: Item): Inline {
  return link(itemAddress(message), message.title);
}

function amongPhrase(fleet: Fleet, of: Reference, values: readonly string[], denied: boolean): Phrase {
  const [to, noun, lead] = thing(fleet, of);
  switch (of.kind) {
    case 'condition': {
      const all = fleet.conditions.find(({ id }) => id === of.id)?.values ?? [];
      return saidPhrase(to, all, values, denied);
    }
    case 'sequence': {
      const all = fleet.sequences.find(({ id }) => id === of.id)?.modes ?? [];
      return saidPhrase(to, all, values, denied);
    }
    case 'control': {
      const positions = fleet.controls.find(({ id }) => id === of.id)?.positions.map(({ id }) => id) ?? [];
      const others = positions.filter((id) => !values.includes(id));
      const [at, words] = denied && others.length === 1 ? [' at ', others] : [denied ? ' not at ' : ' at ', values];
      return single([...named('with ', to, noun), text(at), ...positionLegends(fleet, of, words)]);
    }
    case 'option': {
      const option = fleet.options.find(({ id }) => id === of.id);
      const titles = quoted(values.map((value) => titleIn(option?.values ?? [], value)));
      return single([
        text('with the option '),
        link(to, option?.title ?? of.id),
        text(` ${denied ? 'not ' : ''}set to ${titles}`),
      ]);
    }
    default:
      return single([
        text(`with ${lead ?? ''}`),
        ...named('', to, noun),
        text(` ${denied ? 'not ' : ''}${statesSaid(fleet, of, values)}`),
      ]);
  }
}

/** The author's own words for values of a condition or modes of a sequence. */
function saidPhrase(
  to: Address,
  all: readonly { readonly id: string; readonly says: string }[],
  values: readonly string[],
  denied: boolean,
): Phrase {
  const says = (some: readonly string[]): string[] =>
    all.filter(({ id }) => some.includes(id)).map((each) => each.says);
  const others = all.map(({ id }) => id).filter((id) => !values.includes(id));
  const turned = denied && isShort(says(others));
  const words = says(turned ? others : values);
  const phrase = phraseOf(words, linked(to, sharingWords(words)));
  return denied && !turned ? { ...phrase, words: [text('not '), ...phrase.words] } : phrase;
}

/** Whether phrases are said in hardly more words than one of them: "with the flaps up or at take-off". */
function isShort(says: readonly string[]): boolean {
  const { start, rest } = sharedStart(says);
  return says.length === 1 || (start.length > 0 && rest.every((words) => words.split(' ').length < 3));
}

/** "with at least two lamps of the position lights failed". */
function lampsPhrase(fleet: Fleet, fact: Extract<Expression, { op: 'lamps' }>, denied: boolean): Phrase {
  const { quantifier, count, item, args } = fact;
  const [to, noun] = thing(fleet, { kind: 'item', id: item });
  const one = quantifier === 'any' || count === 1;
  const number = count === undefined ? '' : ` ${numberWord(count)}`;
  const [first] = args;
  const among = first?.op === 'not' ? first.arg : first;
  const not = first?.op === 'not' ? 'not ' : '';
  const states = among?.op === 'among' ? statesSaid(fleet, among.of, among.values) : '';
  return single([
    text(`with ${denied ? 'not ' : ''}${quantifier}${number} ${one ? 'lamp' : 'lamps'} of `),
    ...named('', to, noun),
    text(` ${not}${states}`),
  ]);
}

/** Where something has its page, what sentences call it, and what of it is meant. */
function thing(
  fleet: Fleet,
  { kind, id, attribute }: Reference,
): [to: Address, noun: string, lead?: string | undefined] {
  switch (kind) {
    case 'option':
      return [optionAddress({ id }), the(titleIn(fleet.options, id))];
    case 'condition':
      return [conditionAddress({ id }), the(titleIn(fleet.conditions, id))];
    case 'control':
      return [controlAddress({ id }), the(titleIn(fleet.controls, id))];
    case 'sequence':
      return [sequenceAddress({ id }), fleet.sequences.find((each) => each.id === id)?.noun ?? id];
    default: {
      const item = fleet.items.find((each) => each.id === id);
      if (!item) throw new Error(`no item is called ${id}`);
      const to = itemAddress(item);
      if (item.kind === 'message') return [to, item.title, 'the message '];
      const part = item.attributes.find((each) => each.id === attribute);
      return [to, item.noun, part && partOf(item, part)];
    }
  }
}

/** "the left lamp of "; nothing where the item as a whole is meant. */
function partOf(item: Item, attribute: Attribute): string | undefined {
  const own = item.attributes.filter(({ lamp }) => !lamp);
  const whole = !attribute.lamp && (own.length === 1 || attribute.id === LAMP);
  return whole ? undefined : `${the(attribute.title)} of `;
}

/** "lit or flashing"; a supply is lost, or powered by any of its feeders. */
function statesSaid(fleet: Fleet, { kind, id, attribute }: Reference, values: readonly string[]): string {
  if (kind === 'lamp') return list(values);
  const item = fleet.items.find((each) => each.id === id);
  const states = item?.attributes.find((each) => each.id === attribute)?.states ?? [];
  if (item?.kind === 'supply' && values.length === states.length - 1 && !values.includes('lost')) return 'powered';
  return list(values.map((value) => titleIn(states, value)));
}

/** "A, B or C", as they stand on the panel. */
function positionLegends(fleet: Fleet, { id }: Reference, values: readonly string[]): Inline[] {
  const positions = fleet.controls.find((each) => each.id === id)?.positions ?? [];
  return separate(values.map((value) => [legend(positions.find((each) => each.id === value)?.legend ?? value)]));
}

/** The words before, and a noun of which the article stays outside of the link. */
function named(before: string, to: Address, noun: string): Inline[] {
  const [, article = '', rest = noun] = /^((?:the|an?) )?(.*)$/s.exec(noun) ?? [];
  return [...(before + article === '' ? [] : [text(before + article)]), link(to, rest)];
}

/** A phrase as a link, "with" outside of it, since it may be said once for several. */
function linked(to: Address, words: string, anchor?: string): Inline[] {
  const [, start = '', rest = words] = /^(with(?:out)? )?(.*)$/s.exec(words) ?? [];
  return [...(start === '' ? [] : [text(start)]), link(to, rest, anchor)];
}

function single(words: readonly Inline[]): Phrase {
  return { words, isList: words.some((part) => part.text.includes(', ')) };
}

function the(title: string): string {
  return `the ${withSmallInitial(title)}`;
}

function titleIn(defined: readonly { readonly id: string; readonly title: string }[], id: string): string {
  return defined.find((each) => each.id === id)?.title ?? id;
}

function compared(by: Comparison, number: string): string {
  switch (by) {
    case '<':
      return `below ${number}`;
    case '<=':
      return `at ${number} or below`;
    case '>':
      return `above ${number}`;
    case '>=':
      return `at ${number} or above`;
    case '=':
      return `at ${number}`;
  }
}
