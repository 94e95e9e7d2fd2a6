/** SL201-: expressions: how they are written, and what they say of the things that they name. */
import { define } from '../define.ts';
import { list, quoted } from '../list.ts';
import { didYouMean } from '../nearest.ts';

/** What a text was read as. */
type Form = 'expression' | 'cell' | 'time';

/** What texts of each form look like. */
const LOOKS: Readonly<Record<Form, string>> = {
  expression: 'An expression looks like this: logo is ON and airspeed > 240 kt. Join parts by "and", "or", "implies".',
  cell: 'Cells look like these: "ON", "not ON", "ON, AUTO", "> 240 kt".',
  time: 'Times look like these: "5 s", "2 min", "60 s +/- 5 s".',
};

/** What to write instead of what is usual in expressions but not in cells; undefined for any other. */
function hintOnCell(found: string): string | undefined {
  if (/^(?:or|and)$/.test(found)) return 'Separate the values by commas, as in "ON, AUTO".';
  if (/^(?:is|are|in|\()$/.test(found)) return 'Write the values by themselves, as in "ON", "not ON" or "ON, AUTO".';
  return found === ',' ? 'A cell holds one comparison. Make two limits a signal, and give it a column.' : undefined;
}

const QUOTES = /^["'‘’“”„]$/u;

/** What to write instead of a sign or word that is usual elsewhere; undefined for any other. */
function hintOnSlip(found: string, wanted: string | undefined): string | undefined {
  const lower = found.toLowerCase();
  if (lower !== found && /^(?:and|or|not|implies|is|are|in|for|fitted|always|never)$/.test(lower)) {
    return `Write "${lower}", in lower case.`;
  }
  if (QUOTES.test(found)) return 'Write names and values without quotation marks.';
  if (/^-?\d+,/.test(found)) return 'Write numbers without separators, and decimals with a point: 10800, 88.5.';
  if (wanted === 'a name' && /^-?\d/.test(found)) return 'Begin with the name, as in "airspeed > 240 kt".';
  if (/^[<>]=?$/.test(found)) return 'Write each limit by itself: airspeed > 200 kt and airspeed < 240 kt.';
  return INSTEAD.get(found);
}

function beforeDot(name: string): string {
  return name.replace(/\..*$/, '');
}

const INSTEAD: ReadonlyMap<string, string> = new Map([
  ...['!=', '<>', '≠', '!'].map((sign) => [sign, 'Write "is not", as in "logo is not OFF".'] as const),
  ['==', 'Write "is" before a word, as in "logo is ON", and one "=" before a number.'],
  ...['=<', '≤'].map((sign) => [sign, 'Write "<=".'] as const),
  ['≥', 'Write ">=".'],
  ['=>', 'Write ">=" for "at least", or "implies" between two statements.'],
  ...['&&', '&'].map((sign) => [sign, 'Write "and".'] as const),
  ['+', 'Write "and", or "+/-" between a time and its tolerance.'],
  ['±', 'Write "+/-", as in "60 s +/- 5 s".'],
  ...['||', '|', '/'].map((sign) => [sign, 'Write "or".'] as const),
  ...['[', '{'].map((sign) => [sign, 'Use round brackets, as in "logo in (AUTO, ON)".'] as const),
  ...['−', '–'].map((sign) => [sign, 'Write a minus sign as the hyphen of the keyboard, as in "-5".'] as const),
]);

export const languageCodes = {
  SL201: define({
    severity: 'error',
    title: 'An empty expression',
    message: (_facts: Record<never, never>) => 'Nothing is written where an expression should stand.',
    hint: () => 'Write when it holds, for instance "logo is ON", or "always".',
    explanation: 'An expression says in which cases something holds. One that is left empty says nothing.',
  }),
  SL202: define({
    severity: 'error',
    title: 'An expression that cannot be read',
    message: (facts: { form: Form; found: string; wanted: string | undefined }) =>
      `${facts.found === '' ? `The ${facts.form} ends` : `${QUOTES.test(facts.found) ? 'A quotation mark' : `"${facts.found}"`} stands`} where ` +
      `${facts.wanted ?? 'a name, a value or a joining word'} should stand.`,
    hint: (facts) =>
      (facts.form === 'cell' ? hintOnCell(facts.found) : undefined) ??
      hintOnSlip(facts.found, facts.wanted) ??
      LOOKS[facts.wanted?.startsWith('a time') ? 'time' : facts.form],
    explanation:
      'Expressions are made of comparisons ("logo is ON", "logo in (AUTO, ON)", "airspeed > 240 kt"), fitted(...), ' +
      'signals, and the words not, and, or, implies, with brackets.',
  }),
  SL203: define({
    severity: 'error',
    title: 'A bracket is not closed',
    message: (_facts: Record<never, never>) => 'This bracket is opened but never closed.',
    hint: () => 'Put ")" where it should end.',
    explanation: 'Brackets show which parts of an expression belong together; each "(" needs its ")".',
  }),
  SL204: define({
    severity: 'error',
    title: 'An unknown name',
    message: (facts: { name: string; nearest: string | undefined; meant: string | undefined }) =>
      `Nothing is called "${facts.name}".`,
    hint: (facts) =>
      facts.meant === undefined
        ? `${didYouMean(facts.nearest)}Check the spelling, or define it.`
        : `If "${facts.name}" is another value of the same thing, write "${facts.meant}".`,
    explanation:
      'Expressions read options, conditions, detectors, controls, items, sequences and signals by their ids.',
  }),
  SL205: define({
    severity: 'error',
    title: 'A value that this cannot have',
    message: (facts: { name: string; value: string; known: readonly string[]; nearest: string | undefined }) =>
      `"${facts.name}" is never "${facts.value}". It can be ${list([...facts.known])}.`,
    hint: (facts) =>
      facts.nearest?.toLowerCase() === facts.value.toLowerCase()
        ? `Write "${facts.nearest}": upper and lower case matter.`
        : facts.value === 'fitted'
          ? `To ask whether it is fitted, write "fitted(${beforeDot(facts.name)})" or "not fitted(${beforeDot(facts.name)})".`
          : facts.value === 'unknown'
            ? 'Write one of its values: nobody can ask for what is not known.'
            : `${didYouMean(facts.nearest)}Write one of its values, or add this one to its definition.`,
    explanation:
      'A comparison with a value that something can never have would always be false, so it is taken as a slip.',
  }),
  SL206: define({
    severity: 'error',
    title: 'Not a number',
    message: (facts: { name: string; operator: string; kind: string; example: string | undefined }) =>
      `"${facts.name}" is not a number, so it cannot be compared by "${facts.operator}".`,
    hint: (facts) =>
      facts.example === undefined
        ? `It is ${facts.kind}: write "${facts.name}" or "not ${facts.name}" by itself.`
        : `Write for instance "${facts.example}".`,
    explanation: 'Only conditions that are defined with "number:" are compared by <, <=, >, >= and =.',
  }),
  SL207: define({
    severity: 'error',
    title: 'A number needs a comparison',
    message: (facts: { name: string; unit: string; from: string }) =>
      `"${facts.name}" is a number in ${facts.unit}. It has no named values, so "is" and "in" cannot be used of it.`,
    hint: (facts) => `Compare it by <, <=, >, >= or =, for instance "${facts.name} > ${facts.from} ${facts.unit}".`,
    explanation: 'Conditions that are defined with "number:" are compared by <, <=, >, >= and =.',
  }),
  SL208: define({
    severity: 'error',
    title: 'A signal or detector has no values',
    message: (facts: { name: string; kind: string }) => `"${facts.name}" is ${facts.kind}: it holds or it does not.`,
    hint: (facts) => `Write "${facts.name}" or "not ${facts.name}" by itself.`,
    explanation:
      'A signal is a named expression, a detector a named threshold; either stands in an expression as it is.',
  }),
  SL209: define({
    severity: 'error',
    title: 'A wrong or missing unit',
    message: (facts: { name: string; wanted: string; found: string | undefined; number: string }) =>
      facts.found === undefined
        ? `"${facts.name}" is in ${facts.wanted}, but this number has no unit.`
        : `"${facts.name}" is in ${facts.wanted}, not in ${facts.found}.`,
    hint: (facts) =>
      `Write the number in ${facts.wanted}, for instance "${facts.number} ${facts.wanted}" if that is what is meant.`,
    explanation:
      'Numbers are compared in the unit of the condition, which is written each time so that none is mistaken.',
  }),
  SL210: define({
    severity: 'error',
    title: 'A comparison that decides nothing',
    message: (facts: { name: string; number: string; from: string; to: string; unit: string }) =>
      `"${facts.name}" goes from ${facts.from} to ${facts.to} ${facts.unit}; compared with ${facts.number} ${facts.unit}, the answer would always be the same.`,
    hint: () => 'Correct the number, or widen the range of the condition.',
    explanation:
      'A number beyond the range, or one that no value of the range fulfils, decides nothing and is taken as a slip.',
  }),
  SL211: define({
    severity: 'error',
    title: 'Something is missing after a name',
    message: (facts: { name: string; example: string }) => `"${facts.name}" by itself is neither true nor false.`,
    hint: (facts) => `Say which value is meant, for instance "${facts.example}".`,
    explanation: 'Only signals and detectors stand by themselves; everything else is compared with one of its values.',
  }),
  SL212: define({
    severity: 'error',
    title: 'Only controls, items and sequences are fitted',
    message: (facts: { name: string; kind: string }) =>
      `"${facts.name}" is ${facts.kind}; fitted(...) asks for a control, an item or a sequence.`,
    hint: () =>
      'Name a control, one of its positions (as in fitted(logo.AUTO)), a light, a sign, an annunciator, a message or a sequence.',
    explanation:
      'fitted(...) says whether an aircraft has something at all. Every aircraft has every condition and option.',
  }),
  SL213: define({
    severity: 'error',
    title: 'Nothing can stand after this dot',
    message: (facts: { name: string; part: string }) =>
      `"${facts.part}" cannot stand after "${facts.name}" and a dot here.`,
    hint: () => 'A dot is followed by an attribute of an item, or, inside fitted(...), by a position of a control.',
    explanation: 'Items with several attributes are read as item.attribute; everything else is read by its id alone.',
  }),
  SL214: define({
    severity: 'error',
    title: 'An unknown attribute',
    message: (facts: { item: string; attribute: string; known: readonly string[]; nearest: string | undefined }) =>
      `"${facts.item}" has no attribute "${facts.attribute}". It has ${list([...facts.known], 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write one of its attributes after the dot.`,
    explanation:
      'The attributes of an item are those under "attributes:"; one with "rules:" alone has the attribute lamp.',
  }),
  SL215: define({
    severity: 'error',
    title: 'Which attribute?',
    message: (facts: { item: string; known: readonly string[] }) =>
      `"${facts.item}" has several attributes: ${list([...facts.known], 'and')}.`,
    hint: (facts) => `Write ${quoted(facts.known.map((attribute) => `${facts.item}.${attribute}`))}.`,
    explanation: 'An item with several attributes is read by one of them, as in landing-light.stowage is extended.',
  }),
  SL216: define({
    severity: 'error',
    title: 'Between two steps',
    message: (facts: { name: string; number: string; step: string; unit: string }) =>
      `"${facts.name}" moves in steps of ${facts.step} ${facts.unit} and is never exactly ${facts.number} ${facts.unit}.`,
    hint: () => 'Compare with a number that lies on a step, or use <, <=, > or >=.',
    explanation: 'A number takes the values of its range in whole steps; "=" with any other would never hold.',
  }),
  SL217: define({
    severity: 'error',
    title: 'A value is listed twice',
    message: (facts: { value: string }) => `"${facts.value}" stands twice in this list.`,
    hint: () => 'Take one of them out, or write the value that was meant.',
    explanation: 'A value that is repeated is mostly a slip for another one.',
  }),
  SL218: define({
    severity: 'error',
    title: 'May not be read here',
    /** Without a kind it was asked whether it is fitted. */
    message: ({ name, kind, why }: { name: string; kind: string | undefined; why: string }) =>
      `${kind === undefined ? `This asks whether "${name}" is fitted` : `"${name}" is ${kind}`}. ${why}`,
    hint: () => 'Write it with names that may be read here.',
    explanation:
      'What is fitted depends on options alone, and what never happens on variables alone; otherwise definitions would ' +
      'go round in circles.',
  }),
  SL219: define({
    severity: 'error',
    title: '"and" and "or" are mixed',
    message: (_facts: Record<never, never>) => 'This can be read in two ways, since "and" and "or" stand side by side.',
    hint: () => 'Put brackets around the parts that belong together: "(a and b) or c", or "a and (b or c)".',
    explanation:
      'The two readings say different things of an aircraft, and nobody should have to remember which one wins.',
  }),
  SL220: define({
    severity: 'error',
    title: '"implies" stands twice',
    message: (_facts: Record<never, never>) =>
      'An expression has "implies" once at most, unless brackets say how they nest.',
    hint: () => 'Put brackets around one of them, or join the premises by "and".',
    explanation: '"a implies b implies c" can be read in two ways.',
  }),
  SL221: define({
    severity: 'error',
    title: '"for" in the wrong place',
    message: (facts: { guard: boolean }) =>
      facts.guard
        ? '"for" with a time stands at the end of a guard, outside of all brackets, and is about all of it.'
        : '"for" with a time may stand in the guard of a transition only.',
    hint: (facts) =>
      facts.guard
        ? 'Put it at the end. If it is meant of a part only, give that part a sequence or transition of its own.'
        : 'Make it the "when:" of a transition of a sequence, and read the mode here.',
    explanation:
      'Rules, signals and claims are about one moment. What has held for a time is remembered by a sequence, whose ' +
      'transitions may wait: "apu-speed >= 95 % for 2 s".',
  }),
  SL222: define({
    severity: 'error',
    title: 'A store is read outside of a transition',
    message: (facts: { name: string }) => `"${facts.name}" is a store. Stores are read by transitions only.`,
    hint: () => 'Let a transition wait for the level, and read the mode that it leads to.',
    explanation:
      'The level of a store changes with time. Everything else reads modes, which say what the level has led to.',
  }),
  SL223: define({
    severity: 'error',
    title: 'Whether a lamp works and what it shows in one list',
    message: (facts: { name: string; word: string }) =>
      `"${facts.word}" stands in one list with words of another kind: whether ` +
      `"${facts.name}" works and what it shows are two things.`,
    hint: () => 'Write two comparisons, joined by "and" or "or".',
    explanation:
      '"failed" and "serviceable" say whether a lamp works, its states what is seen of it. A lamp that is dark may be either.',
  }),
  SL224: define({
    severity: 'error',
    title: 'A light without lamps',
    message: (facts: { name: string; kind: string | undefined }) =>
      facts.kind === undefined
        ? `"${facts.name}" names no lamps, so nothing can be said of several of them.`
        : `"${facts.name}" is ${facts.kind}; only lights have lamps.`,
    hint: (facts) =>
      `${facts.kind === undefined ? 'Give it "lamps:", or compare' : 'Name a light, or compare'} "${facts.name}" itself.`,
    explanation: '"any lamp of", "all lamps of" and the like speak of the lamps that a light names under "lamps:".',
  }),
  SL225: define({
    severity: 'error',
    title: 'A number of lamps that decides nothing',
    message: (facts: { item: string; count: string; lamps: number }) =>
      `"${facts.item}" has ${facts.lamps} ${facts.lamps === 1 ? 'lamp' : 'lamps'}; ${facts.count} cannot be asked for.`,
    hint: (facts) =>
      facts.count === '0'
        ? `For none of them write "not any lamp of ${facts.item} is ...".`
        : `Write a whole number from 1 to ${facts.lamps}.`,
    explanation: 'With a number of lamps that a light cannot have the answer would always be the same.',
  }),
  SL226: define({
    severity: 'error',
    title: 'A time without a unit of time',
    message: (facts: { number: string; unit: string | undefined; meant: string | undefined }) =>
      facts.unit === undefined ? `"${facts.number}" is a time without a unit.` : `"${facts.unit}" is no unit of time.`,
    hint: (facts) => `Write it in s, min or h, for instance "${facts.number} ${facts.meant ?? 's'}".`,
    explanation: 'Times are written in s, min or h, so that none is mistaken.',
  }),
  SL227: define({
    severity: 'error',
    title: 'A time that is not above zero',
    message: (facts: { time: string }) => `"${facts.time}" is no time to wait.`,
    hint: () => 'Write a time above zero, or take it out.',
    explanation: 'What happens at once is written without a time.',
  }),
  SL228: define({
    severity: 'error',
    title: 'A tolerance greater than its time',
    message: (facts: { time: string; tolerance: string }) =>
      `A time of ${facts.time} cannot lie ${facts.tolerance} to either side.`,
    hint: (facts) => `Write a tolerance from 0 to ${facts.time}.`,
    explanation: 'A tolerance says how far the actual time may lie from the one given; it cannot lie below zero.',
  }),
  SL229: define({
    severity: 'error',
    title: 'A blank beside a dot',
    message: (_facts: { meant: string }) => 'Blanks stand beside the dot of this name.',
    hint: (facts) => `Write "${facts.meant}".`,
    explanation: 'A name with a dot is one word: landing-light.stowage, position-lights.left.',
  }),
  SL230: define({
    severity: 'error',
    title: 'A lamp in none of its states',
    message: (facts: { name: string }) =>
      `A lamp of "${facts.name}" is always one of these, so this never holds of any.`,
    hint: () => 'Leave out of the list what a lamp may be, or take out the "not".',
    explanation: 'A statement that all states of a lamp are excluded would never hold, so it is taken as a slip.',
  }),
  SL231: define({
    severity: 'error',
    title: 'An expression too deep to read',
    message: (facts: { most: number }) => `Brackets and "not" nest more than ${facts.most} deep here.`,
    hint: () => 'Give parts of it names, as signals.',
    explanation: 'Nobody can judge an expression with so many brackets within brackets, and none is needed.',
  }),
  SL232: define({
    severity: 'error',
    title: 'A cell that should say yes or no',
    message: (facts: { name: string }) => `"${facts.name}" holds or it does not, so its cells say "yes" or "no".`,
    hint: () => 'Write "yes", "no", or nothing where both are meant.',
    explanation:
      'In a decision table a column of a signal or detector has the cells yes and no; an empty cell means any.',
  }),
  SL233: define({
    severity: 'error',
    title: 'A store asked to stand at a level',
    message: (facts: { name: string; number: string; unit: string }) =>
      `"${facts.name}" passes ${facts.number} ${facts.unit} on its way and does not stand there.`,
    hint: (facts) =>
      `Write "${facts.name} <= ${facts.number} ${facts.unit}" where it is drained, or ">=" where it is filled.`,
    explanation:
      'A store drains and fills without a break. That it equals a level is true for no time at all, so that a transition which waits for it is a matter of chance.',
  }),
};
