/** What one aircraft has and another lacks: a control, or something that is seen. */
import type { Control, Item } from '../../model/index.ts';
import { controlAddress, itemAddress } from '../addresses.ts';
import { link, text } from '../cells.ts';
import { expressionWords } from '../expression-words.ts';
import { isControlOn, isItemOn } from '../positions.ts';
import type { Draft, DraftOption, Pool } from './draft.ts';
import type { Subject } from './scene.ts';

const WRONG = 3;

export function fittedDraft({ compiled, random, subjects, behaviours }: Pool): Draft | undefined {
  const subject = random.pick(subjects);
  const other = random.pick(subjects.filter(({ settled }) => settled !== subject?.settled));
  if (!subject || !other) return undefined;
  const items = [...new Set(behaviours.map(({ item }) => item))];
  const panels = new Set(items.map(({ panel }) => panel));
  const things = [...compiled.fleet.controls.filter(({ panel }) => panels.has(panel)), ...items];
  const isRight = (thing: Control | Item): boolean => isFitted(thing, subject) && !isFitted(thing, other);
  const right = random.pick(things.filter(isRight));
  if (!right?.fitted) return undefined;
  // Near misses: what would be right of another pair.
  const others = things.filter((thing) => !isRight(thing) && thing.title !== right.title);
  const near = others.filter(
    (thing) => subjects.some((one) => isFitted(thing, one)) && subjects.some((one) => !isFitted(thing, one)),
  );
  const wrong = random.shuffled(near).slice(0, WRONG);
  if (wrong.length < WRONG || new Set(wrong.map(({ title }) => title)).size < WRONG) return undefined;
  const [name, otherName] = [subject, other].map(({ aircraft }) => aircraft.registration);
  const optionOf = ({ id, title }: Control | Item): DraftOption => ({
    words: [text(title)],
    asked: { states: [], fitted: id },
  });
  const rightOption = optionOf(right);
  return {
    kind: 'difference',
    key: right.title,
    subjects: [subject, other],
    facts: new Map(),
    words: [text(`Which of these does ${name} have, and ${otherName} not?`)],
    options: [rightOption, ...wrong.map(optionOf)],
    right: rightOption,
    because: [
      text(`${right.title}: fitted `),
      ...expressionWords(compiled.fleet, right.fitted),
      text(`, which is so on ${name} and not on ${otherName}.`),
    ],
    proof: [link('form' in right ? controlAddress(right) : itemAddress(right), right.title)],
  };
}

function isFitted(thing: Control | Item, { fit }: Subject): boolean {
  return 'form' in thing ? isControlOn(thing, fit) : isItemOn(thing, fit);
}
