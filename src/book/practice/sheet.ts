/** A sheet of questions by a seed. */
import type { Compiled } from '../../compile/index.ts';
import type { PracticeKind, PracticeSet } from '../../model/index.ts';
import type { PracticeQuestion, PracticeSheet } from '../book-practice.ts';
import { askedFacts, type Draft, type Pool } from './draft.ts';
import { positionDraft } from './position.ts';
import { Random } from './random.ts';
import { subjectsOf } from './scene.ts';
import { stateDraft } from './state.ts';
import { differenceDraft, lossDraft, messageDraft } from './which.ts';
import { askedFact, settingWords } from './words.ts';

const DRAFTS: Readonly<Record<PracticeKind, (pool: Pool) => Draft | undefined>> = {
  state: stateDraft,
  position: positionDraft,
  message: messageDraft,
  loss: lossDraft,
  difference: differenceDraft,
};
const LETTERS = 'ABCDE';

/** How many draws a question may take. */
const MOST_DRAWS = 40;

/** The questions of one seed: as many as the set asks for, or as many as could be found. */
export function practiceSheet(
  compiled: Compiled,
  set: Pick<PracticeSet, 'kinds' | 'questions' | 'panels'>,
  aircraft: Compiled['fleet']['aircraft'],
  number: number,
  seed: number,
): PracticeSheet {
  const random = new Random(seed);
  const pool: Pool = {
    compiled,
    random,
    subjects: subjectsOf(compiled, aircraft),
    behaviours: compiled.behaviours.filter(
      ({ item, attribute }) => item.kind !== 'supply' && !attribute.lamp && set.panels.includes(item.panel),
    ),
  };
  const kinds = random.shuffled(set.kinds);
  const drafts: Draft[] = [];
  for (let at = 0; at < set.questions; at += 1) {
    // Where one kind has nothing to ask, another steps in.
    const order = kinds.map((_, step) => kinds[(at + step) % kinds.length] as PracticeKind);
    const draft = order.reduce<Draft | undefined>((found, kind) => found ?? drawDraft(pool, kind, drafts), undefined);
    if (!draft) break;
    drafts.push(draft);
  }
  return {
    id: `sheet-${number}`,
    number,
    seed,
    questions: drafts.map((draft, at) => question(pool, draft, `sheet-${number}-${at + 1}`, at + 1)),
  };
}

function drawDraft(pool: Pool, kind: PracticeKind, before: readonly Draft[]): Draft | undefined {
  for (let draw = 0; draw < MOST_DRAWS; draw += 1) {
    const draft = DRAFTS[kind](pool);
    if (draft && !before.some((each) => each.kind === kind && each.key === draft.key)) return draft;
  }
  return undefined;
}

function question({ compiled, random }: Pool, draft: Draft, id: string, number: number): PracticeQuestion {
  const options = draft.ordered ? draft.options : random.shuffled(draft.options);
  return {
    id,
    number,
    kind: draft.kind,
    setting: settingWords(draft.subjects, draft.scene),
    words: draft.words,
    options: options.map(({ words }, at) => ({ letter: LETTERS[at] ?? '', words })),
    right: LETTERS[options.indexOf(draft.right)] ?? '',
    because: draft.because,
    proof: draft.proof,
    asked: {
      ...placeOf(compiled, draft),
      facts: askedFacts(compiled, draft.subjects, draft.facts),
      options: options.map(({ asked }) => asked),
    },
  };
}

function placeOf(compiled: Compiled, { scene }: Draft): Pick<PracticeQuestion['asked'], 'stage' | 'changed'> {
  if (!scene) return {};
  const course = compiled.procedures.find(({ stages }) => stages.some(({ stage }) => stage === scene.stage));
  const { changed, subject, facts } = scene;
  const fact = changed && askedFact(compiled, subject.settled, changed.level, facts.get(changed.level) as number);
  return {
    stage: { procedure: course?.procedure.id ?? '', stage: scene.stage.id },
    ...(fact ? { changed: fact.of } : {}),
  };
}
