/** How questions and answers are said: phrases and subjects as everywhere in the book. */
import type { Behaviour, Compiled, SettledFit } from '../../compile/index.ts';
import { addDecimals, multiplyDecimal } from '../../language/index.ts';
import { withSmallInitial } from '../../model/index.ts';
import { itemAddress } from '../addresses.ts';
import { attributeTitle, groupAnchor } from '../attributes.ts';
import type { Inline } from '../book.ts';
import type { AskedFact } from '../book-practice.ts';
import { link, text, upperFirst } from '../cells.ts';
import { groupOf } from '../fits.ts';
import { cubeWords } from '../phrases.ts';
import { itemLegend } from '../positions.ts';
import { subjectOf } from '../sentences.ts';
import { meaningAt } from '../tables.ts';
import { controlAt, type Facts, type Scene, type Subject } from './scene.ts';

/** "on the ground with the slats in and the taxi switch at ON". */
export function factsWords(compiled: Compiled, subjects: readonly Subject[], facts: Facts): Inline[] {
  const columns = [...facts.keys()];
  const cube = columns.map((level) => [facts.get(level) as number]);
  return cubeWords(
    compiled,
    columns,
    cube,
    subjects.map(({ settled }) => settled),
  );
}

/** "On the ground with the slats in, " before a question; what has just changed comes last: "and now with AC bus 2 lost, ". */
export function given(compiled: Compiled, subjects: readonly Subject[], facts: Facts, changed?: number): Inline[] {
  const before = new Map([...facts].filter(([level]) => level !== changed));
  const now = new Map([...facts].filter(([level]) => level === changed));
  const lead = before.size > 0 ? factsWords(compiled, subjects, before) : [];
  const last = now.size > 0 ? factsWords(compiled, subjects, now) : [];
  const join = now.size === 0 ? [] : [text(before.size > 0 ? ', and now ' : 'now ')];
  const [first, ...rest] = [...lead, ...join, ...last];
  return [...(first ? [{ ...first, text: upperFirst(first.text) }] : []), ...rest, text(', ')];
}

/** "QQ-OAG, taxi out". */
export function settingWords(subjects: readonly Subject[], scene: Scene | undefined): Inline[] {
  const names = subjects.map(({ aircraft }) => aircraft.registration).join(' and ');
  return [text(scene ? `${names}, ${withSmallInitial(scene.stage.title)}` : names)];
}

/** "are" of what is several. */
export function verb(behaviour: Behaviour): string {
  return subjectOf(behaviour).plural ? 'are' : 'is';
}

/** "the taxi lights are bright". */
export function stateWords(behaviour: Behaviour, state: string): string {
  return `${subjectOf(behaviour).noun} ${verb(behaviour)} ${stateTitle(behaviour, state)}`;
}

export function stateTitle({ attribute }: Behaviour, state: string): string {
  return attribute.states.find(({ id }) => id === state)?.title ?? state;
}

/** "Taxi lights"; a message as it is shown, with what it means. */
export function thingWords(behaviour: Behaviour, subject: Subject): Inline[] {
  const title = text(attributeTitle(behaviour));
  return behaviour.item.kind === 'message' ? [...messageWords(behaviour, subject), text(' '), title] : [title];
}

export function messageWords({ item }: Behaviour, { fit }: Subject): Inline[] {
  const words = itemLegend(item, fit);
  return words.length > 0 ? words : [text(item.title)];
}

/** Where the tables of a behaviour stand, on an aircraft. */
export function proofLink(behaviour: Behaviour, { fit }: Subject): Inline {
  return link(itemAddress(behaviour.item), attributeTitle(behaviour), groupAnchor(behaviour, groupOf(behaviour, fit)));
}

/** A fact by the ids that its author gave. */
export function askedFact(compiled: Compiled, fit: SettledFit, level: number, value: number): AskedFact {
  const meaning = meaningAt(compiled, level);
  switch (meaning.kind) {
    case 'control': {
      const control = controlAt(compiled, fit, level);
      const position = control && meaning.values[value]?.get(control);
      if (!control || position === undefined) throw new Error('a position that is not fitted is not asked of');
      return { of: control.id, value: control.positions[position]?.id ?? '' };
    }
    case 'condition':
      return { of: meaning.condition.id, value: meaning.condition.values?.[value]?.id ?? '' };
    case 'number': {
      const { number } = meaning.condition;
      const cell = meaning.cells[value];
      if (!number || !cell) throw new Error('a number has cells');
      const at = (step: bigint): string => addDecimals(number.from, multiplyDecimal(number.step, step));
      return { of: meaning.condition.id, range: { from: at(cell.first), to: at(cell.last) } };
    }
    case 'lamp':
      return { of: `${meaning.item.id}.${meaning.lamp.id}`, value: value === 1 ? 'failed' : 'serviceable' };
    case 'sequence':
      return { of: meaning.sequence.id, value: meaning.sequence.modes[value]?.id ?? '' };
    default:
      throw new Error('readers never see it');
  }
}
