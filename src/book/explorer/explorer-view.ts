/** A case that is followed, as the page shows it: what can be moved, what the last step changed, what goes on by itself. */
import type { Act, Fit, SettledFit, Situation } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import { soundAddress } from '../addresses.ts';
import type { CaseView, OpenView, WaitView } from '../book-explorer.ts';
import { variableAddress } from '../cells.ts';
import { noteOf, onDay } from '../comparison/comparison.ts';
import type { ExploredFleet } from './explored-fleet.ts';
import { inputViews, levelTitle, movedInputs, setInputs } from './explored-inputs.ts';
import { changedItems, itemsByPanel, shownItems } from './explored-items.ts';
import { actOf, followed, supposeStep, waitStep } from './steps.ts';

export interface FollowedCase {
  readonly view: CaseView;
  /** How many of the steps can be followed. */
  readonly followed: number;
}

/** The case to which steps lead on an aircraft on a day (an ISO date); undefined where it is not in the fleet. */
export function followedCase(
  fleet: ExploredFleet,
  serial: string,
  day: string,
  steps: readonly string[],
): FollowedCase | undefined {
  const { explorer, aircraft } = fleet;
  const found = onDay({ aircraft, fits: explorer.fleet.fits }, serial, day);
  if (!found) return undefined;
  const situations = followed(explorer, explorer.start(found.fit), steps);
  const [start] = situations as [Situation];
  const now = situations.at(-1) ?? start;
  const before = situations.at(-2);
  const on = settledOn(fleet, now);
  const outcomes = explorer.outcomes(now, found.fit);
  const normal = explorer.outcomes(start, found.fit);
  const last = before && actOf(explorer.fleet, steps[situations.length - 2] ?? '');
  const moved = before ? movedInputs(fleet, before, now, on) : [];
  const changed = before ? changedItems(fleet, explorer.outcomes(before, found.fit), outcomes) : [];
  const sounds = before && last ? heardSounds(fleet, before, last) : [];
  const modes = before ? changedModes(fleet, before, now) : [];
  return {
    followed: situations.length - 1,
    view: {
      registration: found.registration,
      notes: [
        ...noteOf(found).map((note) => note.replace(' is compared as it is ', ' is shown as it is ')),
        ...unknownNotes(fleet, found.fit, now),
      ],
      ...(last ? { last: lastWords(fleet, last, moved) } : {}),
      moved: [...moved, ...modes],
      changed,
      sounds,
      brief: briefly([...modes, ...changed], sounds),
      shows: shownItems(fleet, outcomes, normal),
      open: openViews(fleet, now),
      waits: waitViews(fleet, now),
      sequences: explorer.fleet.space.meanings.flatMap((meaning, level) => {
        const words = meaning.kind === 'sequence' ? modeWords(fleet, now, level) : '';
        return words === ''
          ? []
          : [{ what: { to: variableAddress(meaning), title: levelTitle(fleet, level, on) }, mode: words }];
      }),
      panels: itemsByPanel(fleet, outcomes),
      inputs: inputViews(fleet, start, now, on),
      set: setInputs(fleet, start, now, on),
    },
  };
}

function settledOn({ explorer }: ExploredFleet, situation: Situation): SettledFit[] {
  return explorer.fits(situation).flatMap((index) => explorer.fleet.on[index]?.fit ?? []);
}

/** What is not known of the aircraft, and what a step has made it to be. */
function unknownNotes(fleet: ExploredFleet, { unknown, settled }: Fit, situation: Situation): string[] {
  const left = settledOn(fleet, situation);
  return unknown.flatMap((id) => {
    const option = fleet.explorer.fleet.fleet.options.find((each) => each.id === id);
    const titles = (fits: readonly SettledFit[]): string[] => {
      const values = new Set(fits.map(({ options }) => options.get(id)));
      return (option?.values ?? []).filter((value) => values.has(value.id)).map(({ title }) => title);
    };
    const [all, now] = [titles(settled), titles(left)];
    if (!option) return [];
    return now.length < all.length
      ? [`${option.title} is not known. From here on it is taken to be ${list(now)}: otherwise the case could not be.`]
      : [`${option.title} is not known: it may be ${list(all)}. Where that matters, it is said.`];
  });
}

/** "running", "starting or running". */
function modeWords({ explorer }: ExploredFleet, situation: Situation, level: number): string {
  const meaning = explorer.fleet.space.meanings[level];
  if (meaning?.kind !== 'sequence') return '';
  const { modes } = meaning.sequence;
  return list(explorer.open(situation, level).flatMap((mode) => modes[mode]?.title ?? []));
}

function changedModes(fleet: ExploredFleet, before: Situation, now: Situation): CaseView['moved'] {
  return fleet.explorer.fleet.space.meanings.flatMap((meaning, level) => {
    if (meaning.kind !== 'sequence') return [];
    const [was, is] = [before, now].map((each) => modeWords(fleet, each, level)) as [string, string];
    const what = { to: variableAddress(meaning), title: meaning.sequence.title };
    return was === is || is === ''
      ? []
      : [{ what, before: { glyph: 'none' as const, text: was }, after: { glyph: 'none' as const, text: is } }];
  });
}

function lastWords(fleet: ExploredFleet, last: Act, moved: CaseView['moved']): string {
  if (last.kind === 'wait') return 'Time has passed.';
  if (last.kind === 'suppose') return `Supposed: ${levelTitle(fleet, last.level, [])}.`;
  return moved.map(({ what, before, after }) => `${what.title}: ${before.text} → ${after.text}`).join('; ');
}

function heardSounds({ explorer }: ExploredFleet, before: Situation, last: Act): CaseView['sounds'] {
  return explorer.heard(before, last).flatMap(({ at, certain }) => {
    const sound = explorer.fleet.sounds[at]?.sound;
    return sound ? [{ what: { to: soundAddress(sound), title: sound.title }, words: sound.sounds, certain }] : [];
  });
}

function briefly(changes: CaseView['changed'], sounds: CaseView['sounds']): string {
  const heard = sounds.map(({ what, certain }) => `${certain ? 'Heard' : 'May be heard'}: ${what.title}.`);
  return [...heard, changesInShort(changes)].join(' ');
}

function changesInShort(changes: CaseView['changed']): string {
  if (changes.length === 0) return 'Nothing else changes.';
  const told = changes.slice(0, 3).map(({ what, after }) => `${what.title}: ${after.text}`);
  const more = changes.length - told.length;
  return `${told.join('. ')}${more > 0 ? `, and ${more} more` : ''}.`;
}

function waitViews(fleet: ExploredFleet, situation: Situation): WaitView[] {
  const { explorer, delays } = fleet;
  return explorer.waits(situation).flatMap(({ leap, certain }) => {
    const one = explorer.fleet.leaps[leap];
    const meaning = explorer.fleet.space.meanings[one?.level ?? -1];
    if (!one || meaning?.kind !== 'sequence') return [];
    const { modes, title } = meaning.sequence;
    const [from, to] = [one.from, one.to].map((mode) => modes[mode]?.title ?? '');
    return [
      {
        step: waitStep(explorer.fleet, one),
        words: `${title} goes on to ${to}`,
        sequence: { to: variableAddress(meaning), title },
        modes: `${from} to ${to}`,
        delay: delays[leap] ?? '',
        perhaps: !certain,
      },
    ];
  });
}

/** Detectors within their tolerance, and modes that came of one. */
function openViews({ explorer }: ExploredFleet, situation: Situation): OpenView[] {
  const { space, detectors, unstated } = explorer.fleet;
  const isAsked = [...unstated.keys()].some((level) => explorer.open(situation, level).length > 1);
  return space.meanings.flatMap((meaning, level) => {
    if (meaning.kind !== 'detector' && meaning.kind !== 'sequence') return [];
    const open = explorer.open(situation, level);
    if (open.length < 2) return [];
    const number = space.meanings[detectors.find((each) => each.level === level)?.number ?? -1];
    const [title, words] =
      meaning.kind === 'detector'
        ? [meaning.detector.title, 'Within its tolerance: it may have tripped or not.']
        : [meaning.sequence.title, isAsked ? 'It hangs on what is not stated.' : 'It hangs on what is open.'];
    const answers = open.map((value) => ({
      step: supposeStep(explorer.fleet, level, value),
      words:
        meaning.kind === 'sequence'
          ? (meaning.sequence.modes[value]?.title ?? '')
          : value === 1
            ? 'tripped'
            : 'not tripped',
    }));
    return [
      {
        what: { to: variableAddress(meaning.kind === 'sequence' || !number ? meaning : number), title },
        words,
        answers,
      },
    ];
  });
}
