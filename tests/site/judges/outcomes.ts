/** The words for what can be seen of an item in a case, as tables and as sentences say it. */
import { caseOn } from '../../helpers/seen-cases.ts';
import type { Case, Fit, Oracle, Outcome } from '../../oracle/index.ts';
import type { AttributeId } from './groups.ts';

type Seen = Outcome | 'not-fitted';

/** What is seen on each fit that one may be: several where a detector may answer either way, none where it can't happen. */
export interface SeenOutcome {
  readonly ways: readonly (readonly Seen[])[];
  /** Titles of the unknown options that it depends on. */
  readonly options: readonly string[];
}

const outcomes = new WeakMap<Oracle, Map<string, WeakMap<Case, SeenOutcome>>>();

/** Each is found once for a case of `casesOf`: several pages say the same. */
export function outcomeOf(oracle: Oracle, id: AttributeId, fit: Fit, seen: Case): SeenOutcome {
  const known = outcomes.get(oracle) ?? new Map<string, WeakMap<Case, SeenOutcome>>();
  outcomes.set(oracle, known);
  const key = [id.item, id.attribute, fit.id].join(' ');
  const byCase = known.get(key) ?? new WeakMap<Case, SeenOutcome>();
  known.set(key, byCase);
  const found = byCase.get(seen) ?? findOutcome(oracle, id, fit, seen);
  byCase.set(seen, found);
  return found;
}

function findOutcome(oracle: Oracle, id: AttributeId, fit: Fit, seen: Case): SeenOutcome {
  const all = oracle.candidates(fit).map((one) => ({ options: one.options, way: wayOn(oracle, id, one, seen) }));
  const ways = [...new Map(all.map(({ way }) => [JSON.stringify(way), way])).values()];
  if (ways.length === 1) return { ways, options: [] };
  const unknown = [...oracle.content.options.keys()].filter((option) => fit.options[option] === 'unknown');
  // One alone decides where changing it alone makes a difference; else all do that can be changed.
  const alone = unknown.filter((option) =>
    all.some((a) =>
      all.some(
        (b) =>
          JSON.stringify(a.way) !== JSON.stringify(b.way) &&
          unknown.every((other) => (a.options[other] === b.options[other]) === (other !== option)),
      ),
    ),
  );
  const open = unknown.filter((option) => new Set(all.map(({ options }) => options[option])).size > 1);
  const options = (alone.length > 0 ? alone : open).map((option) => oracle.content.options.get(option)?.title ?? '');
  return { ways, options };
}

function wayOn(oracle: Oracle, { item, attribute }: AttributeId, fit: Fit, seen: Case): readonly Seen[] {
  if (!oracle.isFitted(fit, item)) return ['not-fitted'];
  const given = caseOn(oracle, fit, seen);
  return given ? oracle.behaviour(fit, item, attribute, given).outcomes : [];
}

/** As a cell has it: "lit", "may be dark or lit", "not stated (Q-1)", "dark or lit: depends on Corner fit". */
export function outcomeWords(oracle: Oracle, id: AttributeId, { ways, options }: SeenOutcome): string {
  if (options.length === 0) return wayWords(oracle, id, ways[0] ?? []);
  return `${possibleWords(oracle, id, ways)}: depends on ${listed(options, 'and')}`;
}

/** As a sentence has it: "is lit", "may be dark or lit", "is in a state that is not stated (Q-1)". */
export function predicateWords(oracle: Oracle, id: AttributeId, { ways, options }: SeenOutcome, verb: string): string {
  const named = `the option${options.length === 1 ? '' : 's'} ${listed(options, 'and')}`;
  if (options.length > 0) return `${verb} ${possibleWords(oracle, id, ways)}, depending on ${named}`;
  const [way = []] = ways;
  const [only] = way;
  if (way.length > 1) return wayWords(oracle, id, way);
  if (typeof only === 'object' && 'notStated' in only)
    return `${verb} in a state that is not stated (${only.notStated})`;
  return `${verb} ${wayWords(oracle, id, way)}`;
}

/** "dark or lit where it can happen". */
function possibleWords(oracle: Oracle, id: AttributeId, ways: readonly (readonly Seen[])[]): string {
  const possible = ways.filter((way) => way.length > 0);
  const rank = (way: readonly Seen[]): number => (way.length === 1 ? rankOf(oracle, id, way[0]!) : LAST);
  const words = possible.toSorted((a, b) => rank(a) - rank(b)).map((way) => wayWords(oracle, id, way));
  return listed(words, 'or') + (possible.length < ways.length ? ' where it can happen' : '');
}

function wayWords(oracle: Oracle, id: AttributeId, way: readonly Seen[]): string {
  if (way.length === 0) return 'cannot happen';
  const words = way
    .toSorted((a, b) => rankOf(oracle, id, a) - rankOf(oracle, id, b))
    .map((each) => seenWords(oracle, id, each));
  return words.length > 1 ? `may be ${listed(words, 'or')}` : (words[0] ?? '');
}

const LAST = 1_000;

/** States in the authors' order, then what is no state. */
function rankOf(oracle: Oracle, id: AttributeId, outcome: Seen): number {
  const at = typeof outcome === 'string' ? [...statesOf(oracle, id).keys()].indexOf(outcome) : -1;
  return at < 0 ? LAST : at;
}

function seenWords(oracle: Oracle, id: AttributeId, outcome: Seen): string {
  if (outcome === 'not-fitted') return 'not fitted';
  if (typeof outcome === 'string') return statesOf(oracle, id).get(outcome)?.title ?? outcome;
  if ('notStated' in outcome) return `not stated (${outcome.notStated})`;
  throw new Error(`${id.item}.${id.attribute} has no state: ${JSON.stringify(outcome)}`);
}

function statesOf({ content }: Oracle, { item, attribute }: AttributeId) {
  return content.items.get(item)?.attributes.get(attribute)?.states ?? new Map<string, { readonly title: string }>();
}

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[], last: string): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}
