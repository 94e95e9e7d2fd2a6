/** Predict the state: of one thing that can be in three states at least, or of two things at once. */
import type { Behaviour } from '../../compile/index.ts';
import { text, upperFirst } from '../cells.ts';
import { subjectOf } from '../sentences.ts';
import { askedState, type Draft, type DraftOption, type Pool } from './draft.ts';
import { formOn, isIn, nearStates, reasons, stated, stateIn } from './proof.ts';
import { drawScene, type Facts, type Scene } from './scene.ts';
import { factsWords, given, proofLink, stateTitle, stateWords } from './words.ts';

/** Of so many questions to which all is dark one is asked; counted over 200 seeds of the demo. */
const DARK_IN = 6;
const CHANGES = ['none', 'control', 'control', 'abnormal'] as const;

export function stateDraft({ compiled, random, subjects, behaviours }: Pool): Draft | undefined {
  const { diagrams } = compiled;
  const subject = random.pick(subjects);
  const things = behaviours.filter(({ item }) => item.kind !== 'message');
  const first = random.pick(things);
  if (!subject || !first) return undefined;
  const isBinary = first.attribute.states.length < 3;
  const others = things.filter(({ item }) => item !== first.item && item.panel === first.item.panel);
  const second = isBinary || random.below(2) === 0 ? random.pick(others) : undefined;
  if (isBinary && !second) return undefined;
  const asked = second ? [first, second] : [first];
  const levels = [...new Set(asked.flatMap((each) => diagrams.support(formOn(compiled, each, subject))))].sort(
    (a, b) => a - b,
  );
  const scene = drawScene(compiled, random, subject, random.pick(CHANGES) ?? 'none', levels, () => diagrams.yes);
  if (!scene) return undefined;
  const known = asked.map((each) => reasonsOf(compiled, scene, each));
  const facts = stated(compiled, [subject], [...known.map((each) => each?.reasons), changeOf(scene, levels)]);
  if (!facts) return undefined;
  const states = asked.map((each, at) => {
    const now = known[at]?.state ?? '';
    const near = nearStates(compiled, subject, formOn(compiled, each, subject), facts);
    return [now, ...random.shuffled(near.filter((state) => state !== now))];
  });
  const combined = states.reduce<string[][]>(
    (all, some) => all.flatMap((before) => some.map((state) => [...before, state])),
    [[]],
  );
  const [rightStates, ...wrong] = combined as [string[], ...string[][]];
  if (wrong.length < 2) return undefined;
  // Most things are dark in most stages: unless such a draw is mostly given up, whoever guesses "dark" is mostly right.
  if (asked.every((each, at) => isDark(each, rightStates[at] ?? '')) && random.below(DARK_IN) > 0) return undefined;
  const options = [rightStates, ...random.shuffled(wrong).slice(0, 3)].map((some) => optionOf(asked, some));
  const right = options[0] as DraftOption;
  const nouns = asked.map((each) => subjectOf(each).noun).join(' and ');
  const does = asked.length > 1 || subjectOf(first).plural ? 'do' : 'does';
  return {
    kind: 'state',
    key: asked.map(({ item, attribute }) => `${item.id}.${attribute.id}`).join(' '),
    scene,
    subjects: [subject],
    facts,
    words: [...given(compiled, [subject], facts, scene.changed?.level), text(`what ${does} ${nouns} do?`)],
    options,
    right,
    because: asked.flatMap((each, at) => {
      const why = known[at]?.reasons as Facts;
      const words = why.size > 0 ? factsWords(compiled, [subject], why) : [text('in every case')];
      const state = stateWords(each, rightStates[at] ?? '');
      return [text(`${at > 0 ? ' ' : ''}${upperFirst(state)} `), ...words, text('.')];
    }),
    proof: asked.map((each) => proofLink(each, subject)),
  };
}

function isDark({ attribute }: Behaviour, state: string): boolean {
  return attribute.states.find(({ id }) => id === state)?.glyph === 'dark';
}

/** What something is in a scene, and why; undefined where it is nothing for certain. */
export function reasonsOf(
  compiled: Pool['compiled'],
  scene: Scene,
  behaviour: Behaviour,
): { readonly state: string; readonly reasons: Facts } | undefined {
  const form = formOn(compiled, behaviour, scene.subject);
  const state = stateIn(compiled, form, scene);
  const why = state && reasons(compiled, isIn(compiled, form, [state]), scene.facts, ownLevels(compiled, behaviour));
  return state && why ? { state, reasons: why } : undefined;
}

/** The level of the control that drives it. */
export function ownLevels({ space }: Pool['compiled'], { attribute }: Behaviour): number[] {
  const level = attribute.control === undefined ? undefined : space.levelOf.get(attribute.control);
  return level === undefined ? [] : [level];
}

/** The one thing that is otherwise, where it may matter: then the question says so. */
export function changeOf({ changed, facts }: Scene, levels: readonly number[]): Facts {
  if (!changed || !levels.includes(changed.level)) return new Map();
  return new Map([[changed.level, facts.get(changed.level) as number]]);
}

function optionOf(asked: readonly Behaviour[], states: readonly string[]): DraftOption {
  return {
    words: [text(optionWords(asked, states))],
    asked: { states: asked.map((each, at) => askedState(each, states[at] ?? '')) },
  };
}

/** "They are bright.", "Both are dark.", "The entry light is lit and the dome light is dark." */
function optionWords(asked: readonly Behaviour[], states: readonly string[]): string {
  const titles = asked.map((each, at) => stateTitle(each, states[at] ?? ''));
  const [first] = asked;
  if (first && asked.length === 1) return `${subjectOf(first).plural ? 'They are' : 'It is'} ${titles[0]}.`;
  if (titles.every((title) => title === titles[0])) return `Both are ${titles[0]}.`;
  return `${upperFirst(asked.map((each, at) => stateWords(each, states[at] ?? '')).join(' and '))}.`;
}
