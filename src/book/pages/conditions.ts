/** All conditions, numbers with their detectors, signals, and what never happens together. */
import { type Compiled, groupsOf } from '../../compile/index.ts';
import { type Expression, referencesOf } from '../../language/index.ts';
import { type Attribute, overridesOf, type Signal } from '../../model/index.ts';
import { CONDITIONS, conditionAddress, itemAddress, signalAnchor } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { ConditionsPage, OccasionGroup, SignalView } from '../book-reference.ts';
import { detectorOrder, detectorViews } from '../detectors.ts';
import { effectivity } from '../effectivity.ts';
import { expressionWords } from '../expression-words.ts';
import { citations, listedCondition, listedItem } from '../links.ts';
import { listedNames, listedReadersInTime } from '../links-time.ts';
import { occasionOf, occasionsOf } from '../occasions.ts';
import { trailTo } from '../trail.ts';
import { rangeWords, valueViews } from './condition.ts';

export function conditionsPage(compiled: Compiled): ConditionsPage {
  const { fleet } = compiled;
  return {
    kind: 'conditions',
    address: CONDITIONS,
    title: fleet.signals.length > 0 ? 'Conditions and signals' : 'Conditions',
    trail: trailTo(),
    conditions: fleet.conditions
      .filter(({ values }) => values !== undefined)
      .map((condition) => ({ condition: listedCondition(condition), values: valueViews(condition) })),
    numbers: fleet.conditions.flatMap((condition) => {
      if (!condition.number) return [];
      const to = conditionAddress(condition);
      return [
        {
          condition: listedCondition(condition),
          range: rangeWords(condition.number),
          detectors: detectorViews(compiled, condition).map(({ id, title, trips }) => ({
            detector: { to, anchor: id, title },
            trips,
          })),
          order: detectorOrder(compiled, condition),
        },
      ];
    }),
    signals: fleet.signals.map((signal) => signalView(compiled, signal)),
    never: fleet.never.map((each) => ({
      alternatives: occasionOf(compiled, each.expression, compiled.fits).alternatives,
      citations: citations(fleet, [each]),
    })),
  };
}

export function listedSignal({ id, title }: Signal): Listed {
  return { to: CONDITIONS, anchor: signalAnchor(id), title, detail: 'signal' };
}

function signalView(compiled: Compiled, signal: Signal): SignalView {
  const { fleet } = compiled;
  const named = fleet.signals.filter((other) => mentions(signal.expression, other.id));
  return {
    id: signalAnchor(signal.id),
    title: signal.title,
    ...(signal.about === undefined ? {} : { about: signal.about }),
    words: expressionWords(fleet, signal.expression),
    groups: trueCases(compiled, signal),
    reads: [...named.map(listedSignal), ...listedNames(fleet, [signal.expression])],
    readBy: readersOf(compiled, signal),
    citations: citations(fleet, [signal]),
  };
}

/** A signal as something with two states, so that it is told as lights and messages are. */
function trueCases(compiled: Compiled, signal: Signal): OccasionGroup[] {
  const { diagrams, outcomes, expressions, fleet } = compiled;
  const { place } = signal;
  const states = ['true', 'false'].map((id) => ({ id, title: id, glyph: 'none', place }) as const);
  const attribute: Attribute = { id: 'signal', title: signal.title, states, policy: 'any', rules: [], place };
  const [yes, no] = states.map(({ id }) => diagrams.terminal(outcomes.ofState(id)));
  if (yes === undefined || no === undefined) throw new Error('a signal has two states');
  return groupsOf(compiled, diagrams.ite(expressions.compile(signal.expression), yes, no)).map((group) => ({
    effectivity: effectivity(fleet, group.holders),
    occasions: occasionsOf(compiled, attribute, group, 'false'),
  }));
}

/** Whoever names it: other signals, items, overrides by the first item that they touch, sequences and sounds. */
function readersOf({ fleet }: Compiled, { id }: Signal): Listed[] {
  const items = fleet.items.filter((item) =>
    item.attributes.some(({ rules }) => rules.some(({ when }) => when && mentions(when, id))),
  );
  const overrides = fleet.overrides
    .filter(({ when }) => mentions(when, id))
    .flatMap((override): Listed[] => {
      const item = fleet.items.find((each) =>
        each.attributes.some((attribute) => overridesOf([override], each, attribute).length > 0),
      );
      if (!item) return [];
      return [{ to: itemAddress(item), anchor: `override-${override.id}`, title: override.title, detail: 'override' }];
    });
  return [
    ...fleet.signals.filter(({ expression }) => mentions(expression, id)).map(listedSignal),
    ...items.map(listedItem),
    ...overrides,
    ...listedReadersInTime(fleet, id),
  ];
}

function mentions(expression: Expression, signal: string): boolean {
  return referencesOf(expression).some(({ kind, id }) => kind === 'signal' && id === signal);
}
