/** All crew alerting messages in the order of their urgency, and all sounds. */
import { type Compiled, type Group, groupsOf, NOT_FITTED } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { Node } from '../../logic/index.ts';
import { type Item, type MessageClass, SHOWN } from '../../model/index.ts';
import { MESSAGES, messageAnchor, panelAddress, soundAnchor } from '../addresses.ts';
import type { Inline } from '../book.ts';
import type { MessagesPage, MessageView, OccasionGroup, SoundEntry } from '../book-reference.ts';
import type { SoundPage } from '../book-time.ts';
import { text, upperFirst } from '../cells.ts';
import { effectivity, effectivityOf } from '../effectivity.ts';
import { inAlphabet } from '../in-alphabet.ts';
import { heldBack } from '../item-facts.ts';
import { itemsNamedBy, listedItem } from '../links.ts';
import { listedReadersInTime, listedSound } from '../links-time.ts';
import { occasionsOf } from '../occasions.ts';
import { isItemOn } from '../positions.ts';
import { trailTo } from '../trail.ts';

/** After 14 CFR 25.1322(b); a plain reminder of a selection stands below its levels. */
const CLASSES: readonly { readonly messageClass: MessageClass; readonly title: string; readonly about: string }[] = [
  { messageClass: 'warning', title: 'Warnings', about: 'Know it and act at once.' },
  { messageClass: 'caution', title: 'Cautions', about: 'Know it at once; act soon.' },
  { messageClass: 'advisory', title: 'Advisories', about: 'Know it; it may have to be acted on.' },
  { messageClass: 'reminder', title: 'Reminders', about: 'Something is selected. Nothing is wrong with it.' },
];

/** `sounds` are the pages of the sounds, which say what sets each off. */
export function messagesPage(compiled: Compiled, sounds: readonly SoundPage[]): MessagesPage {
  const messages = compiled.fleet.items
    .filter(({ kind }) => kind === 'message')
    .toSorted((a, b) => inAlphabet(a.legend ?? '', b.legend ?? ''));
  const views = new Map(messages.map((item) => [item, messageView(compiled, item)]));
  const titles = [...(messages.length > 0 ? ['messages'] : []), ...(sounds.length > 0 ? ['sounds'] : [])];
  return {
    kind: 'messages',
    address: MESSAGES,
    title: upperFirst(list(titles, 'and')),
    trail: trailTo(),
    texts: [...views.values()].map(({ text: words, id, colour }) => ({
      text: words,
      anchor: id,
      ...(colour === undefined ? {} : { colour }),
    })),
    classes: CLASSES.map((each) => ({
      ...each,
      id: `class-${each.messageClass}`,
      messages: [...views].flatMap(([item, view]) => (item.messageClass === each.messageClass ? [view] : [])),
    })).filter((each) => each.messages.length > 0),
    sounds: sounds.map((page) => soundEntry(compiled, page)),
  };
}

function messageView(compiled: Compiled, item: Item): MessageView {
  const { fleet } = compiled;
  const panel = fleet.panels.find(({ id }) => id === item.panel);
  if (!panel) throw new Error(`${item.id} stands on no panel`);
  const having = compiled.fits.filter((fit) => isItemOn(item, fit));
  return {
    id: messageAnchor(item),
    text: item.legend ?? item.title,
    ...(item.colour === undefined ? {} : { colour: item.colour }),
    message: { ...listedItem(item), title: item.title },
    panel: { to: panelAddress(panel), title: panel.title },
    ...(item.about === undefined ? {} : { about: item.about }),
    on: effectivityOf(compiled, having),
    groups: raised(compiled, item),
    held: held(compiled, item),
    setsOff: [
      ...fleet.items.filter((other) => itemsNamedBy(fleet, other).includes(item)).map(listedItem),
      ...listedReadersInTime(fleet, item.id),
    ],
  };
}

/** When it is raised, by aircraft on which that is the same. */
function raised(compiled: Compiled, item: Item): OccasionGroup[] {
  const [attribute] = item.attributes;
  if (!attribute) throw new Error(`${item.id} shows nothing`);
  return groupsOf(compiled, raisedNode(compiled, item))
    .filter((group) => !isMissing(compiled, group))
    .map((group) => ({
      effectivity: effectivity(compiled.fleet, group.holders),
      occasions: occasionsOf(compiled, attribute, group, 'not-shown'),
    }));
}

export function isMissing({ diagrams }: Compiled, { form }: Group): boolean {
  return diagrams.terminals(form).every((outcome) => outcome === NOT_FITTED);
}

/**
 * What its rules make of a case without the inhibitions and the other messages that stand before them; of a latched
 * message, what latches it.
 */
export function raisedNode({ fleet, diagrams, outcomes, expressions }: Compiled, item: Item): Node {
  const shown = diagrams.terminal(outcomes.ofState(SHOWN));
  const notShown = diagrams.terminal(outcomes.ofState('not-shown'));
  const latch = fleet.sequences.find(({ id }) => id === item.latch);
  const set = latch?.transitions.find(({ to }) => to === 'set')?.guard?.when;
  const rules = (item.attributes[0]?.rules ?? []).slice(item.inhibit.length + item.suppressedBy.length);
  const own = rules.reduceRight((rest, { when, then, query }) => {
    const outcome = diagrams.terminal(query === undefined ? outcomes.ofState(then) : outcomes.ofQuery(query));
    return when ? diagrams.ite(expressions.compile(when, true), outcome, rest) : outcome;
  }, diagrams.terminal(NOT_FITTED));
  const node = set ? diagrams.ite(expressions.compile(set, true), shown, notShown) : own;
  return diagrams.ite(expressions.itemFitted(item), node, diagrams.terminal(NOT_FITTED));
}

/** What holds it back, and in one sentence what does not. */
function held(compiled: Compiled, item: Item): Inline[][] {
  const lacks = [
    ...(item.inhibit.length === 0 ? ['never held back'] : []),
    ...(item.suppressedBy.length === 0 ? ['suppressed by no other message'] : []),
    ...(item.latch === undefined ? ['not latched: it goes out with its cause'] : []),
  ];
  const last = lacks.length > 0 ? [[text(`${upperFirst(list(lacks, 'and'))}.`)]] : [];
  return [...heldBack(compiled, item), ...last];
}

function soundEntry({ fleet }: Compiled, page: SoundPage): SoundEntry {
  const sound = fleet.sounds.find(({ id }) => id === page.id);
  if (!sound) throw new Error(`no sound is called ${page.id}`);
  return {
    id: soundAnchor(sound),
    sound: listedSound(sound),
    sounds: page.sounds,
    ...(page.about === undefined ? {} : { about: page.about }),
    groups: page.groups.map(({ effectivity: on, tables }) => ({
      effectivity: on,
      sentences: tables.map(({ sentence }) => sentence),
    })),
  };
}
