/** SL401-: what the rules say together: gaps, overlaps, claims that fail, cases that cannot happen, limits of the work. */
import { define } from '../define.ts';
import { list, quoted } from '../list.ts';

/** "Logo lights", or "Left landing light (stowage)" where the item has several attributes. */
const named = (facts: { readonly item: string; readonly attribute: string }): string =>
  facts.attribute === '' ? facts.item : `${facts.item} (${facts.attribute})`;

/** Where the work met its limit, and what helps there. */
const TOO_LARGE = {
  inputs: {
    what: 'The conditions and what never happens together need',
    mend: 'Shorten the entries under "never" so that each reads fewer conditions.',
  },
  modes: {
    what: 'The guards of sequences, and what reads their modes, need',
    mend: 'Make sequences read less of each other, or items fewer sequences.',
  },
  claims: {
    what: 'All rules and claims together need',
    mend: 'Claim less, or split the content into two books.',
  },
  procedures: {
    what: 'The rules are worked out, but the stages of the procedures need',
    mend: 'Say more of what is so in the stages, so that each leaves less open.',
  },
  findings: {
    what: 'The rules are worked out, but to look for what never matters in them needs',
    mend: 'Split items that read many controls and conditions into several attributes.',
  },
  pages: {
    what: 'The rules are worked out, but their tables need',
    mend: 'Split items that read many controls and conditions into several attributes.',
  },
} as const;

export const logicCodes = {
  SL401: define({
    severity: 'error',
    title: 'A case that no rule covers',
    message: (facts: { item: string; attribute: string; case: string; aircraft: string }) =>
      `No rule says what happens to ${named(facts)} in this case: ${facts.case}. It can happen on ${facts.aircraft}.`,
    hint: () => 'Add a rule for this case, or close the list with "otherwise".',
    explanation:
      'The rules of an item must say what it shows in every case that can happen, on every aircraft that has it. ' +
      'The case given is one that they leave open; there may be more. If it cannot happen, say so under "never" in ' +
      'conditions.yaml.',
  }),
  SL402: define({
    severity: 'error',
    title: 'Two rules disagree',
    message: (facts: {
      item: string;
      attribute: string;
      case: string;
      aircraft: string;
      first: string;
      second: string;
    }) =>
      `For ${named(facts)} one rule says "${facts.first}" and this one says "${facts.second}" in the same case: ` +
      `${facts.case}. It can happen on ${facts.aircraft}.`,
    hint: () =>
      'Narrow one of the rules so that they no longer meet, or write "policy: first" if the earlier rule is meant to win.',
    explanation:
      'Under the hit policy "any" several rules may hold in one case only if they agree. Where they disagree the tool ' +
      'never picks one by itself, since either might be the wrong one.',
  }),
  SL403: define({
    severity: 'error',
    title: 'Two rules hold in one case',
    message: (facts: {
      item: string;
      attribute: string;
      case: string;
      aircraft: string;
      first: string;
      second: string;
    }) =>
      `The rules of ${named(facts)} have "policy: unique", but the rule for "${facts.first}" and this one for ` +
      `"${facts.second}" both hold in this case: ${facts.case}. It can happen on ${facts.aircraft}.`,
    hint: () => 'Narrow one of the rules, or take out "policy: unique" if rules that agree may overlap.',
    explanation: 'Under the hit policy "unique" no two rules may hold in one case, whatever they say.',
  }),
  SL404: define({
    severity: 'error',
    title: 'No case can happen',
    message: (facts: { aircraft: string }) =>
      `On ${facts.aircraft} no case can happen at all: what "never" excludes leaves nothing over.`,
    hint: () => 'Look through the list under "never" in conditions.yaml: together its entries exclude every case.',
    explanation:
      'The entries of "never" take away cases that cannot happen. When they take away everything, nothing can be said of ' +
      'the aircraft, and every rule and claim would be true for no reason.',
  }),
  SL405: define({
    severity: 'error',
    title: 'Rules too large to work out',
    message: (facts: { item: string; attribute: string; limit: string; whole: boolean; variables: string }) =>
      facts.whole
        ? `All rules together need more than ${facts.limit}. The work ended with ${named(facts)}, whose rules read ` +
          `${facts.variables}.`
        : `The rules of ${named(facts)} need more than ${facts.limit}. They read ${facts.variables}.`,
    hint: () => 'Split the item into several attributes, or name parts of the rules as signals that read less each.',
    explanation:
      'The work on one book is bounded, so that a build ends in a message instead of running on. Rules that read very ' +
      'many controls and conditions in ways that all depend on each other can meet the bound.',
  }),
  SL406: define({
    severity: 'error',
    title: 'A claim that does not hold',
    message: (facts: { sentence: string; case: string; aircraft: string }) =>
      `The rules contradict "${facts.sentence}" in this case: ${facts.case}. It can happen on ${facts.aircraft}.`,
    hint: () => 'Correct the sentence and its claim, or correct the rules if the sentence is right.',
    explanation:
      'A claim must hold in every case that can happen, on every aircraft of the fleet. The case given is one in which ' +
      'the rules say otherwise.',
  }),
  SL407: define({
    severity: 'error',
    title: 'Not fitted on every aircraft',
    message: (facts: { name: string; id: string; aircraft: string }) =>
      `This reads ${facts.name}, but ${facts.aircraft} ${facts.aircraft.includes(' ') ? 'have' : 'has'} none.`,
    hint: (facts) =>
      `Write "fitted(${facts.id}) and ..." before it, or say what holds without it: "not fitted(${facts.id}) or ...".`,
    explanation:
      'What a rule says of a control or item that an aircraft lacks has no meaning there. fitted(...) tells the two kinds ' +
      'of aircraft apart, so that each gets a rule of its own.',
  }),
  SL408: define({
    severity: 'error',
    title: 'Content too large to work out',
    message: (facts: { stage: keyof typeof TOO_LARGE; limit: string }) =>
      `${TOO_LARGE[facts.stage].what} more than ${facts.limit}.`,
    hint: (facts) => TOO_LARGE[facts.stage].mend,
    explanation:
      'The work on one book is bounded, in memory, in steps and in time, so that a build ends in a message instead of ' +
      'running on.',
  }),
  SL409: define({
    severity: 'error',
    title: 'A control without a position',
    message: (facts: { control: string; aircraft: string }) =>
      `${facts.control} is fitted on ${facts.aircraft}, but none of its positions is.`,
    hint: () =>
      'Correct "fitted:" of the control or of its positions, so that each aircraft that has it has a position.',
    explanation: 'A control always stands in one of its positions; without any, no case could happen on the aircraft.',
  }),
  SL410: define({
    severity: 'warning',
    title: 'A rule for every case that an override breaks',
    message: (facts: {
      item: string;
      attribute: string;
      override: string;
      ruled: string;
      overridden: string;
      case: string;
      aircraft: string;
    }) =>
      `This rule says that ${named(facts)} is "${facts.ruled}" in every case, but the override "${facts.override}" makes it ` +
      `"${facts.overridden}" in this one: ${facts.case}. It can happen on ${facts.aircraft}.`,
    hint: () =>
      'Ask the owners of the documents, and name the query at the override ("query: ..."); or take out "in-every-case".',
    explanation:
      'Two documents can each state a rule without a thought of the other. A rule that is marked as holding in every case is ' +
      'never set aside in silence: the conflict is told until a query about it is recorded, which the book then shows.',
  }),
  SL411: define({
    severity: 'error',
    title: 'Sequences too large to follow',
    message: (facts: { sequences: readonly string[] }) =>
      `${list(facts.sequences, 'and')} have too many modes together to be followed.`,
    hint: () => 'Make them read less of each other, so that each can be followed by itself.',
    explanation:
      'Sequences that read each other are followed together, mode by mode. The work on one book is bounded, so that a ' +
      'build ends in a message instead of running on.',
  }),
  SL412: define({
    severity: 'warning',
    title: 'A claim that says nothing',
    message: (facts: { sentence: string }) =>
      `"${facts.sentence}" holds only because this never happens on any aircraft.`,
    hint: () => 'Correct the first part of the claim, or take the sentence out.',
    explanation:
      'A claim "a implies b" holds wherever "a" does not. Where "a" never happens at all it holds whatever "b" says, and ' +
      'tells readers of something that does not exist.',
  }),
  SL413: define({
    severity: 'error',
    title: 'A sequence that goes round for ever',
    message: (facts: { sequences: readonly string[]; modes: string; case: string; aircraft: string }) =>
      `${list(facts.sequences, 'and')} never come${facts.sequences.length > 1 ? '' : 's'} to rest on ${facts.aircraft}: ` +
      `from ${facts.modes}, in the case ${facts.case}, transitions without a delay follow each other in a circle.`,
    hint: () => 'Give one of them a delay, or guards that exclude each other.',
    explanation:
      'Transitions without a delay are taken at once. A circle of them would be run through infinitely fast.',
  }),
  SL414: define({
    severity: 'error',
    title: 'An aircraft of which too little is known',
    message: (facts: { aircraft: string; limit: number }) =>
      `The unknown options of ${facts.aircraft} leave more than ${facts.limit} aircraft that it may be.`,
    hint: () => 'Find out some of its options, or leave the aircraft out until they are known.',
    explanation:
      'An aircraft with unknown options is shown as each of those that it may be. Of one that may be hundreds the book could ' +
      'say next to nothing.',
  }),
  SL415: define({
    severity: 'error',
    title: 'A claim too large to work out',
    message: (facts: { sentence: string; limit: string; variables: string }) =>
      `"${facts.sentence}" needs more than ${facts.limit}. It reads ${facts.variables}.`,
    hint: () => 'Claim it in parts that read less each.',
    explanation: 'The work on one book is bounded, so that a build ends in a message instead of running on.',
  }),
  SL416: define({
    severity: 'warning',
    title: 'An override that passes items by',
    message: (facts: { override: string; attribute: string; state: string; items: readonly string[] }) =>
      `"${facts.override}" passes by ${quoted(facts.items, 'and')}, ${facts.items.length === 1 ? 'which is' : 'which are'} never ` +
      `"${facts.state}"${facts.attribute === 'lamp' ? '' : ` in "${facts.attribute}"`}.`,
    hint: () =>
      'Name them under "except" if that is meant. If not, write another override for them, or correct their states.',
    explanation:
      'An override sets the items in its scope that have its state. One with other states keeps to its own rules, and that is easily ' +
      'overlooked.',
  }),
};
