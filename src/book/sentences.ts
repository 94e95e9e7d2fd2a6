/**
 * One sentence for what an item does with its control in one position, in normal cases:
 * "The logo lights are lit on the ground with the parking brake set, or in the air; otherwise they are dark."
 */
import {
  type Behaviour,
  type Compiled,
  controlMeaning,
  type Fit,
  IMPOSSIBLE,
  levelOf,
  type Meaning,
  NOT_FITTED,
  type On,
  partForm,
  valueOfPosition,
  type Worded,
} from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import { type Cube, minimalCover, type Node, sparse } from '../logic/index.ts';
import { type Control, withSmallInitial } from '../model/index.ts';
import { asksForNothing, restState } from './asking.ts';
import type { Inline } from './book.ts';
import { optionTitles, possibleStates, queryLink, severalStates, stateView, text, upperFirst } from './cells.ts';
import { groupOf } from './fits.ts';
import { cubeWords } from './phrases.ts';
import { meaningAt } from './tables.ts';

/** How a sentence begins that tells of a position which leaves everything to others. */
export const ASKS_FOR_NOTHING = 'Asks for nothing: ';

/** What sentences are about: "the logo lights", "the left lamp of the position lights". */
interface Subject {
  readonly noun: string;
  readonly plural: boolean;
  /** Of a lamp: what it is called where its light has just been named. */
  readonly part?: { readonly title: string; readonly of: string };
}

export function subjectOf({ item, attribute }: Pick<Behaviour, 'item' | 'attribute'>): Subject {
  if (!attribute.lamp) return { noun: item.noun, plural: item.plural };
  const title = withSmallInitial(attribute.title);
  return { noun: `the ${title} of ${item.noun}`, plural: false, part: { title, of: item.noun } };
}

/** What is said of one behaviour. */
export interface Said {
  readonly subject: Subject;
  /** The control by itself asks for nothing. */
  readonly nothing: boolean;
  /** The rest of the sentence, behind the subject, for one thing or for several. */
  readonly words: (plural: boolean) => Inline[];
}

/**
 * What a behaviour is on one fit with a control in one of its own positions, by index; undefined when the position does not
 * occur there or the item is not fitted.
 */
export function positionSaid(
  compiled: Compiled,
  behaviour: Behaviour,
  fit: Fit,
  control: Control,
  position: number,
): Said | undefined {
  const { diagrams, space } = compiled;
  const group = groupOf(behaviour, fit);
  const level = levelOf(space, control.id);
  // Of an abnormal position it is said what happens there in cases that are normal otherwise.
  const normal = partForm(diagrams, space, group.form, 'normal', level);
  if (normal === undefined) return undefined;
  const value = valueOfPosition(controlMeaning(space, control), control, position);
  const here = diagrams.restrict(normal, level, value);
  if (here === diagrams.terminal(IMPOSSIBLE)) return undefined;
  const nothing = asksForNothing(compiled, behaviour, fit, control, position);
  const rest = nothing ? compiled.outcomes.ofState(restState(behaviour.attribute).id) : undefined;
  const words = wordsOf(compiled, behaviour, here, fit.settled, rest);
  return words && { subject: subjectOf(behaviour), nothing, words };
}

/** When a behaviour is what, on one fit, whatever its control; undefined when the item is not fitted. */
export function itemSaid(compiled: Compiled, behaviour: Behaviour, fit: Fit): Said | undefined {
  const { diagrams, space, outcomes } = compiled;
  const normal = partForm(diagrams, space, groupOf(behaviour, fit).form, 'normal');
  if (normal === undefined) return undefined;
  const rest = outcomes.ofState(restState(behaviour.attribute).id);
  const words = wordsOf(compiled, behaviour, normal, fit.settled, rest);
  return words && { subject: subjectOf(behaviour), nothing: false, words };
}

/** Sentences in the order of what is said, the very same said of several things at once. */
export function sentencesOf(all: readonly Said[]): Inline[][] {
  return joint(all).map(({ words }) => words);
}

/**
 * The same on behaviours where the rest of each is a form, each with what it is about. Of normal cases, where there are any.
 */
export function formSentences<B extends Pick<Behaviour, 'item' | 'attribute'>>(
  compiled: Worded,
  forms: readonly { readonly behaviour: B; readonly form: Node }[],
  on: On,
): { readonly words: Inline[]; readonly of: B[] }[] {
  const { diagrams, space } = compiled;
  const all = forms.flatMap(({ behaviour, form }) => {
    const normal = partForm(diagrams, space, form, 'normal') ?? form;
    const words = wordsOf(compiled, behaviour, normal, on, undefined);
    const { item } = behaviour;
    const subject =
      item.kind === 'message' ? { noun: `the message ${item.title}`, plural: false } : subjectOf(behaviour);
    return words ? [{ behaviour, said: { subject, nothing: false, words } }] : [];
  });
  return joint(all.map(({ said }) => said)).map(({ words, places }) => ({
    words,
    of: places.flatMap((at) => all[at]?.behaviour ?? []),
  }));
}

/** "the position lights, their left lamp, their tail lamp": a lamp that follows its own light is said to be of it. */
function nounsOf(subjects: readonly Subject[]): string[] {
  let light: Subject | undefined;
  return subjects.map((subject) => {
    const { noun, part } = subject;
    if (part === undefined) light = subject;
    else if (light?.noun === part.of) return `${light.plural ? 'their' : 'its'} ${part.title}`;
    return noun;
  });
}

/** Sentences, each with the places of what it is about. */
function joint(all: readonly Said[]): { words: Inline[]; places: number[] }[] {
  // Several things seen of one item have one noun: to be joined they would have to be told apart.
  const key = ({ nothing, words, subject }: Said, at: number): string => {
    const isAlone = all.some((other, place) => place !== at && other.subject.noun === subject.noun);
    return JSON.stringify([nothing, words(true), isAlone ? at : '']);
  };
  const keys = all.map(key);
  return all.flatMap((said, at) => {
    if (keys.indexOf(keys[at] as string) < at) return [];
    const places = all.flatMap((_, other) => (keys[other] === keys[at] ? [other] : []));
    const subjects = places.flatMap((place) => all[place]?.subject ?? []);
    const nouns = list(nounsOf(subjects), 'and');
    const rest = said.words(subjects.length > 1 || said.subject.plural);
    const lead = said.nothing ? `${ASKS_FOR_NOTHING}${nouns} ` : `${upperFirst(nouns)} `;
    return [{ words: [text(lead), ...rest], places }];
  });
}

/**
 * What is said of a form that no longer depends on the control; undefined when the item is not fitted. `rest` is the outcome
 * that "otherwise" stands for, where it occurs.
 */
function wordsOf(
  compiled: Worded,
  behaviour: Pick<Behaviour, 'attribute'>,
  form: Node,
  on: On,
  rest: number | undefined,
): Said['words'] | undefined {
  const covers = coversOf(compiled, form);
  if (covers.every(({ outcome }) => outcome === NOT_FITTED)) return undefined;
  // What takes most words to say is what "otherwise" leaves unsaid.
  const last =
    covers.find(({ outcome }) => outcome === rest) ??
    covers.reduce((longest, each) => (each.length > longest.length ? each : longest));
  const others = covers.filter((each) => each !== last);
  return (plural) => {
    const pronoun = plural ? 'they' : 'it';
    const say = (outcome: number): Inline[] => predicate(compiled, behaviour, plural, outcome);
    if (others.length === 0) return [...say(last.outcome), text('.')];
    // "..., depending on the mounting, with the switch at ON": not the mounting with the switch.
    const before = (outcome: number): string => (compiled.outcomes.meaning(outcome).kind === 'depends' ? ', ' : ' ');
    const clauses = others.flatMap(({ outcome, columns, cubes }, index) => [
      ...(index === 0 ? [] : [text(`; ${pronoun} `)]),
      ...say(outcome),
      ...cubes.flatMap((cube, at) => [
        text(at === 0 ? before(outcome) : ', or '),
        ...cubeWords(compiled, columns, cube, on),
      ]),
    ]);
    return [...clauses, text(`; otherwise ${pronoun} `), ...say(last.outcome), text('.')];
  };
}

/** "is lit", "may be dark or lit", "is dark or lit, depending on the option Logo light control", "is in a state that is not stated". */
function predicate(
  compiled: Worded,
  { attribute }: Pick<Behaviour, 'attribute'>,
  plural: boolean,
  outcome: number,
): Inline[] {
  const verb = plural ? 'are' : 'is';
  const meaning = compiled.outcomes.meaning(outcome);
  switch (meaning.kind) {
    case 'not stated':
      return [text(`${verb} in a state that is not stated (`), queryLink(meaning.query), text(')')];
    case 'either':
      return [text(`may be ${severalStates(compiled, attribute, meaning.of)}`)];
    case 'depends': {
      const { states, where } = possibleStates(compiled, attribute, meaning.of);
      const titles = optionTitles(compiled.fleet, meaning.options);
      const options = `the option${titles.length === 1 ? '' : 's'} ${list(titles, 'and')}`;
      return [text(`${verb} ${states}${where}, depending on ${options}`)];
    }
    default:
      return [text(`${verb} ${stateView(compiled, attribute, outcome).text}`)];
  }
}

/** The cases of one outcome as cubes that may overlap. */
export interface OutcomeCover {
  readonly outcome: number;
  readonly columns: readonly number[];
  readonly cubes: readonly Cube[];
  /** How long it is to say: alternatives first, then the values in them. */
  readonly length: number;
}

/** For each outcome the fewest alternatives; outcomes in the order of their first cases as variables are declared. */
export function coversOf(compiled: Worded, form: Node): OutcomeCover[] {
  const { diagrams } = compiled;
  const columns = diagrams.support(form);
  const first = (outcome: number): number[] => {
    const least = diagrams.pick(diagrams.casesOf(form, outcome));
    return columns.map((level) => least?.get(level) ?? 0);
  };
  const outcomes = diagrams.terminals(form).filter((outcome) => outcome !== IMPOSSIBLE);
  return outcomes
    .map((outcome) => ({ outcome, at: first(outcome) }))
    .toSorted((a, b) => inOrder(a.at, b.at))
    .map(({ outcome }) => {
      const on = diagrams.casesOf(form, outcome);
      const off = diagrams.not(diagrams.or(on, diagrams.casesOf(form, IMPOSSIBLE)));
      const { cubes: widest } = minimalCover(diagrams, columns, on, off);
      // Short ones first: what follows a long one could be taken for a part of it.
      const cubes = sparse(diagrams, columns, widest, on).toSorted((a, b) => limited(a) - limited(b));
      const values = cubes.flatMap((cube) =>
        cube.map((each, column) => wordsNeeded(meaningAt(compiled, columns[column] as number), each)),
      );
      return { outcome, columns, cubes, length: 100 * cubes.length + values.reduce((sum, each) => sum + each, 0) };
    });
}

function limited(cube: Cube): number {
  return cube.filter((values) => values !== undefined).length;
}

/** The first difference decides. */
function inOrder(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((value, index) => value !== b[index]);
  return at === -1 ? 0 : (a[at] as number) - (b[at] as number);
}

/** How many values must be named; an interval of numbers is said in one go. */
function wordsNeeded(meaning: Meaning, values: readonly number[] | undefined): number {
  if (values === undefined) return 0;
  return meaning.kind === 'number' ? 1 : values.length;
}
