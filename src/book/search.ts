/** What can be searched for: one entry for each page that a reader may want, with the words that crews know it by. */
import { type Compiled, type Fit, legendOn, NOT_FITTED, positionsOf } from '../compile/index.ts';
import type { Control, Item, Position, Term } from '../model/index.ts';
import { GLOSSARY, termAnchor } from './addresses.ts';
import type { Address, AircraftPage, Page } from './book.ts';
import { effectivityOf } from './effectivity.ts';
import { groupOf, settledOf } from './fits.ts';

/** One thing that a search can find. */
export interface SearchEntry {
  readonly title: string;
  /** "light", "control", "message". */
  readonly kind: string;
  readonly to: Address;
  readonly anchor?: string;
  /** Where it belongs: the panel's title. */
  readonly place?: string;
  /** What stands on it or on a screen: legends, texts of messages, positions. */
  readonly legends?: readonly string[];
  /** Other words that it is known by. */
  readonly words?: readonly string[];
  /** Which aircraft have it, where not all do: "QQ-OAA to QQ-OAD, 4 aircraft". */
  readonly fits?: string;
}

/** What an aircraft was once called, and will be. */
function otherNames({ fleet }: Compiled, { serial, registration }: AircraftPage): readonly string[] {
  const { made = [], changes = [] } = fleet.aircraft.find((aircraft) => aircraft.serial === serial) ?? {};
  const names = [...made, ...changes].filter(({ option }) => option === 'registration').map(({ value }) => value);
  return names.filter((name) => name !== registration);
}

/** Of every page, in the order of the book. */
export function searchEntries(compiled: Compiled, pages: readonly Page[]): SearchEntry[] {
  /** What the glossary calls a thing: crews may know it by no other word. */
  const calledBy = (id: string): string[] =>
    compiled.fleet.glossary.filter(({ see }) => see.includes(id)).flatMap(({ title, also }) => [title, ...also]);
  return pages.flatMap((page): SearchEntry[] => {
    const base = { title: page.title, to: page.address };
    const place = page.trail.length > 1 ? { place: page.trail.at(-1)?.title ?? '' } : {};
    switch (page.kind) {
      case 'home':
      case 'moved':
        return [];
      case 'control': {
        const control = compiled.fleet.controls.find(({ id }) => id === page.id) as Control;
        return [
          {
            ...base,
            ...place,
            kind: 'control',
            ...ofControl(compiled, control),
            words: [page.form, ...calledBy(page.id)],
          },
        ];
      }
      case 'item': {
        const item = compiled.fleet.items.find(({ id }) => id === page.id) as Item;
        const kind = item.kind === 'message' && page.messageClass ? `${page.messageClass} message` : item.kind;
        const words = [
          ...calledBy(page.id),
          page.colour ?? '',
          ...page.lamps.flatMap(({ title, at = '' }) => [title, at]),
        ];
        return [{ ...base, ...place, kind, ...ofItem(compiled, item), words: words.filter((each) => each !== '') }];
      }
      case 'sound':
        return [{ ...base, ...place, kind: 'sound', words: [page.sounds] }];
      case 'sequence':
        return [
          { ...base, ...place, kind: page.latch ? 'latch' : 'sequence', words: page.modes.map(({ title }) => title) },
        ];
      case 'condition':
        return [{ ...base, kind: 'condition', words: page.values.flatMap(({ title, says }) => [title, says]) }];
      case 'option':
        return [{ ...base, kind: 'option', words: page.values.map(({ title }) => title) }];
      case 'aircraft':
        return [
          {
            ...base,
            kind: page.device ? 'training device' : 'aircraft',
            words: [page.serial, ...otherNames(compiled, page)],
          },
        ];
      case 'supply':
        return [{ ...base, ...place, kind: 'supply' }];
      case 'panel':
        return [{ ...base, kind: 'panel', words: page.places.map(({ title }) => title) }];
      case 'notice':
        return [{ ...base, kind: 'crew notice', words: [page.notice.number, 'notice'] }];
      case 'practice-set':
        return [{ ...base, kind: 'practice sheets', words: ['quiz', 'questions', 'test'] }];
      case 'changes':
        return [{ ...base, kind: 'page', words: ['revision', 'amendments', 'what is new'] }];
      case 'glossary':
        return [{ ...base, kind: 'page' }, ...compiled.fleet.glossary.map(ofTerm)];
      default:
        return [{ ...base, kind: 'page' }];
    }
  });
}

/** A term, by its other words too. */
function ofTerm({ id, title, also }: Term): SearchEntry {
  return { title, kind: 'glossary', to: GLOSSARY, anchor: termAnchor(id), words: also };
}

/** Its positions as they stand on the panel of some aircraft, and who has it. */
function ofControl(compiled: Compiled, control: Control): Pick<SearchEntry, 'legends' | 'fits'> {
  const having = compiled.fits.filter((fit) => positionsOf(control, fit).length > 0);
  const legends = settledOf(having).flatMap((fit) =>
    positionsOf(control, fit).map((at) => legendOn(control.positions[at] as Position, fit)),
  );
  return { legends: [...new Set(legends)], ...fitsText(compiled, having) };
}

/** What stands on it, or the message's text, and who has it. */
function ofItem(compiled: Compiled, item: Item): Pick<SearchEntry, 'legends' | 'fits'> {
  const having = compiled.fits.filter((fit) =>
    compiled.behaviours.some(
      (behaviour) => behaviour.item === item && groupOf(behaviour, fit).form !== compiled.diagrams.terminal(NOT_FITTED),
    ),
  );
  const { legend, legends } = item;
  const words = settledOf(having).flatMap((fit) => legendOn({ legend, legends }, fit) ?? []);
  return { ...(words.length > 0 ? { legends: [...new Set(words)] } : {}), ...fitsText(compiled, having) };
}

function fitsText(compiled: Compiled, having: readonly Fit[]): Pick<SearchEntry, 'fits'> {
  const { whole, text } = effectivityOf(compiled, having);
  return whole ? {} : { fits: text };
}
