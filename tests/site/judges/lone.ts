/** What only one of two fits can be: a position, mode or value that no case of the other has. */
import { byClass, byTag, type Element, findAll, textOf } from '../../helpers/dom.ts';
import { ABSENT, seenCases, sharedName, sharing } from '../../helpers/seen-cases.ts';
import type { Case, Fit, Oracle } from '../../oracle/index.ts';
import type { Block, Compared } from './differences.ts';
import { type AttributeId, attributesOf, casesOf, followsItsLight, isNormalFor, stateTitle } from './groups.ts';
import { outcomeOf, predicateWords } from './outcomes.ts';
import { readClauses, readPhrases } from './sentences.ts';

const values = new WeakMap<Oracle, Map<string, ReadonlySet<string>>>();

/** The values of a variable that occur on a fit; none of a number, of which nothing is told by itself. */
function valuesOn(oracle: Oracle, fit: Fit, name: string): ReadonlySet<string> {
  const known = values.get(oracle) ?? new Map<string, ReadonlySet<string>>();
  values.set(oracle, known);
  const key = `${fit.id} ${name}`;
  const controls = sharing(oracle, name);
  const variables = controls.length > 0 ? controls : [name];
  const isTold = controls.length > 0 || oracle.content.sequences.has(name) || isNamed(oracle, name);
  const found =
    known.get(key) ?? new Set(isTold ? seenCases(oracle, fit, variables).map((given) => given[name] ?? ABSENT) : []);
  known.set(key, found);
  return found;
}

function isNamed({ content }: Oracle, name: string): boolean {
  const condition = content.conditions.get(name);
  return condition !== undefined && !condition.number;
}

/** Whether a variable has a value on one of the two alone, though both have the variable. */
export function isLone(oracle: Oracle, fits: Compared, name: string, value: string): boolean {
  const [here, there] = fits.map((fit) => [...valuesOn(oracle, fit, name)].filter((each) => each !== ABSENT));
  if (value === ABSENT || !here?.length || !there?.length) return false;
  return here.includes(value) !== there.includes(value);
}

/** Faults of the parts about single values: each such value that changes an item has one, with true sentences on all of them. */
export function judgeLone(
  blocks: readonly Block[],
  oracle: Oracle,
  fits: Compared,
  isAsked: (name: string) => boolean,
): string[] {
  const names = [
    ...oracle.content.controls.keys(),
    ...oracle.content.sequences.keys(),
    ...oracle.content.conditions.keys(),
  ];
  const shared = [...new Set(names.map((name) => sharedName(oracle, name)))].filter(isAsked);
  const lone = shared.flatMap((name) =>
    [...new Set(fits.flatMap((fit) => [...valuesOn(oracle, fit, name)]))]
      .filter((value) => isLone(oracle, fits, name, value))
      .map((value) => ({
        name,
        value,
        side: valuesOn(oracle, fits[0], name).has(value) ? (0 as const) : (1 as const),
      })),
  );
  const used = new Set<Block>();
  const faults = lone.flatMap(({ name, value, side }) => {
    const fit = fits[side];
    const about = blocks.filter(({ element }) => {
      const [reading] = readPhrases(oracle, titleOf(element), [fit]);
      return reading?.[0] === name && reading[1](value);
    });
    for (const block of about) used.add(block);
    const ids = attributesOf(oracle).filter((id) => reads(oracle, id, fit, name) && !followsItsLight(oracle, id));
    if (about.length !== (ids.length > 0 ? 1 : 0)) return [`${about.length} parts on ${name} ${value}`];
    return about.flatMap((block) => {
      const verdict = textOf(byClass(block.element, 'verdict')[0] as Element);
      const wrong = verdict === `Only possible on ${block.names[side]}` ? [] : [`says ${verdict}`];
      return [...wrong, ...judgeSays(block, oracle, ids, fit, name, value)];
    });
  });
  return [
    ...faults,
    ...blocks.filter((block) => !used.has(block)).map(({ element }) => `tells of "${titleOf(element)}" for nothing`),
  ];
}

/** The words of a heading before its verdict, as a sentence has them. */
function titleOf(element: Element): string {
  const heading = findAll(element, ({ tagName }) => /^h[345]$/.test(tagName))[0] as Element;
  const words = textOf(heading).replace(` ${textOf(byClass(heading, 'verdict')[0] as Element)}`, '');
  return words.charAt(0).toLowerCase() + words.slice(1);
}

/** Whether an attribute depends on a variable on a fit: some other value, in the same case, gives another state or no case. */
function reads(oracle: Oracle, { item, attribute }: AttributeId, fit: Fit, name: string): boolean {
  return oracle.ownVariables(item, attribute, [fit]).some((each) => sharedName(oracle, each) === name);
}

/** Every item in one sentence, which is true in every normal case. */
function judgeSays(
  block: Block,
  oracle: Oracle,
  ids: readonly AttributeId[],
  fit: Fit,
  name: string,
  value: string,
): string[] {
  const sentences = byTag(byClass(block.element, 'says')[0] as Element, 'li').map((each) => {
    const links = textOf(byClass(each, 'tables')[0] as Element);
    return textOf(each).slice(0, -links.length).trim();
  });
  return ids.flatMap((id) => {
    const item = oracle.content.items.get(id.item);
    const attribute = item?.attributes.get(id.attribute);
    if (!item || !attribute || !oracle.isFitted(fit, id.item)) return [];
    const noun =
      item.kind === 'message'
        ? `the message ${item.title}`
        : attribute.lamp
          ? `the ${attribute.title} of ${item.noun}`
          : item.noun;
    const all = casesOf(oracle, id, fit).filter((given) => given[name] === value);
    // The value itself may be an abnormal one.
    const isNormal = isNormalFor(oracle, id, fit);
    const rest = (given: Case): Case => Object.fromEntries(Object.entries(given).filter(([each]) => each !== name));
    const normal = all.filter((given) => isNormal(rest(given)));
    const cases = normal.length > 0 ? normal : all;
    const found = sentences.filter(
      (words) =>
        words.toLowerCase().includes(`${noun.toLowerCase()} `) ||
        words.toLowerCase().includes(`${noun.toLowerCase()},`),
    );
    const states = new Set(cases.map((given) => stateTitle(oracle, id, fit, given)));
    const [given] = cases;
    if (states.size === 1 && given) {
      const seen = outcomeOf(oracle, id, fit, given);
      const right = found.some((words) =>
        ['is', 'are'].some((verb) => words.endsWith(` ${predicateWords(oracle, id, seen, verb)}.`)),
      );
      return right ? [] : [`no sentence says that ${noun} ${[...states].join()}`];
    }
    const verb = item.kind !== 'message' && item.plural && !attribute.lamp ? 'are' : 'is';
    const lead = `${noun.charAt(0).toUpperCase()}${noun.slice(1)} `;
    // Said of several at once, the verb is in the plural.
    const own = found.flatMap((words) => {
      const alone = words.startsWith(lead) && /^(?:is|are|may) /.test(words.slice(lead.length));
      if (alone) return [{ rest: words.slice(lead.length), verb }];
      const [, rest] = /^The .*? and the .*? ((?:are|may be) .*)$/.exec(words) ?? [];
      return rest === undefined ? [] : [{ rest, verb: 'are' }];
    });
    return own.length === 1
      ? own.flatMap((one) => readClauses(one.rest, one.verb, oracle, id, fit, cases))
      : [`${own.length} sentences on ${noun}`];
  });
}
