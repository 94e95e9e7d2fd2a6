/** Expressions as sentences say them: "with the APU control at RUN and without an APU fire". What is named is linked. */
import type { Expression } from '../language/index.ts';
import { type Fleet, SHOWN } from '../model/index.ts';
import type { Inline } from './book.ts';
import { plain, separate, text } from './cells.ts';
import { boundSaid, factPhrase, messageLink } from './fact-words.ts';
import { plainForm } from './plain-form.ts';
import { type Phrase, strung } from './strung.ts';

/** What holds, as something that can follow a state: "lit", "raised". Signals go by their own words: see `signalsIn`. */
export function expressionWords(fleet: Fleet, expression: Expression): Inline[] {
  return phraseFor(fleet, plainForm(expression)).words;
}

/** "A and B", "A and either B or C"; "A, or B". */
function phraseFor(fleet: Fleet, expression: Expression): Omit<Phrase, 'words'> & { words: Inline[] } {
  switch (expression.op) {
    case 'and': {
      const isChoice = (arg: Expression): boolean => arg.op === 'or' && messagesShown(fleet, arg) === undefined;
      const facts = expression.args.filter((arg) => !isChoice(arg));
      const choices = expression.args.filter(isChoice).map((arg) => [text('either '), ...phraseFor(fleet, arg).words]);
      const parts = [...(facts.length > 0 ? [strung(inOneGo(fleet, facts))] : []), ...choices];
      return { words: parts.flatMap((words, at) => (at === 0 ? words : [text(', and '), ...words])), isList: true };
    }
    case 'or': {
      const shown = messagesShown(fleet, expression);
      if (shown) return shown;
      const phrases = expression.args.map((arg) => phraseFor(fleet, arg).words);
      return { words: phrases.flatMap((words, at) => (at === 0 ? words : [text(', or '), ...words])), isList: true };
    }
    default: {
      const { words, isList } = factPhrase(fleet, expression);
      return { words: [...words], isList };
    }
  }
}

/** Two bounds of one number are said in one go: "with the airspeed above 60 kt but below 80 kt". */
function inOneGo(fleet: Fleet, facts: readonly Expression[]): Phrase[] {
  const numberOf = (fact: Expression): string | undefined => (fact.op === 'compare' ? fact.condition : undefined);
  const byNumber = Map.groupBy(facts, (fact) => numberOf(fact) ?? fact);
  const phrases = [...byNumber.values()].map((some): Phrase => {
    const [first, ...others] = some as [Expression, ...Expression[]];
    const phrase = phraseFor(fleet, first);
    const bounds = others.flatMap((other) => [text(` but ${plain(boundSaid(other))}`)]);
    return { words: [...phrase.words, ...bounds], isList: phrase.isList };
  });
  // "a.ON and not a.OFF" of a switch with two positions is said once.
  return [...new Map(phrases.map((phrase) => [plain(phrase.words), phrase])).values()];
}

/** "with one of the messages A, B or C shown", where that is all that is asked. */
function messagesShown(fleet: Fleet, expression: Expression): { words: Inline[]; isList: boolean } | undefined {
  const args = expression.op === 'or' ? expression.args : [];
  const messages = args.map((arg) =>
    arg.op === 'among' && arg.values.join() === SHOWN
      ? fleet.items.find(({ id, kind }) => kind === 'message' && id === arg.of.id)
      : undefined,
  );
  const all = messages.filter((message) => message !== undefined);
  if (all.length < 2 || all.length < args.length) return undefined;
  const titles = separate(all.map((message) => [messageLink(message)]));
  return { words: [text('with one of the messages '), ...titles, text(' shown')], isList: true };
}
