/** Crew notices as they are read. What is wrong with them is told by tests/fixtures/SL520 to SL527. */
import { describe, expect, it } from 'vitest';
import { print } from '../../src/language/index.ts';
import { quoteKey } from '../../src/model/index.ts';
import { filesOf, read } from './small-content.ts';

const notice = (number: string, more = '', body = 'Look twice.') =>
  `---\nnumber: ${number}\ntitle: Notice ${number}\ndate: 2026-09-01\nexpires: 2026-12-31\n${more}---\n${body}\n`;
const CHANGED = {
  'sources.yaml': 'D-1: { title: Document 1, revision: A }\nEO-1: { title: Order 1, revision: A }\n',
  'modifications.csv':
    'serial,option,value,date,document\n101,lamp-control,automatic,2026-09-01,EO-1\n102,lamp-control,manual,2026-11-01,EO-1\n',
};

describe('notices', () => {
  const { fleet, reported } = read(
    filesOf({
      ...CHANGED,
      'notices/tenth.md': notice('26-10', 'changed-by: EO-1\nissued-by: the office\n'),
      'notices/second.md': notice(
        '26-2',
        'for: lamp-control is manual\nabout: [lamp]\n',
        ':checked[Without supply it is dark.]{holds="bus is lost implies lamp is dark"}\n\n::changes{by="EO-1"}\n\n::aircraft{with="lamp-control is manual"}\n\n::difference{of="lamp" on="QQ-OAA" from="QQ-OAB"}',
      ),
    }),
  );
  const [second, tenth] = fleet?.notices ?? [];

  it('stand in the order of their numbers, whatever their files are called', () => {
    expect(reported).toEqual([]);
    expect([second, tenth].map((each) => [each?.name, each?.number])).toEqual([
      ['second', '26-2'],
      ['tenth', '26-10'],
    ]);
  });

  it('keep their dates, who issues them, whom they are for and what they are about', () => {
    expect(tenth).toMatchObject({
      date: '2026-09-01',
      expires: '2026-12-31',
      issuedBy: 'the office',
      changedBy: 'EO-1',
    });
    expect(tenth?.for).toBeUndefined();
    expect(second?.for && print(second.for)).toBe('lamp-control is manual');
    expect(second?.about).toEqual(['lamp']);
  });

  it('carry claims and what they ask the book to put in', () => {
    expect(second?.claims.map(({ sentence }) => sentence)).toEqual(['Without supply it is dark.']);
    expect(second?.quotes.map(({ key }) => key)).toEqual([
      quoteKey('changes', { by: 'EO-1' }),
      quoteKey('aircraft', { with: 'lamp-control is manual' }),
      quoteKey('difference', { of: 'lamp', on: 'QQ-OAA', from: 'QQ-OAB' }),
    ]);
  });

  it('know what has been changed by the book’s date and what comes later', () => {
    const changes = fleet?.aircraft.map(({ made, changes: later }) =>
      [made, later].map((some) => some.map(({ date, document }) => [date, document])),
    );
    expect(changes).toEqual([
      [[['2026-09-01', 'EO-1']], []],
      [[], [['2026-11-01', 'EO-1']]],
    ]);
  });
});
