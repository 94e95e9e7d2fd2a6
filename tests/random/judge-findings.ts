/** Holds what is reported of a family, gaps, overlaps, empty fits and claims, to the oracle. */
import type { Diagnostic } from '../../src/diagnostics/index.ts';
import { readEffectivity } from '../helpers/effectivity-words.ts';
import { ABSENT, sharedName, sharedValue, sharing } from '../helpers/seen-cases.ts';
import { readValues, sharedTitle, splitList, titledValues } from '../helpers/vocabulary.ts';
import type { Case, Fit, Oracle } from '../oracle/index.ts';
import { type Complaint, firstOf, type Kind } from './complaint.ts';

/** Faults of rules: with overrides above them the oracle does not look at rules where an override decides. */
export function judgeFaults(
  oracle: Oracle,
  found: readonly Diagnostic[],
  compareRules: boolean,
): Complaint | undefined {
  const empty = settledFits(oracle).some((fit) => !oracle.canHappen(fit, {}));
  if (empty !== found.some(({ code }) => code === 'SL404'))
    return { kind: 'empty fit', text: empty ? 'an empty fit is not reported' : 'a fit that is not empty is reported' };
  if (empty || !compareRules) return undefined;
  const expected = new Map([...oracle.content.items.keys()].map((id) => [id, faultsOf(oracle, id)]));
  const faulty = [...expected].filter(([, codes]) => codes.length > 0).map(([id]) => id);
  return firstOf([...expected], ([id, codes]) => {
    // What an item makes of another one without a state is nobody's business.
    if (
      readers(
        oracle,
        faulty.filter((each) => each !== id),
      ).has(id)
    )
      return undefined;
    const told = found.flatMap(({ code, facts }) =>
      'item' in facts && facts.item === id && ['SL401', 'SL402', 'SL403'].includes(code) ? [code] : [],
    );
    const each = [...new Set<string>(told)].sort();
    if (each.join() === codes.join()) return undefined;
    return { kind: 'faults of rules', text: `${id}: [${each.join(', ')}], not [${codes.join(', ')}]` };
  });
}

/** The items that read one of these, or one that does. */
function readers({ content }: Oracle, items: readonly string[]): ReadonlySet<string> {
  const found = new Set<string>();
  for (let next = [...items]; next.length > 0; ) {
    const those = next;
    next = [...content.items].flatMap(([id, { attributes }]) => {
      const rules = JSON.stringify([...attributes.values()].map((each) => each.rules));
      return !found.has(id) && those.some((read) => rules.includes(read)) ? [id] : [];
    });
    for (const id of next) found.add(id);
  }
  return found;
}

function faultsOf(oracle: Oracle, item: string): string[] {
  const codes = new Set<string>();
  for (const [attribute, { policy }] of oracle.content.items.get(item)?.attributes ?? []) {
    for (const fit of settledFits(oracle)) {
      for (const given of oracle.cases(fit, oracle.extendedVariables(item, attribute))) {
        if (!oracle.meaning.isFitted(fit, item)) continue;
        for (const state of oracle.meaning.underEachAnswer(item, attribute, oracle.meaning.at(fit, given))) {
          if (typeof state === 'string') continue;
          if ('gap' in state) codes.add('SL401');
          if ('conflict' in state) codes.add(policy === 'unique' ? 'SL403' : 'SL402');
        }
      }
    }
  }
  return [...codes].sort();
}

const settledFits = (oracle: Oracle): Fit[] => oracle.fits.flatMap((fit) => oracle.candidates(fit));

/** Every claim is refuted, called empty or left alone as the oracle finds it; a witness is a real one. */
export function judgeClaims(oracle: Oracle, found: readonly Diagnostic[], kinds: Set<Kind>): Complaint | undefined {
  return firstOf(oracle.content.claims, ({ sentence, holds }) => {
    const about = found.filter(({ facts }) => 'sentence' in facts && facts.sentence === sentence);
    const told = about.map(({ code }) => code).join();
    const fails = !oracle.holds(holds);
    const isEmpty = !fails && premiseNeverHappens(oracle, holds);
    const expected = fails ? 'SL406' : isEmpty ? 'SL412' : '';
    if (told !== expected) return { kind: 'claims', text: `${holds}: [${told}], not [${expected}]` };
    kinds.add(fails ? 'a claim that fails' : isEmpty ? 'an empty premise' : 'a claim that holds');
    const wrong = about[0] && fails ? wrongWitness(oracle, holds, about[0]) : undefined;
    return wrong ? { kind: 'witness of a claim', text: `${holds}: ${wrong}` } : undefined;
  });
}

function premiseNeverHappens(oracle: Oracle, text: string): boolean {
  const premise = /^(.*?) implies /.exec(text)?.[1];
  return premise !== undefined && oracle.holds(`not (${premise})`);
}

/** The case that is told makes sure that the claim fails on one of the aircraft named, and those are all on which it can. */
function wrongWitness(oracle: Oracle, claim: string, { facts }: Diagnostic): string | undefined {
  if (!('case' in facts) || !('aircraft' in facts)) return 'no case is told';
  const [words, aircraft] = [String(facts.case), String(facts.aircraft)];
  const failing = (fit: Fit): boolean =>
    [...oracle.cases(fit, oracle.variablesOf(claim))].some((given) => !oracle.evaluate(fit, claim, given));
  const expected = oracle.aircraft
    .filter(({ course }) => course.some(({ fit }) => oracle.candidates(fit).some(failing)))
    .map(({ registration }) => registration);
  const named = readEffectivity(oracle, aircraft).map(({ registration }) => registration);
  if (named.join() !== expected.join()) return `it is said to fail on ${aircraft}, not on ${expected.join(', ')}`;
  const refutes = (fit: Fit): boolean => {
    const readings = readCase(oracle, fit, words.replace(UNSTATED, ''));
    if (!readings) return false;
    const names = [
      ...new Set([...oracle.variablesOf(claim), ...readings.flatMap(({ name }) => [name, ...sharing(oracle, name)])]),
    ];
    const cases = [...oracle.cases(fit, names)].filter((given) => readings.every((reading) => reading.holds(given)));
    const assumed = readAnswers(oracle, words);
    return (
      cases.length > 0 &&
      cases.every((given) => !oracle.meaning.truths(claim, { ...oracle.meaning.at(fit, given), assumed }).has(true))
    );
  };
  return settledFits(oracle).some(refutes) ? undefined : `"${words}" does not make sure that it fails`;
}

/** " · lamp, not stated: if lit": an answer that nobody has given, under which the claim fails. */
const UNSTATED = /(?:^| · )([^·]+), not stated: if ([^·]+?)(?= · |$)/g;

/** By attribute: the state that each answer says. */
function readAnswers({ content }: Oracle, words: string): ReadonlyMap<string, string> {
  return new Map(
    [...words.matchAll(UNSTATED)].map(([, item = '', state = '']) => {
      const [attribute = ''] = content.items.get(item)?.attributes.keys() ?? [];
      return [`${item}.${attribute}`, state.replaceAll(' ', '-')];
    }),
  );
}

interface CaseReading {
  readonly name: string;
  readonly holds: (given: Case) => boolean;
}

/** "sw: OFF · speed: above 1 kt", in the words of a fit; undefined where the fit has nothing of such a name. */
function readCase(oracle: Oracle, fit: Fit, words: string): CaseReading[] | undefined {
  if (words === 'any case' || words === '') return [];
  const { conditions, controls, detectors, items, sequences } = oracle.content;
  const readings: CaseReading[] = [];
  for (const part of words.split(' · ')) {
    const [title = '', value = ''] = part.split(': ');
    if (detectors.has(title)) {
      const wanted = { tripped: 'yes', 'not tripped': 'no' }[value];
      if (wanted === undefined) throw new Error(`a detector can't be "${value}"`);
      readings.push({ name: title, holds: (given) => given[title] === wanted });
      continue;
    }
    const name =
      [...conditions.keys(), ...sequences.keys()].find((id) => id === title) ??
      [...controls.keys()].find((id) => sharedName(oracle, id) === id && sharedTitle(oracle, id, [fit]) === title) ??
      [...items.keys()].map((id) => title.replace(`${id}, `, `${id}.`)).find((id) => id !== title);
    if (name === undefined || !isValueOn(oracle, fit, name, value)) return undefined;
    const reading = readValues(oracle, name, value, [fit]);
    const sharers = sharing(oracle, name);
    const names = sharers.length > 0 ? sharers : [name];
    readings.push({
      name,
      holds: (given) => {
        const own = names.find((each) => given[each] !== undefined);
        return reading(own === undefined ? ABSENT : sharedValue(oracle, own, given[own] as string));
      },
    });
  }
  return readings;
}

/** Whether words can name values of a variable on the fit: a control may stand elsewhere there, or be another. */
function isValueOn(oracle: Oracle, fit: Fit, name: string, words: string): boolean {
  if (oracle.content.conditions.get(name)?.number) return true;
  const titles = titledValues(oracle, name, [fit]).map(([, title]) => title);
  return splitList(words).every((part) => titles.includes(part));
}
