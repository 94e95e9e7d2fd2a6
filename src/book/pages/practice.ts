/** Practice: the list of sets, and a page each with its sheets. */
import type { Compiled } from '../../compile/index.ts';
import { holdsOnFit, type PracticeSet } from '../../model/index.ts';
import { PRACTICE, practiceAddress } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { PracticePage, PracticeSetPage } from '../book-practice.ts';
import { effectivityOf } from '../effectivity.ts';
import { subjectsOf } from '../practice/scene.ts';
import { practiceSheet } from '../practice/sheet.ts';
import { trailTo } from '../trail.ts';

/** Seeds go round at this number. */
const SEEDS = 2 ** 32;

export function practicePages(compiled: Compiled): readonly [PracticePage, ...PracticeSetPage[]] {
  const sets = compiled.fleet.practice;
  return [
    {
      kind: 'practice',
      address: PRACTICE,
      title: 'Practice sheets',
      trail: trailTo(),
      sets: sets.map(listedSet),
    },
    ...sets.map((set) => setPage(compiled, set)),
  ];
}

/** "10 questions on each of 3 sheets". */
function listedSet(set: PracticeSet): Listed {
  const { questions, sheets } = set;
  const many = `${questions} ${questions === 1 ? 'question' : 'questions'}`;
  const detail = sheets === 1 ? `${many} on one sheet` : `${many} on each of ${sheets} sheets`;
  return { to: practiceAddress(set), title: set.title, detail };
}

function setPage(compiled: Compiled, set: PracticeSet): PracticeSetPage {
  const subjects = subjectsOf(compiled, compiled.fleet.aircraft).filter(
    ({ settled }) => set.for === undefined || holdsOnFit(set.for, settled.options) === true,
  );
  const fits = compiled.fits.filter((fit) => subjects.some((subject) => subject.fit === fit));
  const aircraft = subjects.map((subject) => subject.aircraft);
  return {
    kind: 'practice-set',
    address: practiceAddress(set),
    title: set.title,
    trail: [...trailTo(), { to: PRACTICE, title: 'Practice sheets' }],
    ...(set.about === undefined ? {} : { about: set.about }),
    effectivity: effectivityOf(compiled, fits),
    wanted: set.questions,
    sheets: Array.from({ length: set.sheets }, (_, at) =>
      practiceSheet(compiled, set, aircraft, at + 1, (set.seed + at) % SEEDS),
    ),
  };
}
