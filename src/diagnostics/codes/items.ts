/** SL360-: detectors, rules, decision tables, lamps, messages, supplies, overrides and queries. */
import { define } from '../define.ts';
import { list, quoted } from '../list.ts';
import { didYouMean } from '../nearest.ts';

type Nearest = { readonly nearest?: string | undefined };

export const itemCodes = {
  SL360: define({
    severity: 'error',
    title: 'Not a threshold',
    message: (facts: { detector: string }) =>
      `"${facts.detector}" must say what it trips at as one comparison of a number with <, <=, > or >=.`,
    hint: () => 'Write the number, the comparison and the threshold, for example: cabin-altitude > 10000 ft.',
    explanation: 'A detector watches one number and trips at one threshold. What else matters belongs into the rules.',
  }),
  SL361: define({
    severity: 'error',
    title: 'A tolerance that does not fit',
    message: (facts: {
      fault: 'number' | 'step' | 'range';
      tolerance: string;
      value: string;
      from: string;
      to: string;
      step: string;
      unit: string;
    }) => {
      if (facts.fault === 'number') return `"${facts.tolerance}" is not a plain decimal number of zero or more.`;
      const ends = `${facts.value} ${facts.unit} with a tolerance of ${facts.tolerance} ${facts.unit}`;
      return facts.fault === 'step'
        ? `${ends} does not end on steps of ${facts.step} ${facts.unit}.`
        : `${ends} reaches beyond the range, ${facts.from} to ${facts.to} ${facts.unit}.`;
    },
    hint: () => 'Correct the tolerance, or the range or step of the number in conditions.yaml.',
    explanation:
      'A detector trips somewhere within its tolerance of the threshold. Both ends must be values that the number can have, ' +
      'so that the book can say exactly where it may be either.',
  }),
  SL362: define({
    severity: 'error',
    title: 'Detectors without an order',
    message: (facts: { fault: 'unlike' | 'repeated' | 'circle' | 'against'; detector: string; other: string }) => {
      switch (facts.fault) {
        case 'unlike':
          return `"${facts.detector}" watches another number than "${facts.other}", or looks the other way.`;
        case 'repeated':
          return `"${facts.detector}" stands twice in one order.`;
        case 'circle':
          return `"${facts.detector}" cannot stand behind "${facts.other}": another order has them the other way round.`;
        case 'against':
          return `"${facts.detector}" cannot follow "${facts.other}": it has certainly tripped where that one cannot yet.`;
      }
    },
    hint: (facts) =>
      facts.fault === 'against' || facts.fault === 'circle'
        ? 'Put the one that trips first in front, or take one of them out.'
        : 'List under "in-order" detectors of one number that all trip above, or all below, their thresholds.',
    explanation:
      'Of detectors in order, none trips before the one that stands before it. That is said of one number only, and the ' +
      'thresholds with their tolerances must permit it.',
  }),
  SL363: define({
    severity: 'error',
    title: 'A table that is not there',
    message: (facts: { table: string } & Nearest) => `There is no file tables/${facts.table}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write the name of a file in tables/, with its ending.`,
    explanation: 'Rules can stand in a decision table: a CSV file in the folder tables/ of the content.',
  }),
  SL364: define({
    severity: 'error',
    title: 'A column that means nothing',
    message: (facts: { column: string | undefined } & Nearest) =>
      facts.column === undefined
        ? 'The table has no column "then".'
        : `"${facts.column}" is nothing that rules can read here.`,
    hint: (facts) =>
      `${didYouMean(facts.nearest)}Columns before "then" are names that rules read; "then" and "query" come last.`,
    explanation: 'A decision table tests one name in each column and gives the state in the column "then".',
  }),
  SL365: define({
    severity: 'error',
    title: 'A table that nothing reads',
    message: (_: Record<string, never>) => 'No rules are read from this table.',
    hint: () => 'Write "rules: { table: NAME.csv }" where it belongs, or take the file out.',
    explanation: 'A table that nothing reads would be kept and corrected in vain.',
  }),
  SL366: define({
    severity: 'error',
    title: 'Lamps that the item cannot have',
    message: (facts: {
      item: string;
      fault: 'kind' | 'attribute' | 'dark' | 'word' | 'name';
      lamp: string | undefined;
    }) => {
      switch (facts.fault) {
        case 'kind':
          return `"${facts.item}" is no light: lamps are named for lights only.`;
        case 'attribute':
          return `"${facts.item}" has no attribute "lamp" that its lamps could follow.`;
        case 'dark':
          return `The states of "${facts.item}" lack "dark", which is what a failed lamp is.`;
        case 'word':
          return `"${facts.lamp}" says whether a lamp works, so that no state of "${facts.item}" can be called so.`;
        case 'name':
          return `"${facts.lamp}" is already an attribute of "${facts.item}".`;
      }
    },
    hint: (facts) => {
      if (facts.fault === 'name') return 'Give the lamp another id.';
      if (facts.fault === 'word') return 'Give the state another id, and keep the word as its title.';
      return 'Write the rules of the light so that its lamps can follow them, or leave the lamps out.';
    },
    explanation:
      'A lamp is dark when it has failed or lost its supply, and otherwise as the attribute "lamp" of its light says.',
  }),
  SL367: define({
    severity: 'error',
    title: 'An unknown query',
    message: (facts: { query: string } & Nearest) => `queries.yaml has no query "${facts.query}".`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write the id of a query, or add the query to queries.yaml.`,
    explanation: 'What is not stated must be asked: each query has its question, and whom it was put to.',
  }),
  SL368: define({
    severity: 'error',
    title: 'A query that is answered',
    message: (facts: { query: string }) => `The query "${facts.query}" has an answer.`,
    hint: () =>
      'State what the answer says: the state in place of "not stated", or rules that the override does not break. Otherwise ' +
      'name a query that is still open.',
    explanation: 'As soon as a query is answered, the book must say what is the case.',
  }),
  SL369: define({
    severity: 'error',
    title: 'Not stated, and not asked',
    message: (facts: { given: 'not stated' | 'query' }) =>
      facts.given === 'query'
        ? 'The rule gives a state and names a query about it.'
        : '"not stated" names no query that asks what happens.',
    hint: (facts) =>
      facts.given === 'query' ? 'Write "not stated" in place of the state, or take out "query".' : 'Add "query: ID".',
    explanation: 'What the documents do not say stands in the book as not stated, with the query that asks about it.',
  }),
  SL370: define({
    severity: 'warning',
    title: 'A query that nothing names',
    message: (facts: { query: string }) => `No rule and no override names the open query "${facts.query}".`,
    hint: () => 'Name it where something is not stated because of it, or record its answer.',
    explanation:
      'An open query stands for something that the book cannot say. Where it names nothing, it may be forgotten.',
  }),
  SL371: define({
    severity: 'error',
    title: 'A latched message without "when"',
    message: (facts: { message: string }) => `"${facts.message}" is latched, but does not say "when" it is raised.`,
    hint: () => 'Write "when:" in place of "rules:".',
    explanation: 'A latch is set while the expression of "when" holds, and reset by the one under "latched".',
  }),
  SL372: define({
    severity: 'error',
    title: 'A message that holds itself back',
    message: (facts: { message: string }) => `"${facts.message}" stands among what takes its own place.`,
    hint: () => 'Name other messages under "suppressed-by".',
    explanation: 'A message is not shown while another one that takes its place is.',
  }),
  SL373: define({
    severity: 'error',
    title: 'A feeder without a normal value',
    message: (facts: { condition: string }) => `"${facts.condition}" has no normal value, so that it can feed nothing.`,
    hint: () => 'Write at the condition, under "normal", the value with which it feeds.',
    explanation: 'A condition feeds a supply while it has its normal value, and is lost otherwise.',
  }),
  SL374: define({
    severity: 'error',
    title: 'An override that touches nothing',
    message: (facts: { attribute: string; state: string; known: readonly string[] } & Nearest) =>
      facts.known.length === 0
        ? `No item in the scope has an attribute "${facts.attribute}".`
        : `No item in the scope is ever "${facts.state}". The states there are ${list([...facts.known], 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Correct the scope, the attribute or the state.`,
    explanation:
      'An override sets one attribute of the items in its scope that have it, and only those with the state.',
  }),
  SL375: define({
    severity: 'error',
    title: 'A control that is no station',
    message: (facts: { control: string; stations: readonly string[] }) =>
      `"${facts.control}" is not among the stations, ${quoted(facts.stations, 'and')}.`,
    hint: () => 'Take "control" out, or make it one of the stations.',
    explanation: 'Stations are all the controls that can each ask for an item; "control" is the one that comes first.',
  }),
  SL376: define({
    severity: 'error',
    title: 'An unknown zone',
    message: (facts: { zone: string; known: readonly string[] } & Nearest) =>
      facts.known.length === 0
        ? `No item has a zone, and none is in "${facts.zone}".`
        : `No item is in the zone "${facts.zone}". There is ${quoted(facts.known, 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write "zone:" at the items that belong to it.`,
    explanation: 'A zone is what items say under "zone"; an override can name it in its scope.',
  }),
  SL377: define({
    severity: 'error',
    title: 'A name that expressions cannot say',
    message: (facts: { word: string }) =>
      `"${facts.word}" has a meaning of its own in expressions, also behind "is" or a dot.`,
    hint: () => 'Choose another id, and keep the word as its title or legend.',
    explanation:
      'The words and, or, not, implies, is, are, for, always and never cannot be values, modes, attributes or lamps: rules could ' +
      'not speak of them. A control with a position that springs back can have no positions called held or released.',
  }),
  SL378: define({
    severity: 'error',
    title: 'A word for two terms',
    message: (facts: { word: string }) => `"${facts.word}" stands in the glossary for more than one term.`,
    hint: () => 'Keep it at the term that crews mean by it, or make one term of the two.',
    explanation:
      'A term and the other words for it lead a reader to one meaning. Capital and small letters are taken to be the same.',
  }),
  SL379: define({
    severity: 'error',
    title: 'A term that leads to itself',
    message: (facts: { term: string }) => `"${facts.term}" stands under its own "see".`,
    hint: () => 'Name other terms and definitions there.',
    explanation: 'What stands under "see" is where a reader goes on from the term.',
  }),
  SL396: define({
    severity: 'error',
    title: 'A key that counts for nothing here',
    message: (facts: { key: string; beside: 'when' | 'attributes' }) =>
      facts.beside === 'when'
        ? `"${facts.key}" beside "when" counts for nothing: a message with "when" has one rule.`
        : `"${facts.key}" beside "attributes" counts for nothing: each attribute has its own.`,
    hint: (facts) =>
      facts.beside === 'when'
        ? 'Take it out, or write "rules" in place of "when".'
        : 'Move it into the attribute that it is about, or take it out.',
    explanation:
      '"states" and "policy" belong to the rules that they stand beside: an item has them only where it has "rules".',
  }),
};
