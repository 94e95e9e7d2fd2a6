/** Practice: the list of sets, and a page each with its sheets. */
import { type Compiled, holdsOn } from '../../compile/index.ts';
import type { PracticeSet } from '../../model/index.ts';
import { PRACTICE, practiceAddress } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { PracticePage, PracticeSetPage } from '../book-practice.ts';
import { effectivityOf } from '../effectivity.ts';
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
  const { diagrams, space, expressions, fleet } = compiled;
  const wanted = set.for && expressions.compile(set.for);
  // Of an aircraft with an unknown option nothing is asked: it is not known what the answers are.
  const fits = compiled.fits.filter(({ settled, aircraft }) => {
    const [fit, ...others] = settled;
    if (!fit || others.length > 0 || aircraft.length === 0) return false;
    return wanted === undefined || holdsOn(diagrams, space, wanted, fit);
  });
  const aircraft = fleet.aircraft.filter((each) => fits.some((fit) => fit.aircraft.includes(each)));
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
