/** What the author's texts ask the book to put in, beside the tables of items. */
import { type Compiled, comparable, type Fit, fitOfAircraft } from '../compile/index.ts';
import type { Expression } from '../language/index.ts';
import { type Fleet, holdsOnFit, type Quote } from '../model/index.ts';
import { aircraftAddress, controlAddress, itemAddress, optionAddress, panelAddress } from './addresses.ts';
import type { Effectivity } from './book.ts';
import type { PanelDifferences } from './book-differences.ts';
import type { OrderedChange, QuoteView } from './book-notices.ts';
import { link, text, upperFirst } from './cells.ts';
import { differences } from './differences.ts';
import { documentWords } from './documents.ts';
import { drivenBy } from './driven.ts';
import { effectivity, effectivityOf } from './effectivity.ts';

/** Every quote of notes, tours and notices, each once, by its key. */
export function quoteViews(compiled: Compiled): Map<string, QuoteView> {
  const { notes, tours, notices } = compiled.fleet;
  const all = [...notes, ...tours, ...notices].flatMap(({ quotes }) => quotes);
  const each = new Map(all.map((quote) => [quote.key, quote]));
  return new Map([...each].map(([key, quote]) => [key, quoteView(compiled, quote)]));
}

function quoteView(compiled: Compiled, quote: Quote): QuoteView {
  const { fleet } = compiled;
  switch (quote.kind) {
    case 'difference':
      return differenceQuote(compiled, quote);
    case 'aircraft':
      return { kind: 'aircraft', effectivity: fulfilling(compiled, quote.with) };
    case 'changes':
      return {
        kind: 'changes',
        document: documentWords(fleet, quote.by),
        asOf: fleet.book.date,
        changes: orderedChanges(fleet, quote.by),
      };
  }
}

/** The aircraft on which something over options holds, or may hold, now or later. */
export function fulfilling(compiled: Compiled, expression: Expression): Effectivity {
  const holds = ({ settled }: Fit): boolean => settled.some(({ options }) => holdsOnFit(expression, options) === true);
  return effectivityOf(compiled, compiled.fits.filter(holds));
}

/** The aircraft that a document changes, from the day of the change where that is still to come. */
export function changedBy(fleet: Fleet, document: string): Effectivity {
  const orders = (change: { readonly document?: string }): boolean => change.document === document;
  return effectivity(
    fleet,
    fleet.aircraft.flatMap((aircraft) => {
      const later = aircraft.changes.find(orders);
      if (aircraft.made.some(orders)) return [{ aircraft }];
      return later ? [{ aircraft, from: later.date }] : [];
    }),
  );
}

function orderedChanges(fleet: Fleet, document: string): OrderedChange[] {
  return fleet.aircraft
    .flatMap((aircraft) => [
      ...aircraft.made.map((change) => ({ aircraft, change, made: true })),
      ...aircraft.changes.map((change) => ({ aircraft, change, made: false })),
    ])
    .filter(({ change }) => change.document === document)
    .toSorted((a, b) => a.change.date.localeCompare(b.change.date))
    .map(({ aircraft, change, made }) => {
      const option = fleet.options.find(({ id }) => id === change.option);
      const value = option?.values.find(({ id }) => id === change.value)?.title ?? change.value;
      return {
        aircraft: { to: aircraftAddress(aircraft), title: aircraft.registration },
        what: [option ? link(optionAddress(option), option.title) : text('Registration'), text(`: ${value}`)],
        date: change.date,
        made,
      };
    });
}

function differenceQuote(compiled: Compiled, quote: Extract<Quote, { kind: 'difference' }>): QuoteView {
  const { fleet, fits } = compiled;
  const fitOf = (name: string): Fit => {
    const aircraft = fleet.aircraft.find(({ registration }) => registration === name);
    if (!aircraft) throw new Error(`no aircraft is called ${name}`);
    return fitOfAircraft(fits, aircraft.serial);
  };
  const names = { here: quote.on, there: quote.from };
  const all = differences(comparable(compiled), fitOf(quote.on), fitOf(quote.from), names);
  const of = compared(compiled, quote.of);
  return {
    kind: 'difference',
    title: `${upperFirst(of.title)} on ${quote.on}, against ${quote.from}`,
    names: [quote.on, quote.from],
    panels: all.flatMap((panel) => {
      const part = of.part(panel);
      const found = part.looks.length + part.notFitted.length + part.lone.length + part.differences.length;
      return found > 0 ? [part] : [];
    }),
  };
}

/** What of all that differs is about a panel, a control with what it drives, or an item. */
function compared(
  compiled: Compiled,
  id: string,
): { readonly title: string; readonly part: (panel: PanelDifferences) => PanelDifferences } {
  const { panels, controls, items } = compiled.fleet;
  const panel = panels.find((each) => each.id === id);
  if (panel) {
    const own = (each: PanelDifferences): boolean => each.panel.to === panelAddress(panel);
    return {
      title: panel.title,
      part: (each) => (own(each) ? each : { ...each, looks: [], notFitted: [], lone: [], differences: [] }),
    };
  }
  const control = controls.find((each) => each.id === id);
  const item = items.find((each) => each.id === id);
  const shared = control?.counterpart ?? control?.id;
  const own = control ? drivenBy(compiled, control).map((behaviour) => behaviour.item) : item ? [item] : [];
  const pages = new Set([...(control ? [controlAddress(control)] : []), ...own.map(itemAddress)]);
  return {
    title: (control ?? item)?.title ?? id,
    part: (each) => ({
      ...each,
      looks: each.looks.filter(({ control: thing }) => pages.has(thing.to)),
      notFitted: each.notFitted.flatMap((one) => {
        const missing = one.items.filter(({ to }) => pages.has(to));
        return missing.length > 0 ? [{ ...one, items: missing }] : [];
      }),
      lone: each.lone.filter((one) => one.of === shared),
      differences: each.differences.filter(({ item: { to } }) => pages.has(to)),
    }),
  };
}
