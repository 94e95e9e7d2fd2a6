/** SL201-: expressions, from stray characters to values that a name cannot have. */
import { define } from '../define.ts';
import { list, quoted } from '../list.ts';
import { didYouMean } from '../nearest.ts';

/** What a name stands for, in words. */
const KIND_WORDS = {
  option: 'an option',
  condition: 'a condition',
  number: 'a number',
  control: 'a control',
  item: 'an item',
  signal: 'a signal',
} as const;
type Kind = keyof typeof KIND_WORDS;

const KIND_PLURALS: { readonly [K in Kind]: string } = {
  option: 'options',
  condition: 'conditions',
  number: 'numbers',
  control: 'controls',
  item: 'items',
  signal: 'signals',
};

function valueWord(kind: Kind): string {
  if (kind === 'control') return 'position';
  return kind === 'item' ? 'state' : 'value';
}

export const languageCodes = {
  SL201: define({
    severity: 'error',
    title: 'An empty expression',
    message: (_facts: Record<never, never>) => 'An expression should stand here, but there is nothing.',
    hint: () => 'Write what must hold, for instance "logo is ON", or "always".',
    explanation: 'A rule, a claim or a signal needs an expression that says when it holds.',
  }),
  SL202: define({
    severity: 'error',
    title: 'A character with no meaning here',
    message: (facts: { found: string; instead?: string | undefined }) => `"${facts.found}" has no meaning in an expression.`,
    hint: (facts) => (facts.instead === undefined ? 'Leave it out.' : `Write "${facts.instead}" instead.`),
    explanation:
      'Expressions are made of words, numbers, parentheses, commas, dots and the signs <, <=, >, >= and =. Everything else is said in words: and, or, not, is not.',
  }),
  SL203: define({
    severity: 'error',
    title: 'A parenthesis without its partner',
    message: (facts: { found: '(' | ')' }) =>
      facts.found === '(' ? 'This parenthesis is opened and never closed.' : 'This parenthesis closes nothing that was opened.',
    hint: (facts) => (facts.found === '(' ? 'Add the missing ")".' : 'Remove it, or add the missing "(".'),
    explanation: 'Parentheses come in pairs, so that it is clear what belongs together.',
  }),
  SL204: define({
    severity: 'error',
    title: 'A statement is missing',
    message: (facts: { found?: string | undefined }) =>
      facts.found === undefined
        ? 'The expression stops where a statement should follow.'
        : `A statement should stand here, but "${facts.found}" was found.`,
    hint: () => 'A statement starts with a name, for instance "logo is ON" or "airspeed > 240 kt".',
    explanation: 'The words and, or, not and implies, and an opened parenthesis, must be followed by a statement that starts with a name.',
  }),
  SL205: define({
    severity: 'error',
    title: 'Words too many',
    message: (facts: { words: string }) => `The statement is complete before "${facts.words}", so that nothing says what these words belong to.`,
    hint: () => 'Remove them, or join two statements with "and" or "or".',
    explanation: 'After a complete statement only and, or, implies or a closing parenthesis can follow.',
  }),
  SL206: define({
    severity: 'error',
    title: 'Both "and" and "or" without parentheses',
    message: (_facts: Record<never, never>) => 'This expression mixes "and" with "or", and can be read in two ways.',
    hint: () => 'Put parentheses around what belongs together: "(a and b) or c", or "a and (b or c)".',
    explanation: 'People differ in which of the two words they take first. Parentheses leave no doubt.',
  }),
  SL207: define({
    severity: 'error',
    title: 'A second "implies"',
    message: (_facts: Record<never, never>) => 'An expression can say "implies" once only; with two it can be read in two ways.',
    hint: () => 'Put parentheses around one of the two, or write two claims.',
    explanation: '"a implies b implies c" has two readings. Parentheses leave no doubt.',
  }),
  SL208: define({
    severity: 'error',
    title: 'A value is missing',
    message: (facts: { after: string }) => `A value should follow "${facts.after}", and none does.`,
    hint: () => 'Write the value, for instance "logo is ON" or "logo in (AUTO, ON)".',
    explanation: 'The words is, are and in compare something with a value, or with a list of values in parentheses.',
  }),
  SL209: define({
    severity: 'error',
    title: 'A word is missing between two names',
    message: (facts: { first: string; second: string }) => `"${facts.first}" and "${facts.second}" stand side by side with nothing that joins them.`,
    hint: (facts) => `Write "${facts.first} is ${facts.second}", or join two statements with "and" or "or".`,
    explanation: 'A comparison needs the word is or are, or one of the signs <, <=, >, >= and =.',
  }),
  SL210: define({
    severity: 'warning',
    title: 'A value listed twice',
    message: (facts: { value: string }) => `"${facts.value}" stands in this list more than once.`,
    hint: () => 'Remove one of them, or write the value that was meant.',
    explanation: 'Listing a value twice changes nothing, but often another value was meant.',
  }),
  SL211: define({
    severity: 'error',
    title: 'An unknown name',
    message: (facts: { name: string; nearest?: string | undefined }) => `Nothing that an expression can read has the id "${facts.name}".`,
    hint: (facts) => `${didYouMean(facts.nearest)}Check the spelling, or define it as an option, a condition, a signal, a control or an item.`,
    explanation: 'Expressions read options, conditions, signals, controls and items by their id.',
  }),
  SL212: define({
    severity: 'error',
    title: 'A value that it cannot have',
    message: (facts: {
      name: string;
      kind: Kind;
      value: string;
      values: readonly string[];
      nearest?: string | undefined;
      caseOnly: boolean;
    }) =>
      `"${facts.name}" has no ${valueWord(facts.kind)} "${facts.value}"${
        facts.caseOnly ? `; "${facts.nearest}" differs from it in upper and lower case only` : ''
      }. It has ${quoted(facts.values, 'and')}.`,
    hint: (facts) =>
      facts.nearest === undefined ? `Write ${quoted(facts.values)}.` : `Did you mean "${facts.nearest}"?`,
    explanation: 'A comparison can only name values that are defined, written exactly as they are defined.',
  }),
  SL213: define({
    severity: 'error',
    title: 'A number compared as if it had named values',
    message: (facts: { name: string; unit: string }) =>
      `"${facts.name}" is a number${facts.unit === '' ? '' : ` in ${facts.unit}`}, and has no named values.`,
    hint: (facts) => `Compare it with <, <=, >, >= or =, for instance "${facts.name} > 1${facts.unit === '' ? '' : ` ${facts.unit}`}".`,
    explanation: 'The words is, are and in compare with named values. Numbers are compared with signs and carry their unit.',
  }),
  SL214: define({
    severity: 'error',
    title: 'Compared as if it were a number',
    message: (facts: { name: string; kind: Kind; sign: string; values: readonly string[] }) =>
      `"${facts.name}" is ${KIND_WORDS[facts.kind]} and not a number, so that "${facts.sign}" cannot compare it.`,
    hint: (facts) =>
      facts.values.length === 0
        ? `Write "${facts.name}" or "not ${facts.name}" by itself.`
        : `Write "${facts.name} is ${facts.values[0]}". It has ${quoted(facts.values, 'and')}.`,
    explanation: 'The signs <, <=, >, >= and = compare numbers only. Everything else is compared with "is".',
  }),
  SL215: define({
    severity: 'error',
    title: 'A number without its unit',
    message: (facts: { name: string; value: string; unit: string }) =>
      `"${facts.name}" is in ${facts.unit}, and the number ${facts.value} does not say so.`,
    hint: (facts) => `Write "${facts.value} ${facts.unit}".`,
    explanation: 'Every number carries its unit, so that a reader need not look it up and a mix-up is found.',
  }),
  SL216: define({
    severity: 'error',
    title: 'A wrong unit',
    message: (facts: { name: string; value: string; unit: string; found: string }) =>
      facts.unit === ''
        ? `"${facts.name}" has no unit, and cannot be compared with a number in ${facts.found}.`
        : `"${facts.name}" is in ${facts.unit}, and cannot be compared with a number in ${facts.found}.`,
    hint: (facts) =>
      facts.unit === '' ? `Write "${facts.value}" by itself.` : `Give the number in ${facts.unit}, as in "${facts.value} ${facts.unit}".`,
    explanation: 'Numbers are compared in the unit of their definition. Nothing is converted.',
  }),
  SL217: define({
    severity: 'error',
    title: 'A comparison that decides nothing',
    message: (facts: {
      name: string;
      by: string;
      value: string;
      unit: string;
      from: string;
      to: string;
      holds: 'always' | 'never';
    }) => {
      const unit = facts.unit === '' ? '' : ` ${facts.unit}`;
      return `"${facts.name} ${facts.by} ${facts.value}${unit}" ${facts.holds} holds, because "${facts.name}" goes from ${facts.from} to ${facts.to}${unit}.`;
    },
    hint: (facts) => `Check the number, or write "${facts.holds}" if that is what is meant.`,
    explanation: 'A threshold is there to tell cases apart. One that every case passes, or none, is nearly always a slip.',
  }),
  SL218: define({
    severity: 'error',
    title: 'A number between two steps',
    message: (facts: { name: string; value: string; unit: string; from: string; step: string }) => {
      const unit = facts.unit === '' ? '' : ` ${facts.unit}`;
      return `"${facts.name}" goes from ${facts.from}${unit} in steps of ${facts.step}${unit}, and is never exactly ${facts.value}${unit}.`;
    },
    hint: () => 'Name a number that is on a step, or compare with <, <=, > or >=.',
    explanation: 'Numbers are known in steps. "=" can only ask for one of the steps; a threshold may lie between two.',
  }),
  SL219: define({
    severity: 'error',
    title: 'Nothing that could be fitted',
    message: (facts: { name: string; kind: Kind }) =>
      `"${facts.name}" is ${KIND_WORDS[facts.kind]}. Only controls and items are fitted on some aircraft and missing on others.`,
    hint: () => 'Name a control, a position of a control ("logo.AUTO") or an item in the parentheses.',
    explanation: '"fitted(...)" asks whether an aircraft has a control, a position of a control, or an item.',
  }),
  SL220: define({
    severity: 'error',
    title: 'The name of a control or an item is missing',
    message: (_facts: Record<never, never>) => '"fitted" must be followed by one name in parentheses.',
    hint: () => 'Write "fitted(logo)", or "fitted(logo.AUTO)" for one of its positions.',
    explanation: '"fitted(...)" asks whether an aircraft has a control, a position of a control, or an item.',
  }),
  SL221: define({
    severity: 'error',
    title: 'Several things can be read of this item',
    message: (facts: { name: string; attributes: readonly string[] }) =>
      `"${facts.name}" has ${quoted(facts.attributes, 'and')}, and this does not say which of them is meant.`,
    hint: (facts) => `Write ${list(facts.attributes.map((attribute) => `"${facts.name}.${attribute}"`))}.`,
    explanation: 'An item with one attribute needs no dot. Where it has several, the attribute follows behind a dot.',
  }),
  SL222: define({
    severity: 'error',
    title: 'An unknown attribute',
    message: (facts: { name: string; attribute: string; attributes: readonly string[]; nearest?: string | undefined }) =>
      `"${facts.name}" has no attribute "${facts.attribute}". It has ${quoted(facts.attributes, 'and')}.`,
    hint: (facts) =>
      facts.nearest === undefined
        ? `Write ${list(facts.attributes.map((attribute) => `"${facts.name}.${attribute}"`))}.`
        : `Did you mean "${facts.name}.${facts.nearest}"?`,
    explanation: 'Behind the dot stands one of the attributes that the item is defined with.',
  }),
  SL223: define({
    severity: 'error',
    title: 'A dot where there are no parts',
    message: (facts: { name: string; kind: Kind; part: string }) =>
      `"${facts.name}" is ${KIND_WORDS[facts.kind]} and has no part ".${facts.part}".`,
    hint: (facts) =>
      facts.kind === 'control'
        ? `Write "${facts.name} is ${facts.part}" for a position. The dot names a position in "fitted(...)" only.`
        : `Write "${facts.name}" without a dot.`,
    explanation: 'Only items have attributes that are read with a dot. In "fitted(...)" a dot names a position of a control.',
  }),
  SL224: define({
    severity: 'error',
    title: 'Not something that is true or false',
    message: (facts: { name: string; kind: Kind; values: readonly string[] }) =>
      `"${facts.name}" is ${KIND_WORDS[facts.kind]} and is neither true nor false by itself.`,
    hint: (facts) =>
      facts.kind === 'number'
        ? `Compare it with a number, for instance "${facts.name} > 1".`
        : `Say what it must be: ${list(facts.values.map((value) => `"${facts.name} is ${value}"`))}.`,
    explanation: 'Only signals, "always" and "never" stand by themselves. Everything else is compared with a value.',
  }),
  SL225: define({
    severity: 'error',
    title: 'A signal compared with a value',
    message: (facts: { name: string }) => `"${facts.name}" is a signal: it holds or it does not, and has no other values.`,
    hint: (facts) => `Write "${facts.name}" or "not ${facts.name}" by itself.`,
    explanation: 'A signal is a named expression and stands by itself wherever an expression can stand.',
  }),
  SL226: define({
    severity: 'error',
    title: 'A name that may not be read here',
    message: (facts: { name: string; kind: Kind; allowed: readonly Kind[]; why: string }) =>
      `"${facts.name}" is ${KIND_WORDS[facts.kind]}, and this expression may read ${list(
        facts.allowed.map((kind) => KIND_PLURALS[kind]),
        'and',
      )} only, because ${facts.why}.`,
    hint: (facts) => `Say it with ${list(facts.allowed.map((kind) => KIND_PLURALS[kind]))} instead.`,
    explanation:
      'What is fitted on an aircraft is decided by its options alone, and what never happens together is said of what is set from outside, before any rule is applied.',
  }),
  SL227: define({
    severity: 'error',
    title: 'A number is missing',
    message: (facts: { sign: string; found?: string | undefined }) =>
      `A number should follow "${facts.sign}"${facts.found === undefined ? ', and nothing does' : `, but "${facts.found}" was found`}.`,
    hint: () => 'Write the number and its unit, for instance "airspeed > 240 kt".',
    explanation: 'The signs <, <=, >, >= and = compare a number with a number and its unit.',
  }),
  SL228: define({
    severity: 'error',
    title: 'A joining word in upper case',
    message: (facts: { found: string }) => `"${facts.found}" is not known; the words that join statements are written in lower case.`,
    hint: (facts) => `Write "${facts.found.toLowerCase()}".`,
    explanation: 'Upper case belongs to legends and positions, such as ON. The words and, or, not, is, are, in and implies are in lower case.',
  }),
  SL229: define({
    severity: 'error',
    title: 'A list out of order',
    message: (_facts: Record<never, never>) => 'The values of a list stand in parentheses with one comma between two of them.',
    hint: () => 'Write the list as in "logo in (AUTO, ON)".',
    explanation: 'A list holds the values of which one must be met. It is written in parentheses, with commas.',
  }),
};
