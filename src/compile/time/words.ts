/** What things were at some time of a course, in the author's words. */
import type { Mention } from '../../language/index.ts';
import type { Attribute } from '../../model/index.ts';
import { levelOf } from '../space.ts';
import { formatNumber, valueTitle, variableTitle } from '../words.ts';
import type { ModeChange } from './course.ts';
import { type Fraction, secondsText } from './fraction.ts';
import type { Base, Ground, Inputs } from './inputs.ts';
import type { Moment } from './moment.ts';

/** "APU: starting", "Airspeed: 240 kt", "Crew call light: lit". */
export function mentionWords(mention: Mention, moment: Moment, inputs: Inputs, ground: Ground): string {
  const { fleet, behaviours } = ground;
  const { kind, id, attribute } = mention;
  if (kind === 'item') {
    const behaviour = behaviours.find((each) => each.item.id === id && each.attribute.id === attribute);
    if (!behaviour) throw new Error(`no attribute is called ${id}.${attribute}`);
    const { item } = behaviour;
    const title = item.attributes.length > 1 ? `${item.title}, ${behaviour.attribute.title}` : item.title;
    return `${title}: ${outcomeWords(moment.outcome(behaviour.node), behaviour.attribute, ground)}`;
  }
  if (kind === 'signal') {
    const signal = fleet.signals.find((each) => each.id === id);
    if (!signal) throw new Error(`no signal is called ${id}`);
    return `${signal.title}: ${moment.holds(signal.expression, false) ? 'yes' : 'no'}`;
  }
  return variableWords(kind === 'lamp' ? `${id}.${attribute}` : id, moment, inputs, ground);
}

/** A variable and its value: "Airspeed: 240 kt". */
export function variableWords(id: string, moment: Moment, inputs: Inputs, { space }: Base): string {
  const level = levelOf(space, id);
  const meaning = space.meanings[level];
  if (!meaning) throw new Error(`no variable is called ${id}`);
  if (meaning.kind === 'number') {
    const { unit } = meaning.condition.number ?? { unit: '' };
    return `${variableTitle(meaning)}: ${formatNumber(inputs.get(id) ?? '')} ${unit}`;
  }
  return `${variableTitle(meaning)}: ${valueTitle(meaning, moment.valueAt(level))}`;
}

/** An outcome of an attribute: "lit", "not stated (Q-3)". */
export function outcomeWords(outcome: number, { states }: Attribute, { outcomes }: Ground): string {
  const meaning = outcomes.meaning(outcome);
  switch (meaning.kind) {
    case 'state':
      return states.find(({ id }) => id === meaning.state)?.title ?? meaning.state;
    case 'not stated':
      return `not stated (${meaning.query})`;
    case 'not fitted':
      return 'not fitted';
    default:
      throw new Error(`a course leads to the outcome ${meaning.kind}`);
  }
}

/** "at 3 s, APU: stopped → starting". */
export function changeWords({ sequence, from, to }: ModeChange, at: Fraction): string {
  const title = (mode: string): string => sequence.modes.find(({ id }) => id === mode)?.title ?? mode;
  return `at ${secondsText(at)}, ${sequence.title}: ${title(from)} → ${title(to)}`;
}
