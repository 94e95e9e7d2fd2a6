/** What one aircraft has and another lacks: a control, or something that is seen. */
import { type Compiled, holdsOn, positionsOf } from '../../compile/index.ts';
import type { Control, Item } from '../../model/index.ts';
import { controlAddress, itemAddress } from '../addresses.ts';
import { link, text } from '../cells.ts';
import { expressionWords } from '../expression-words.ts';
import type { Draft, Pool } from './draft.ts';
import type { Subject } from './scene.ts';

const WRONG = 3;

export function fittedDraft({ compiled, random, subjects, behaviours }: Pool): Draft | undefined {
  const subject = random.pick(subjects);
  const other = random.pick(subjects.filter(({ settled }) => settled !== subject?.settled));
  if (!subject || !other) return undefined;
  const items = [...new Set(behaviours.map(({ item }) => item))];
  const panels = new Set(items.map(({ panel }) => panel));
  const things = [...compiled.fleet.controls.filter(({ panel }) => panels.has(panel)), ...items];
  const has = (thing: Control | Item, one: Subject): boolean => isFitted(compiled, thing, one);
  const isRight = (thing: Control | Item, here: Subject): boolean => has(thing, here) && !has(thing, other);
  const right = random.pick(things.filter((thing) => isRight(thing, subject)));
  if (!right?.fitted) return undefined;
  // Near misses: what would be right of another pair, first what both have.
  const others = things.filter((thing) => !isRight(thing, subject) && thing.title !== right.title);
  const near = others.filter(
    (thing) => subjects.some((one) => has(thing, one)) && subjects.some((one) => !has(thing, one)),
  );
  const wrong = random.shuffled(near).slice(0, WRONG);
  if (wrong.length < WRONG || new Set(wrong.map(({ title }) => title)).size < WRONG) return undefined;
  const [name, otherName] = [subject, other].map(({ aircraft }) => aircraft.registration);
  const options = [right, ...wrong].map((thing) => ({
    thing,
    option: { words: [text(thing.title)], asked: { states: [], fitted: thing.id } },
  }));
  return {
    kind: 'difference',
    key: right.title,
    subjects: [subject, other],
    facts: new Map(),
    words: [text(`Which of these does ${name} have, and ${otherName} not?`)],
    options: options.map(({ option }) => option),
    right: (options[0] as (typeof options)[number]).option,
    because: [
      text(`${right.title}: fitted `),
      ...expressionWords(compiled.fleet, right.fitted),
      text(`, which is so on ${name} and not on ${otherName}.`),
    ],
    proof: [link('form' in right ? controlAddress(right) : itemAddress(right), right.title)],
  };
}

function isFitted(compiled: Compiled, thing: Control | Item, { fit, settled }: Subject): boolean {
  if ('form' in thing) return positionsOf(thing, fit).length > 0;
  return holdsOn(compiled.diagrams, compiled.space, compiled.expressions.itemFitted(thing), settled);
}
