/** What is seen to differ when something is lost: one row for all that goes the same way, on the same aircraft. */
import { type Behaviour, type Compiled, type Fit, IMPOSSIBLE } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import { minimalCover, type Node, sparse } from '../logic/index.ts';
import type { Attribute } from '../model/index.ts';
import { attributeTitle } from './attributes.ts';
import type { Inline, Listed, StateView } from './book.ts';
import type { LossKind, LossRow } from './book-supplies.ts';
import { severalStates, stateView, text } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { listedItem } from './links.ts';
import { type Cause, lossForm } from './loss-forms.ts';
import { cubeWords } from './phrases.ts';

const KINDS: readonly LossKind[] = ['lost', 'moved', 'dark', 'other', 'message'];

/** What one behaviour becomes on one fit. */
interface Change {
  readonly kind: LossKind;
  readonly normally: readonly StateView[];
  readonly then: StateView;
  readonly when: readonly Inline[];
}

/** All that differs, in the order of the kinds; what is always so before what is so in some cases. */
export function lossRows(compiled: Compiled, cause: Cause): LossRow[] {
  const single = compiled.behaviours.flatMap((behaviour) => {
    const found = compiled.fits.flatMap((fit) =>
      changesOn(compiled, behaviour, fit, cause).map((change) => ({ fit, change })),
    );
    return [...Map.groupBy(found, ({ change }) => JSON.stringify(change)).values()].map((alike) => {
      const [{ change }] = alike as [(typeof alike)[number]];
      const effectivity = effectivityOf(
        compiled,
        alike.map(({ fit }) => fit),
      );
      return { behaviour, change, effectivity };
    });
  });
  const alike = Map.groupBy(single, ({ change, effectivity }) => JSON.stringify([change, effectivity.text]));
  const rows = [...alike.values()].map((some): LossRow => {
    const [{ change, effectivity }] = some as [(typeof some)[number]];
    return { ...change, items: itemsOf(some.map(({ behaviour }) => behaviour)), effectivity };
  });
  return KINDS.flatMap((kind) => {
    const own = rows.filter((row) => row.kind === kind);
    return [...own.filter(({ when }) => when.length === 0), ...own.filter(({ when }) => when.length > 0)];
  });
}

/** Lamps of one light in one go: "Position lights: left lamp and right lamp". */
function itemsOf(behaviours: readonly Behaviour[]): Listed[] {
  const groups = Map.groupBy(behaviours, ({ item, attribute }) => (attribute.lamp ? item.id : attribute));
  return [...groups.values()].map((some) => {
    const [first] = some as [Behaviour];
    const listed = listedItem(first.item);
    if (some.length === 1) return { ...listed, title: attributeTitle(first) };
    const lamps = some.map(({ attribute }) => attribute.title);
    return { ...listed, title: `${first.item.title}: ${list(lamps, 'and')}` };
  });
}

/** What it becomes in some normal case, each with the cases in which it does. */
function changesOn(compiled: Compiled, behaviour: Behaviour, fit: Fit, cause: Cause): Change[] {
  const { diagrams, outcomes } = compiled;
  const form = lossForm(compiled, behaviour, fit, cause);
  if (form === undefined) return [];
  const pairs = diagrams
    .terminals(form)
    .filter((pair) => pair !== IMPOSSIBLE)
    .map((pair) => ({ pair, was: outcomes.pair(pair)[0], then: outcomes.pair(pair)[1] }));
  const changed = pairs.filter(({ was, then }) => was !== then);
  const results = [...new Set(changed.map(({ then }) => then))].sort((a, b) => outcomes.compare(a, b));
  // A row may be about items of several colours.
  const view = (outcome: number): StateView => {
    const { colour: _, ...plainView } = stateView(compiled, behaviour.attribute, outcome);
    return plainView;
  };
  return results.map((result) => {
    const to = changed.filter(({ then }) => then === result);
    // Where it is so anyhow, the words may say so too.
    const casesOf = (some: readonly { readonly pair: number }[]): Node =>
      diagrams.or(...some.map(({ pair }) => diagrams.casesOf(form, pair)));
    const not = casesOf(pairs.filter(({ then }) => then !== result));
    return {
      kind: kindOf(behaviour, view(result)),
      normally: normally(
        compiled,
        behaviour.attribute,
        [...new Set(to.map(({ was }) => was))].sort((a, b) => outcomes.compare(a, b)),
        view,
      ),
      then: view(result),
      when: not === diagrams.no ? [] : when(compiled, casesOf(to), not, fit),
    };
  });
}

/** "Lit, or may be dark": of what may be either, only what is not said beside it. */
function normally(
  compiled: Compiled,
  attribute: Attribute,
  was: readonly number[],
  view: (outcome: number) => StateView,
): StateView[] {
  return was.map((outcome) => {
    const meaning = compiled.outcomes.meaning(outcome);
    const unsaid = meaning.kind === 'either' ? meaning.of.filter((each) => !was.includes(each)) : [];
    return unsaid.length === 0
      ? view(outcome)
      : { ...view(outcome), text: `may be ${severalStates(compiled, attribute, unsaid)}` };
  });
}

function kindOf({ item }: Behaviour, { text: state, glyph }: StateView): LossKind {
  if (item.kind === 'message') return 'message';
  if (item.kind === 'supply') return state === 'lost' ? 'lost' : 'moved';
  return glyph === 'dark' ? 'dark' : 'other';
}

/** The fewest alternatives that hold in the cases of the first set and in none of the second. */
function when({ diagrams, ...compiled }: Compiled, on: Node, off: Node, fit: Fit): Inline[] {
  const columns = [...new Set([on, off].flatMap((node) => diagrams.support(node)))].sort((a, b) => a - b);
  const { cubes } = minimalCover(diagrams, columns, on, off);
  return sparse(diagrams, columns, cubes, on).flatMap((cube, at) => [
    ...(at === 0 ? [] : [text(', or ')]),
    ...cubeWords({ diagrams, ...compiled }, columns, cube, fit.settled),
  ]);
}
