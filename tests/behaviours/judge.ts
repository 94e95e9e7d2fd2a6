/** Holds each entry of expected.yaml to what the program makes of the content. */
import { type Compiled, compileFleet, effectivityText, reportFindings } from '../../src/compile/index.ts';
import { type Diagnostic, Diagnostics, type SourceFile, severityOf, toJson } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { type AlikeEntry, type ClaimEntry, type Entry, type FindingEntry, withClaim } from './behaviour.ts';
import { judgeSound } from './judge-sound.ts';
import { judgeStage } from './judge-stage.ts';
import { behaviourCalled, judgeTable } from './judge-table.ts';
import { judgeTimeline } from './judge-timeline.ts';

export interface Checked {
  readonly files: readonly SourceFile[];
  readonly compiled: Compiled | undefined;
  readonly errors: readonly string[];
  readonly warnings: readonly { readonly code: string; readonly message: string }[];
}

export function check(files: readonly SourceFile[]): Checked {
  const diagnostics = new Diagnostics();
  const fleet = readFleet([...files], diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (compiled && !diagnostics.all.some((each) => severityOf(each) === 'error')) reportFindings(compiled, diagnostics);
  const told = (severity: 'error' | 'warning'): { code: string; message: string }[] =>
    toJson(diagnostics.all.filter((each) => severityOf(each) === severity)).map(({ code, message }) => ({
      code,
      message,
    }));
  return {
    files,
    compiled,
    errors: told('error').map(({ code, message }) => `${code} ${message}`),
    warnings: told('warning'),
  };
}

/** What is wrong with an entry: nothing where it comes out as expected. */
export function judge(checked: Checked, entry: Entry): string[] {
  const { compiled } = checked;
  if (!compiled) return ['nothing was compiled'];
  if ('item' in entry) return judgeTable(compiled, entry);
  if ('claim' in entry) return judgeClaim(checked, compiled, entry);
  if ('alike' in entry) return judgeAlike(compiled, entry);
  if ('stage' in entry) return judgeStage(compiled, entry);
  if ('finding' in entry) return checked.warnings.some((each) => isFinding(entry, each)) ? [] : ['it is not reported'];
  return 'sound' in entry ? judgeSound(compiled, entry) : judgeTimeline(compiled, entry);
}

/** The warnings that no entry expects. */
export function unexpectedWarnings({ warnings }: Checked, expected: readonly Entry[]): string[] {
  const findings = expected.filter((entry) => 'finding' in entry);
  return warnings
    .filter((warning) => !findings.some((entry) => isFinding(entry, warning)))
    .map(({ code, message }) => `${code} ${message}`);
}

function isFinding({ finding, says }: FindingEntry, { code, message }: { code: string; message: string }): boolean {
  return code === finding && says.every((words) => message.includes(words));
}

/** The claim is added to the content: it must be refused exactly where it is expected to fail. */
function judgeClaim({ files, errors, warnings }: Checked, { fleet }: Compiled, { claim, fails }: ClaimEntry): string[] {
  const diagnostics = new Diagnostics();
  const sentence = 'The claim of the test.';
  const read = readFleet([...withClaim(files, sentence, claim)], diagnostics);
  if (read) compileFleet(read, diagnostics);
  const refused = diagnostics.all.filter(
    (each): each is Diagnostic<'SL406'> => each.code === 'SL406' && factsOf(each).sentence === sentence,
  );
  const others = toJson(diagnostics.all.filter((each) => !refused.includes(each as Diagnostic<'SL406'>)))
    .map(({ code, message }) => `${code} ${message}`)
    .filter((each) => !errors.includes(each) && !warnings.some(({ code, message }) => each === `${code} ${message}`));
  const aircraft = fleet.aircraft.filter(({ registration }) => fails.includes(registration));
  const expected = fails.length > 0 ? effectivityText(fleet, aircraft) : 'none';
  const found = refused[0] ? factsOf(refused[0]).aircraft : 'none';
  return found === expected ? others : [...others, `it fails on ${found}, not on ${expected}`];
}

function factsOf(diagnostic: Diagnostic): { sentence: string; aircraft: string } {
  return diagnostic.facts as { sentence: string; aircraft: string };
}

function judgeAlike(compiled: Compiled, { alike, groups }: AlikeEntry): string[] {
  const inOrder = (some: readonly (readonly string[])[]): string =>
    some
      .map((group) => [...group].sort().join(' '))
      .sort()
      .join(' | ');
  const found = behaviourCalled(compiled, alike).groups.map(({ aircraft }) =>
    aircraft.map((each) => each.registration),
  );
  const expected = inOrder(groups);
  return inOrder(found) === expected ? [] : [`the groups are ${inOrder(found)}, not ${expected}`];
}
