/** Everything from A to Z: each word or legend that a reader may look for, with what it is and where it leads. */
import { type Compiled, legendOn } from '../../compile/index.ts';
import type { Control, Item } from '../../model/index.ts';
import {
  aircraftAddress,
  CONDITIONS,
  conditionAddress,
  controlAddress,
  detectorAnchor,
  GLOSSARY,
  itemAddress,
  LEGENDS,
  MESSAGES,
  messageAnchor,
  optionAddress,
  panelAddress,
  placeAnchor,
  sequenceAddress,
  signalAnchor,
  soundAddress,
  TERMS,
  termAnchor,
} from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { TermEntry, TermsPage } from '../book-reference.ts';
import { inAlphabet, initialOf } from '../in-alphabet.ts';
import { trailTo } from '../trail.ts';
import { legendAnchors, legendsOn } from './legends.ts';

/** One way from a word to a page. `kind` says what is found there: "control", "text of a message". */
interface Way {
  readonly text: string;
  /** As it stands on a panel or a screen. */
  readonly legend: boolean;
  readonly kind: string;
  readonly to: Listed;
}

export function termsPage(compiled: Compiled): TermsPage {
  const byText = Map.groupBy(ways(compiled), ({ text, legend }) => `${legend ? 'legend' : 'word'} ${text}`);
  const entries = [...byText.values()]
    .map((some): TermEntry => {
      const [{ text, legend }] = some as [Way];
      const once = new Map(some.map(({ kind, to }) => [`${kind} ${to.to} ${to.anchor ?? ''}`, { kind, to }]));
      return { text, legend, ways: [...once.values()] };
    })
    .toSorted((a, b) => inAlphabet(a.text, b.text) || Number(a.legend) - Number(b.legend));
  const letters = Map.groupBy(entries, ({ text }) => initialOf(text));
  return {
    kind: 'terms',
    address: TERMS,
    title: 'Index',
    trail: trailTo(),
    letters: [...letters].map(([letter, some]) => ({ id: `letter-${letter.toLowerCase()}`, letter, entries: some })),
  };
}

function ways(compiled: Compiled): Way[] {
  const { fleet } = compiled;
  const word = (text: string, kind: string, to: Listed): Way => ({ text, legend: false, kind, to });
  const titled = (each: { readonly title: string }, kind: string, to: string, anchor?: string): Way =>
    word(each.title, kind, { to, title: each.title, ...(anchor === undefined ? {} : { anchor }) });
  return [
    ...fleet.panels.map((panel) => titled(panel, 'panel', panelAddress(panel))),
    ...fleet.places.map((place) =>
      titled(place, 'place of a panel', panelAddress({ id: place.panel }), placeAnchor(place.id)),
    ),
    ...fleet.controls.flatMap((control) => [
      titled(control, control.form, controlAddress(control)),
      ...positions(compiled, control),
    ]),
    ...fleet.items.flatMap((item) => [
      titled(item, KIND[item.kind], itemAddress(item)),
      ...lampPlaces(item).map((at) => word(at, 'lamp there', { to: itemAddress(item), title: item.title })),
    ]),
    ...legends(compiled),
    ...fleet.sounds.map((sound) => titled(sound, 'sound', soundAddress(sound))),
    ...fleet.sequences.map((sequence) => titled(sequence, sequence.kind, sequenceAddress(sequence))),
    ...fleet.conditions.map((condition) => titled(condition, 'condition', conditionAddress(condition))),
    ...fleet.detectors.map((detector) =>
      titled(detector, 'detector', conditionAddress({ id: detector.number }), detectorAnchor(detector)),
    ),
    ...fleet.signals.map((signal) => titled(signal, 'signal', CONDITIONS, signalAnchor(signal.id))),
    ...fleet.options.flatMap((option) => [titled(option, 'option', optionAddress(option))]),
    ...fleet.aircraft.map((aircraft) =>
      word(aircraft.registration, aircraft.kind === 'device' ? 'training device' : 'aircraft', {
        to: aircraftAddress(aircraft),
        title: aircraft.registration,
      }),
    ),
    ...fleet.glossary.flatMap((term) => [
      titled(term, 'glossary', GLOSSARY, termAnchor(term.id)),
      ...term.also.map((also) =>
        word(also, 'another word for', { to: GLOSSARY, anchor: termAnchor(term.id), title: term.title }),
      ),
    ]),
  ];
}

const KIND: Readonly<Record<Item['kind'], string>> = {
  light: 'light',
  sign: 'sign',
  annunciator: 'annunciator',
  message: 'message',
  supply: 'supply',
};

/** What stands at the positions of a control, on any aircraft. */
function positions(compiled: Compiled, control: Control): Way[] {
  const on = compiled.settled;
  const words = control.positions.flatMap((position) => on.map((fit) => legendOn(position, fit)));
  const to = { to: controlAddress(control), title: control.title };
  return [...new Set(words)].map((text) => ({ text, legend: true, kind: 'position', to }));
}

function lampPlaces({ attributes }: Item): string[] {
  const words = attributes.flatMap(({ lamp }) => lamp?.at ?? []);
  return [...new Set(words)].map((at) => at.charAt(0).toUpperCase() + at.slice(1));
}

/** Legends that light up, and the texts of messages. */
function legends(compiled: Compiled): Way[] {
  const lit = compiled.fleet.items
    .filter(({ kind }) => kind !== 'message')
    .flatMap((item) => legendsOn(compiled, item).map((text) => ({ item, text })));
  const anchors = legendAnchors([...new Set(lit.map(({ text }) => text))].sort(inAlphabet));
  return [
    ...lit.map(({ item, text }) => ({
      text,
      legend: true,
      kind: `legend, ${KIND[item.kind]}`,
      to: { to: LEGENDS, anchor: anchors.get(text) ?? '', title: item.title },
    })),
    ...compiled.fleet.items.flatMap((item) =>
      item.kind === 'message' && item.legend !== undefined
        ? [
            {
              text: item.legend,
              legend: true,
              kind: `${item.messageClass ?? 'message'} on the screen`,
              to: { to: MESSAGES, anchor: messageAnchor(item), title: item.title },
            },
          ]
        : [],
    ),
  ];
}
