/** Crew notices in the book: who is affected, what is current, which pages lead to them, and what their texts put in. */
import { describe, expect, it } from 'vitest';
import { makeBook, type NoticePage, type NoticesPage, plain } from '../../src/book/index.ts';
import { compileFleet } from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { quoteKey } from '../../src/model/index.ts';
import { filesOf, read } from '../model/small-content.ts';

const notice = (number: string, expires: string, more: string, body = 'Look twice.') =>
  `---\nnumber: ${number}\ntitle: Notice ${number}\ndate: 2026-09-01\nexpires: ${expires}\n${more}---\n${body}\n`;

const { fleet, reported } = read(
  filesOf({
    'sources.yaml': 'D-1: { title: Document 1, revision: A }\nEO-1: { title: Order 1, revision: B }\n',
    'modifications.csv':
      'serial,option,value,date,document\n101,lamp-control,automatic,2026-09-01,EO-1\n102,lamp-control,manual,2026-11-01,EO-1\n',
    'notices/a.md': notice('1', '2026-12-31', 'changed-by: EO-1\n', '::changes{by="EO-1"}'),
    'notices/b.md': notice('2', '2026-10-01', 'for: lamp-control is manual\nabout: [lamp]\n'),
    'notices/c.md': notice('3', '2026-09-30', 'about: [lamp]\n'),
    'notices/d.md': notice(
      '4',
      '2027-01-01',
      '',
      'See [](ref:switch).\n\n::aircraft{with="lamp-control is manual"}\n\n::difference{of="switch" on="QQ-OAA" from="QQ-OAB"}',
    ),
  }),
);
const compiled = fleet && compileFleet(fleet, new Diagnostics());
if (reported.length > 0 || !compiled) throw new Error('the content is sound');
const book = makeBook(compiled);
const page = (address: string) => book.pages.find((each) => each.address === address);
const noticePage = (name: string) => page(`notices/${name}.html`) as NoticePage;
const leads = (address: string) => page(address)?.notices?.map(({ number }) => number) ?? [];

describe('a notice', () => {
  it('affects whom its document changes, each from its own day on', () => {
    expect(noticePage('a').effectivity.text).toBe('QQ-OAA; QQ-OAB from 2026-11-01');
    expect(plain(noticePage('a').because)).toBe('changed by Order 1, revision B');
  });

  it('affects the aircraft with an option, now or later', () => {
    expect(noticePage('b').effectivity.aircraft.map(({ registration, from }) => [registration, from])).toEqual([
      ['QQ-OAB', '2026-11-01'],
    ]);
  });

  it('affects all aircraft where it says nothing of them', () => {
    expect(noticePage('d').effectivity.whole).toBe(true);
  });

  it('is current to the end of its last day, and the latest stands first', () => {
    const { current, expired } = page('notices.html') as NoticesPage;
    expect(current.map(({ number }) => number)).toEqual(['4', '2', '1']);
    expect(expired.map(({ number }) => number)).toEqual(['3']);
  });

  it('is led to from what it is about, what its text names and its aircraft, while it is current', () => {
    expect(leads('lights/lamp.html')).toEqual(['2']);
    expect(leads('controls/switch.html')).toEqual(['4']);
    expect(leads('aircraft/101.html')).toEqual(['1']);
    expect(leads('aircraft/102.html')).toEqual(['1', '2']);
    expect(leads('conditions/bus.html')).toEqual([]);
  });

  it('is found by its number', () => {
    expect(book.search.find(({ to }) => to === 'notices/a.html')).toMatchObject({
      kind: 'crew notice',
      words: ['1', 'notice'],
    });
  });
});

describe('what a text asks for', () => {
  it('are the changes of a document in the order of their days, made or to come', () => {
    expect(book.quotes.get(quoteKey('changes', { by: 'EO-1' }))).toMatchObject({
      asOf: '2026-10-01',
      changes: [
        { aircraft: { title: 'QQ-OAA' }, date: '2026-09-01', made: true },
        { aircraft: { title: 'QQ-OAB' }, date: '2026-11-01', made: false },
      ],
    });
  });

  it('are the aircraft on which something holds', () => {
    const quote = book.quotes.get(quoteKey('aircraft', { with: 'lamp-control is manual' }));
    expect(quote?.kind === 'aircraft' && quote.effectivity.text).toBe('QQ-OAB from 2026-11-01');
  });

  it('is that nothing differs where nothing does', () => {
    const quote = book.quotes.get(quoteKey('difference', { of: 'switch', on: 'QQ-OAA', from: 'QQ-OAB' }));
    expect(quote).toMatchObject({ kind: 'difference', title: 'Switch on QQ-OAA, against QQ-OAB', panels: [] });
  });
});
