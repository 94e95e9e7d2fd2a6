/** Find the position: in which one of a control's positions is something so? */
import { legendOn, positionsOf, valueOfPosition } from '../../compile/index.ts';
import type { Position } from '../../model/index.ts';
import { withSmallInitial } from '../../model/index.ts';
import { legend, text, upperFirst } from '../cells.ts';
import { subjectOf } from '../sentences.ts';
import { askedState, type Draft, type DraftOption, type Pool } from './draft.ts';
import { canBe, formOn, isIn, reasons, stated, stateIn } from './proof.ts';
import { controlAt, drawScene, type Facts, withValue } from './scene.ts';
import { askedFact, factsWords, given, proofLink, stateTitle, stateWords, verb } from './words.ts';

export function positionDraft({ compiled, random, subjects, behaviours }: Pool): Draft | undefined {
  const { diagrams, space } = compiled;
  const subject = random.pick(subjects);
  const behaviour = random.pick(behaviours);
  if (!subject || !behaviour) return undefined;
  const form = formOn(compiled, behaviour, subject);
  const { fit, settled } = subject;
  const choices = diagrams.support(form).flatMap((level) => {
    const control = controlAt(compiled, settled, level);
    const meaning = space.meanings[level];
    if (!control || meaning?.kind !== 'control') return [];
    const positions = positionsOf(control, fit)
      .map((index) => ({
        value: valueOfPosition(meaning, control, index),
        position: control.positions[index] as Position,
      }))
      .filter(({ position }) => !position.abnormal && position.returns === undefined);
    return positions.length >= 3 && positions.length <= 5 ? [{ level, control, positions }] : [];
  });
  const choice = random.pick(choices);
  const scene = drawScene(compiled, random, subject, 'none', [], () => diagrams.yes);
  if (!choice || !scene) return undefined;
  const { level, control, positions } = choice;
  const around = new Map([...scene.facts].filter(([each]) => each !== level));
  const states = positions.map(({ value }) =>
    stateIn(compiled, form, { ...scene, values: withValue(scene.values, level, value) }),
  );
  if (states.includes(undefined)) return undefined;
  const single = [...new Set(states as string[])].filter(
    (state) => states.filter((each) => each === state).length === 1,
  );
  const state = random.pick(single);
  const place = states.indexOf(state);
  if (state === undefined) return undefined;
  const asked = isIn(compiled, form, [state]);
  const why = positions.map(({ value }) => reasons(compiled, diagrams.restrict(asked, level, value), around));
  // Where nothing else matters the question would be a matter of reading the panel.
  const facts = stated(compiled, [subject], why);
  if (!facts || !positions.every(({ value }) => canBe(compiled, [subject], new Map([...facts, [level, value]]))))
    return undefined;
  const options = positions.map(
    ({ position, value }): DraftOption => ({
      words: [legend(legendOn(position, settled))],
      asked: { states: [{ ...askedState(behaviour, state), but: askedFact(compiled, settled, level, value) }] },
    }),
  );
  const right = options[place] as DraftOption;
  const { noun } = subjectOf(behaviour);
  const what =
    behaviour.item.kind === 'message'
      ? `is the message ${behaviour.item.title} ${stateTitle(behaviour, state)}`
      : `${verb(behaviour)} ${noun} ${stateTitle(behaviour, state)}`;
  const said =
    behaviour.item.kind === 'message'
      ? `The message ${behaviour.item.title} is ${stateTitle(behaviour, state)}`
      : upperFirst(stateWords(behaviour, state));
  const answer = new Map([[level, positions[place]?.value ?? 0], ...(why[place] as Facts)]);
  return {
    kind: 'position',
    key: `${behaviour.item.id}.${behaviour.attribute.id} ${control.id}`,
    scene,
    subjects: [subject],
    facts,
    words: [
      ...given(compiled, [subject], facts),
      text(`in which position of the ${withSmallInitial(control.title)} ${what}?`),
    ],
    options,
    right,
    because: [text(`${said} `), ...factsWords(compiled, [subject], answer), text('.')],
    proof: [proofLink(behaviour, subject)],
    ordered: true,
  };
}
