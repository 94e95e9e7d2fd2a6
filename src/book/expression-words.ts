/** Expressions as the author wrote them, with titles and links in place of ids. */
import { formatNumber } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Comparison, Expression, Mention, Reference } from '../language/index.ts';
import { referencesOf } from '../language/index.ts';
import type { Fleet, Signal } from '../model/index.ts';
import {
  CONDITIONS,
  conditionAddress,
  controlAddress,
  itemAddress,
  optionAddress,
  sequenceAddress,
  signalAnchor,
} from './addresses.ts';
import type { Inline } from './book.ts';
import { link, text } from './cells.ts';

/** "APU run control is RUN and APU fault is absent". Signals stand by their titles: see `signalsIn`. */
export function expressionWords(fleet: Fleet, expression: Expression): Inline[] {
  switch (expression.op) {
    case 'constant':
      return [text(expression.value ? 'always' : 'never')];
    case 'and':
    case 'or':
      return expression.args.flatMap((arg, at) => [
        ...(at === 0 ? [] : [text(` ${expression.op} `)]),
        ...operand(fleet, arg),
      ]);
    case 'not':
      return expression.arg.op === 'among'
        ? amongWords(fleet, expression.arg.of, expression.arg.values, 'is not')
        : [text('not '), ...operand(fleet, expression.arg)];
    case 'implies':
      return [
        text('if '),
        ...operand(fleet, expression.premise),
        text(' then '),
        ...operand(fleet, expression.conclusion),
      ];
    case 'among':
      return amongWords(fleet, expression.of, expression.values, 'is');
    case 'compare':
      return [
        ...subject(fleet, { kind: 'condition', id: expression.condition }),
        text(` is ${compared(expression.by, expression.value, expression.unit)}`),
      ];
    case 'level': {
      const store = fleet.sequences.flatMap(({ stores }) => stores).find(({ id }) => id === expression.store);
      return [
        text(`${store?.title ?? expression.store} is ${compared(expression.by, expression.value, expression.unit)}`),
      ];
    }
    case 'fitted': {
      const position =
        expression.position === undefined
          ? []
          : [text(' has '), ...valueWords(fleet, expression.of, [expression.position])];
      return [...subject(fleet, expression.of), ...(position.length > 0 ? position : [text(' is fitted')])];
    }
    case 'signal':
      return [link(CONDITIONS, titleIn(fleet.signals, expression.id), signalAnchor(expression.id))];
    case 'detector': {
      const detector = fleet.detectors.find(({ id }) => id === expression.id);
      if (!detector) throw new Error(`no detector is called ${expression.id}`);
      return [link(conditionAddress({ id: detector.number }), detector.title), text(' is tripped')];
    }
    case 'lamps': {
      const { quantifier, count, item, args } = expression;
      const first = args[0];
      const one = quantifier === 'any' || count === 1;
      const said = first?.op === 'among' ? valueWords(fleet, first.of, first.values) : [];
      return [
        text(`${quantifier}${count === undefined ? '' : ` ${count}`} ${one ? 'lamp' : 'lamps'} of `),
        ...subject(fleet, { kind: 'item', id: item }),
        text(one ? ' is ' : ' are '),
        ...said,
      ];
    }
  }
}

/** The signals that an expression names, and those that they name, each once, in order of first mention. */
export function signalsIn(fleet: Fleet, expressions: readonly Expression[]): Signal[] {
  const found = new Set<Signal>();
  const visit = (expression: Expression): void => {
    for (const { kind, id } of referencesOf(expression)) {
      const signal = kind === 'signal' ? fleet.signals.find((each) => each.id === id) : undefined;
      if (!signal || found.has(signal)) continue;
      found.add(signal);
      visit(signal.expression);
    }
  };
  expressions.forEach(visit);
  return [...found];
}

/** Everything that expressions name, through signals too, each once. */
export function namedIn(fleet: Fleet, expressions: readonly Expression[]): Mention[] {
  const signals = signalsIn(fleet, expressions).map(({ expression }) => expression);
  const mentions = [...expressions, ...signals].flatMap(referencesOf);
  return [...new Map(mentions.map((each) => [`${each.kind} ${each.id}`, each])).values()];
}

function operand(fleet: Fleet, expression: Expression): Inline[] {
  const words = expressionWords(fleet, expression);
  return ['and', 'or', 'implies'].includes(expression.op) ? [text('('), ...words, text(')')] : words;
}

function amongWords(fleet: Fleet, of: Reference, values: readonly string[], verb: string): Inline[] {
  return [...subject(fleet, of), text(` ${verb} `), ...valueWords(fleet, of, values)];
}

function subject(fleet: Fleet, { kind, id, attribute }: Reference): Inline[] {
  switch (kind) {
    case 'option':
      return [link(optionAddress({ id }), titleIn(fleet.options, id))];
    case 'condition':
      return [link(conditionAddress({ id }), titleIn(fleet.conditions, id))];
    case 'control':
      return [link(controlAddress({ id }), titleIn(fleet.controls, id))];
    case 'sequence':
      return [link(sequenceAddress({ id }), titleIn(fleet.sequences, id))];
    case 'item':
    case 'lamp': {
      const item = fleet.items.find((each) => each.id === id);
      if (!item) throw new Error(`no item is called ${id}`);
      const part =
        item.attributes.length > 1 ? item.attributes.find((each) => each.id === attribute)?.title : undefined;
      return [link(itemAddress(item), item.title), ...(part === undefined ? [] : [text(`, ${part},`)])];
    }
  }
}

function titleIn(defined: readonly { readonly id: string; readonly title: string }[], id: string): string {
  return defined.find((each) => each.id === id)?.title ?? id;
}

/** "A, B or C"; positions as they stand on the panel. */
function valueWords(fleet: Fleet, of: Reference, values: readonly string[]): Inline[] {
  const positions = fleet.controls.find(({ id }) => of.kind === 'control' && id === of.id)?.positions;
  if (positions) {
    return values.flatMap((value, at): Inline[] => [
      ...(at === 0 ? [] : [text(at === values.length - 1 ? ' or ' : ', ')]),
      { kind: 'legend', text: positions.find(({ id }) => id === value)?.legend ?? value },
    ]);
  }
  const titled = titlesOfValues(fleet, of);
  const bus = fleet.items.some(({ id, kind }) => kind === 'supply' && id === of.id);
  if (bus && values.length === titled.length - 1 && !values.includes('lost')) return [text('powered')];
  return [text(list(values.map((value) => titleIn(titled, value))))];
}

function titlesOfValues(fleet: Fleet, { kind, id, attribute }: Reference): readonly { id: string; title: string }[] {
  switch (kind) {
    case 'option':
      return fleet.options.find((each) => each.id === id)?.values ?? [];
    case 'condition':
      return fleet.conditions.find((each) => each.id === id)?.values ?? [];
    case 'sequence':
      return fleet.sequences.find((each) => each.id === id)?.modes ?? [];
    case 'item':
      return fleet.items.find((each) => each.id === id)?.attributes.find((each) => each.id === attribute)?.states ?? [];
    default:
      return [];
  }
}

function compared(by: Comparison, value: string, unit: string): string {
  const number = `${formatNumber(value)} ${unit}`;
  switch (by) {
    case '<':
      return `below ${number}`;
    case '<=':
      return `${number} or below`;
    case '>':
      return `above ${number}`;
    case '>=':
      return `${number} or above`;
    case '=':
      return number;
  }
}
