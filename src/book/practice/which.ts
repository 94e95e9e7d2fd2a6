/** Which message follows, what is left after a loss, what differs: one of several things, for which something is so. */
import type { Behaviour, Compiled } from '../../compile/index.ts';
import type { Node } from '../../logic/index.ts';
import { SHOWN } from '../../model/index.ts';
import { attributeTitle } from '../attributes.ts';
import type { Inline } from '../book.ts';
import { text, upperFirst } from '../cells.ts';
import { subjectOf } from '../sentences.ts';
import { type Candidate, type Chosen, choose } from './choose.ts';
import { askedState, type Draft, type DraftOption, type Pool } from './draft.ts';
import { fittedDraft } from './fitted.ts';
import { canBe, formOn, isIn, isOtherwise, isThere, NOT_SO, SO, stateIn } from './proof.ts';
import { drawScene, type OtherValue, type Scene, type Subject } from './scene.ts';
import {
  askedFact,
  factsWords,
  given,
  messageWords,
  proofLink,
  stateTitle,
  stateWords,
  thingWords,
  verb,
} from './words.ts';

export function messageDraft(pool: Pool): Draft | undefined {
  const { compiled, random, subjects, behaviours } = pool;
  const { diagrams } = compiled;
  const subject = random.pick(subjects);
  if (!subject) return undefined;
  const candidates = behaviours
    .filter((each) => each.item.kind === 'message' && isThere(compiled, each, subject))
    .map((behaviour) => ({
      behaviour,
      asked: isIn(compiled, formOn(compiled, behaviour, subject), [SHOWN]),
    }));
  const aim = random.pick(candidates);
  if (!aim) return undefined;
  const { asked } = aim;
  const change = random.below(2) === 0 ? 'control' : 'abnormal';
  // What was shown before follows from nothing that is otherwise now.
  const scene = drawScene(compiled, random, subject, change, diagrams.support(asked), (to) =>
    diagrams.and(diagrams.casesOf(at(compiled, asked, to), SO), diagrams.casesOf(asked, NOT_SO)),
  );
  const chosen = scene && choose(pool, [subject], scene, candidates, aim.behaviour);
  if (!scene || !chosen) return undefined;
  return whichDraft(pool, 'message', [subject], scene, chosen, {
    question: 'which of these messages is shown?',
    option: ({ behaviour }) => ({ states: [askedState(behaviour, SHOWN)] }),
    answer: ({ behaviour }) => [text('The message '), ...messageWords(behaviour, subject), text(' is shown ')],
  });
}

export function lossDraft(pool: Pool): Draft | undefined {
  const { compiled, random, subjects, behaviours } = pool;
  const { diagrams } = compiled;
  const subject = random.pick(subjects);
  if (!subject) return undefined;
  const lights = behaviours.filter(
    (each) => each.item.kind !== 'message' && litStates(each).length > 0 && isThere(compiled, each, subject),
  );
  const aim = random.pick(lights);
  const lit = aim && isIn(compiled, formOn(compiled, aim, subject), litStates(aim));
  if (lit === undefined) return undefined;
  // It goes dark, so that something does; what is left is another light.
  const scene = drawScene(compiled, random, subject, 'abnormal', diagrams.support(lit), (to) =>
    diagrams.and(diagrams.casesOf(at(compiled, lit, to), NOT_SO), diagrams.casesOf(lit, SO)),
  );
  if (!scene?.changed) return undefined;
  const { level, usual } = scene.changed;
  const candidates = lights.map((behaviour) => {
    const lit = isIn(compiled, formOn(compiled, behaviour, subject), litStates(behaviour));
    return { behaviour, asked: lit, also: diagrams.restrict(lit, level, usual) };
  });
  const chosen = choose(pool, [subject], scene, candidates);
  if (!chosen || !canBe(compiled, [subject], new Map([...chosen.facts, [level, usual]]))) return undefined;
  const before = askedFact(compiled, subject.settled, level, usual);
  return whichDraft(pool, 'loss', [subject], scene, chosen, {
    question: 'which of these is still lit?',
    option: ({ behaviour }) => {
      const lit = askedState(behaviour, ...litStates(behaviour));
      return { states: [{ ...lit, but: before }, lit] };
    },
    answer: ({ behaviour }) => [text(`${upperFirst(stillWords(compiled, behaviour, scene))} `)],
  });
}

/** What is otherwise in the same case, or else what is fitted. */
export function differenceDraft(pool: Pool): Draft | undefined {
  return pool.random.below(2) === 0 ? (otherwiseDraft(pool) ?? fittedDraft(pool)) : fittedDraft(pool);
}

function otherwiseDraft(pool: Pool): Draft | undefined {
  const { compiled, random, subjects, behaviours } = pool;
  const subject = random.pick(subjects);
  const other = random.pick(subjects.filter(({ settled }) => settled !== subject?.settled));
  if (!subject || !other) return undefined;
  const both = [subject, other];
  const { diagrams } = compiled;
  const fleet = [...new Map(subjects.map((one) => [one.settled, one])).values()];
  const candidates = behaviours
    .filter((each) => both.every((one) => isThere(compiled, each, one)))
    .map((behaviour) => ({
      behaviour,
      asked: isOtherwise(compiled, formOn(compiled, behaviour, subject), formOn(compiled, behaviour, other)),
      sides: (scene: Scene) =>
        both.map((one) => {
          const form = formOn(compiled, behaviour, one);
          return isIn(compiled, form, [stateIn(compiled, form, scene) ?? '']);
        }),
      elsewhere: (scene: Scene) => {
        const states = fleet.flatMap((one) => stateIn(compiled, formOn(compiled, behaviour, one), scene) ?? []);
        return new Set(states).size > 1;
      },
    }));
  const unlike = candidates.filter(
    ({ behaviour }) => formOn(compiled, behaviour, subject) !== formOn(compiled, behaviour, other),
  );
  const aim = random.pick(unlike);
  const change = random.below(2) === 0 ? 'none' : 'control';
  const scene =
    aim &&
    drawScene(compiled, random, subject, change, diagrams.support(aim.asked), (to) =>
      diagrams.casesOf(at(compiled, aim.asked, to), SO),
    );
  const chosen = scene && choose(pool, both, scene, candidates, aim.behaviour);
  if (!scene || !chosen) return undefined;
  const [here, there] = both.map(
    (one) => stateIn(compiled, formOn(compiled, chosen.right.behaviour, one), scene) ?? '',
  );
  const [name, otherName] = both.map(({ aircraft }) => aircraft.registration);
  return whichDraft(pool, 'difference', both, scene, chosen, {
    question: `which of these is otherwise on ${name} than on ${otherName}?`,
    option: ({ behaviour: { item, attribute } }) => ({
      states: [],
      differs: { item: item.id, attribute: attribute.id },
    }),
    answer: ({ behaviour }) => [
      text(
        `${upperFirst(stateWords(behaviour, here ?? ''))} on ${name} and ${stateTitle(behaviour, there ?? '')} on ${otherName} `,
      ),
    ],
  });
}

/** What is asked, where one thing is otherwise. */
function at({ diagrams }: Compiled, asked: Node, to: OtherValue | undefined): Node {
  return to ? diagrams.restrict(asked, to.level, to.value) : asked;
}

interface Saying {
  readonly question: string;
  readonly option: (candidate: Candidate) => DraftOption['asked'];
  /** The beginning of the sentence that tells why, up to the facts. */
  readonly answer: (candidate: Candidate) => readonly Inline[];
}

function whichDraft(
  { compiled, random }: Pool,
  kind: Draft['kind'],
  subjects: readonly Subject[],
  scene: Scene,
  { right, all, why, facts }: Chosen,
  { question, option, answer }: Saying,
): Draft {
  const [subject] = subjects as [Subject];
  const options = random.shuffled(all).map((candidate) => ({
    candidate,
    draft: { words: thingWords(candidate.behaviour, subject), asked: option(candidate) },
  }));
  const found = options.find(({ candidate }) => candidate === right)?.draft as DraftOption;
  return {
    kind,
    key: attributeTitle(right.behaviour),
    scene,
    subjects,
    facts,
    words: [...given(compiled, subjects, facts, scene.changed?.level), text(question)],
    options: options.map(({ draft }) => draft),
    right: found,
    because: [
      ...answer(right),
      ...(why.size > 0 ? factsWords(compiled, subjects, why) : [text('in every case')]),
      text('.'),
    ],
    proof: subjects.map((one) => proofLink(right.behaviour, one)),
  };
}

/** The states in which something gives light. */
function litStates({ attribute }: Behaviour): string[] {
  return attribute.states.flatMap(({ id, glyph }) => (glyph === 'lit' || glyph === 'flashing' ? [id] : []));
}

/** "the exit signs are still lit". */
function stillWords(compiled: Compiled, behaviour: Behaviour, scene: Scene): string {
  const state = stateIn(compiled, formOn(compiled, behaviour, scene.subject), scene) ?? '';
  return `${subjectOf(behaviour).noun} ${verb(behaviour)} still ${stateTitle(behaviour, state)}`;
}
