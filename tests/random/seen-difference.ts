/** How two fits differ on an attribute by the guide, out of what the oracle says of each. */
import { absentValue, type Compiled, type Verdict } from '../../src/compile/index.ts';
import type { Fit, Oracle } from '../oracle/index.ts';
import { type Levels, positionValue } from './both.ts';
import { keyOf, type SeenCases } from './seen-behaviour.ts';

interface Side {
  readonly fit: Fit;
  readonly levels: readonly number[];
  readonly cases: SeenCases;
}
interface Pair {
  readonly at: Levels;
  readonly here: string;
  readonly there: string;
}

const CANNOT = 'impossible';

/**
 * Each case of either fit with what both say. A control that only one of them has stands nowhere on the other, which
 * behaves the same whatever its position.
 */
export function expectedDifference(
  compiled: Compiled,
  oracle: Oracle,
  a: Side,
  b: Side,
): { readonly verdict: Verdict; readonly cases: readonly Pair[] } {
  const settings = ({ fit, levels }: Side): Settings =>
    new Map(levels.map((level) => [level, settingsOn(compiled, oracle, level, fit)]));
  const [ours, theirs] = [settings(a), settings(b)];
  const here = spread(a.cases, ours, theirs);
  const there = spread(b.cases, theirs, ours);
  const cases = [...new Map([...here, ...there])].map(([key, { at }]) => ({
    at,
    here: here.get(key)?.said ?? CANNOT,
    there: there.get(key)?.said ?? CANNOT,
  }));
  return { verdict: verdictOf(a, b, cases), cases };
}

/** By level: what a control's variable can be on a fit, and what it is where the control is absent. Nothing for others. */
type Settings = ReadonlyMap<number, { readonly values: readonly number[]; readonly absent: number } | undefined>;

function settingsOn({ space }: Compiled, oracle: Oracle, level: number, fit: Fit) {
  const meaning = space.meanings[level];
  if (meaning?.kind !== 'control') return undefined;
  const absent = absentValue(meaning);
  const values = oracle.candidates(fit).flatMap((one) => {
    const positions = meaning.controls.flatMap(({ id }) =>
      oracle.valuesOn(one, id).map((position) => positionValue(meaning, id, position)),
    );
    return positions.length > 0 ? positions : [absent];
  });
  return { values: [...new Set(values)], absent };
}

/** The cases of one fit in the positions of the controls that only the other has. */
function spread(cases: SeenCases, own: Settings, other: Settings): Map<string, { at: Levels; said: string }> {
  let all = [...cases.values()].map(({ at, expected }) => ({ at, said: expected }));
  for (const [level, setting] of own) {
    const elsewhere = other.get(level)?.values ?? [];
    const lacksIt = setting?.values.every((value) => value === setting.absent);
    if (!setting || !lacksIt || elsewhere.every((value) => value === setting.absent)) continue;
    all = all.flatMap(({ at, said }) => elsewhere.map((value) => ({ at: new Map([...at, [level, value]]), said })));
  }
  return new Map(all.map((each) => [keyOf(each.at), each]));
}

function verdictOf(a: Side, b: Side, cases: readonly Pair[]): Verdict {
  const differing = cases.filter(({ here, there }) => here !== there);
  const isMissing = ({ cases: all }: Side): boolean =>
    [...all.values()].every(({ expected }) => expected === 'not fitted');
  if (differing.length === 0) return 'alike';
  if (isMissing(a) && isMissing(b)) return 'alike';
  if (isMissing(a) || isMissing(b)) return isMissing(a) ? 'not fitted here' : 'not fitted there';
  const common = differing.filter(({ here, there }) => here !== CANNOT && there !== CANNOT);
  if (common.length > 0) {
    const order = ['differs', 'may differ', 'stated here only', 'stated there only'] as const;
    const found = new Set(common.map(verdictOfCase));
    return order.find((verdict) => found.has(verdict)) ?? 'differs';
  }
  if (differing.every(({ there }) => there === CANNOT)) return 'only possible here';
  return differing.every(({ here }) => here === CANNOT) ? 'only possible there' : 'other cases';
}

function verdictOfCase({ here, there }: Pair): Verdict {
  const isOpen = (text: string): boolean => /^not stated [\w-]+$/.test(text);
  if (isOpen(here) !== isOpen(there)) return isOpen(here) ? 'stated there only' : 'stated here only';
  const states = (text: string): string[] =>
    text
      .replace(/^depends on .*: /, '')
      .split(/\/| or /)
      .filter((each) => !isOpen(each) && each !== 'not fitted' && each !== CANNOT);
  return states(there).some((state) => states(here).includes(state)) ? 'may differ' : 'differs';
}
