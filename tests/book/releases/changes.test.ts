/** What a revision changed, out of small contents with one thing edited at a time. */
import { describe, expect, it } from 'vitest';
import type { ChangesPage } from '../../../src/book/book-changes.ts';
import { makeBook, plain, releaseText } from '../../../src/book/index.ts';
import { compiledFiles } from '../../helpers/compiled-folder.ts';
import { releaseOf } from '../../helpers/releases.ts';

type Files = Readonly<Record<string, string>>;
type Edit = readonly [file: string, from: string, to: string];

const BASE: Files = {
  'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "2"\ndate: 2026-06-01\nbaseline: "1"\n',
  'options.yaml': `kit:
  title: Kit
  values: { none: {}, small: {}, large: {} }
`,
  'aircraft.csv': `serial,registration,from,to,kit
1,QQ-ONE,2020-01-01,,none
2,QQ-TWO,2020-01-01,,small
3,QQ-TRE,2020-01-01,,large
`,
  'modifications.csv': 'serial,option,value,date,document\n',
  'sources.yaml': 'EO-1: { title: Engineering order 1, revision: A }\n',
  'queries.yaml': `Q-1:
  title: The lamp on the ground
  question: Is it lit?
  to: somebody
  asked: 2026-01-02
`,
  'conditions.yaml': `conditions:
  gear:
    title: Gear
    values: { down: { says: with the gear down }, up: { says: with the gear up } }
  bus:
    title: Bus
    normal: powered
    values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } }
  speed:
    title: Speed
    number: { unit: kt, from: 0, to: 400, step: 1 }
`,
  'panels/p.yaml': `panel: p
title: Panel
controls:
  sw:
    title: Lamp switch
    form: toggle
    positions: { OFF: {}, AUTO: {}, ON: {} }
  kn:
    title: Knob
    form: knob
    fitted: kit is not none
    positions: { LOW: {}, HIGH: {} }
items:
  lamp:
    kind: light
    title: Lamp
    control: sw
    about: It stands on the roof.
    source: { document: EO-1 }
    policy: first
    rules:
      - { when: bus is lost, then: dark }
      - { when: sw is ON, then: lit }
      - { when: sw is AUTO and gear is down and speed < 100 kt, then: lit }
      - otherwise: dark
  spot:
    kind: light
    title: Spot
    fitted: kit is not none
    control: kn
    policy: first
    rules:
      - { when: kn is HIGH and gear is down, then: not stated, query: Q-1 }
      - { when: kn is HIGH, then: lit }
      - otherwise: dark
`,
};

function withEdits(files: Files, edits: readonly Edit[]): Files {
  return edits.reduce((all, [file, from, to]) => {
    const text = all[file] ?? '';
    if (!text.includes(from)) throw new Error(`${file} has no "${from}"`);
    return { ...all, [file]: text.replaceAll(from, to) };
  }, files);
}

const FIRST: Edit[] = [['book.yaml', 'revision: "2"\ndate: 2026-06-01', 'revision: "1"\ndate: 2026-03-01']];

/** The page of changes of a content, where the revision before had these edits. */
function changesFrom(before: readonly Edit[], now: readonly Edit[] = []) {
  const release = releaseOf(compiledFiles(withEdits(BASE, [...FIRST, ...before])));
  const book = makeBook(compiledFiles(withEdits(BASE, now)), [release]);
  const page = book.pages.find((each): each is ChangesPage => each.kind === 'changes');
  if (!page) throw new Error('there is no page of changes');
  return { book, page, found: told(page) };
}

/** The page in short. */
function told({ aircraft, panels, lists }: ChangesPage) {
  return {
    aircraft: aircraft.map((one) => {
      const names = one.aircraft.map(plain).join(', ');
      return `${names}: ${plain(one.what)}: ${one.before} > ${one.now}; ${plain(one.because)}`;
    }),
    differences: panels.flatMap(({ differences }) =>
      differences.map(({ what, effectivity }) => {
        const rows = what.table.rows.map(({ cells, results }) =>
          [...cells.map(({ text }) => plain(text)), results.map(({ text }) => text).join(' > ')].join(' | '),
        );
        return `${what.item.title} ${what.verdict} on ${effectivity.text}: ${rows.join('; ')}`;
      }),
    ),
    looks: panels.flatMap(({ looks }) =>
      looks.map(({ what }) => `${what.control.title}: ${plain(what.here)} > ${plain(what.baseline)}`),
    ),
    lone: panels.flatMap(({ lone }) => lone.map(({ what }) => `${plain(what.title)}: ${what.verdict}`)),
    missing: panels.flatMap(({ notFitted }) =>
      notFitted.map(({ what }) => `${what.verdict}: ${what.items.map(({ title }) => title).join(', ')}`),
    ),
    lists: Object.fromEntries(
      lists.map(({ id, kinds }) => [
        id,
        kinds.map(
          ({ kind, entries }) =>
            `${kind}: ${entries
              .map(({ words, before, now }) =>
                [plain(words), ...before.map((line) => `- ${line}`), ...now.map((line) => `+ ${line}`)].join(' '),
              )
              .join(', ')}`,
        ),
      ]),
    ),
  };
}

const NOTHING = { aircraft: [], differences: [], looks: [], lone: [], missing: [], lists: {} };

describe('what a revision changed', () => {
  it('is nothing where only the revision is another', () => {
    const { page, found, book } = changesFrom([]);
    expect(found).toEqual(NOTHING);
    expect(page.title).toBe('Changes since revision 1');
    expect(page.summary).toEqual(['Nothing that the book says has changed between revision 1 and revision 2.']);
    expect(book.pages.filter((each) => each.changed)).toEqual([]);
  });

  it('is a rule, told once for all aircraft, in the cells of both revisions', () => {
    const { found } = changesFrom([['panels/p.yaml', 'speed < 100 kt', 'speed < 80 kt']]);
    expect(found).toEqual({
      ...NOTHING,
      differences: ['Lamp Differs on the whole fleet: AUTO | down | powered | from 80 kt, below 100 kt | dark > lit'],
    });
  });

  it('is an answer to a query, and a query that is asked', () => {
    const answer: Edit[] = [
      ['panels/p.yaml', 'then: not stated, query: Q-1', 'then: lit'],
      ['queries.yaml', 'asked: 2026-01-02', 'asked: 2026-01-02\n  answered: { date: 2026-02-02, answer: It is. }'],
    ];
    expect(changesFrom([], answer).found).toEqual({
      ...NOTHING,
      differences: [
        'Spot Stated in revision 2 only on QQ-TWO and QQ-TRE, 2 aircraft: HIGH | down | not stated (Q-1) > lit',
      ],
      lists: { words: ['Queries: The lamp on the ground: answered now'] },
    });
    expect(changesFrom(answer).found.differences).toEqual([
      'Spot Stated in revision 1 only on QQ-TWO and QQ-TRE, 2 aircraft: HIGH | down | lit > not stated (Q-1)',
    ]);
  });

  it('is a modification, with its day and document, whether it was known before or not', () => {
    const made: Edit = ['modifications.csv', 'document\n', 'document\n1,kit,small,2026-05-04,EO-1\n'];
    const row = (told: string): string[] => [
      `QQ-ONE since 2026-05-04: Kit: none > small; Engineering order 1, revision A${told}`,
    ];
    const known = changesFrom([made], [made]).found;
    expect(known.aircraft).toEqual(row('; told of in the earlier revision'));
    expect(known.missing).toEqual(['Not fitted in revision 1: Spot']);
    expect(changesFrom([], [made]).found.aircraft).toEqual(row(''));
  });

  it('is an aircraft that is new, gone or registered otherwise', () => {
    const { found } = changesFrom(
      [
        ['aircraft.csv', '3,QQ-TRE', '4,QQ-FOR'],
        ['aircraft.csv', 'QQ-TWO', 'QQ-OLD'],
      ],
      [],
    );
    expect(found.aircraft).toEqual([
      'QQ-TWO: Registration: QQ-OLD > QQ-TWO; ',
      'QQ-TRE: Aircraft: not in this book > in this book; ',
      'QQ-FOR: Aircraft: in this book > not in this book; ',
    ]);
    expect(found.differences).toEqual([]);
  });

  it('is what is new, gone, called otherwise and said otherwise', () => {
    const { found } = changesFrom([
      ['panels/p.yaml', '  spot:\n    kind: light\n    title: Spot', '  glow:\n    kind: light\n    title: Glow'],
      ['panels/p.yaml', 'title: Knob', 'title: Dial'],
      ['panels/p.yaml', 'It stands on the roof.', 'It hangs from the roof.'],
      ['sources.yaml', 'revision: A', 'revision: "0"'],
      ['conditions.yaml', 'with the gear up', 'with the wheels up'],
    ]);
    expect(found).toEqual({
      ...NOTHING,
      lists: {
        new: ['Lights: Spot'],
        gone: ['Lights: Glow'],
        renamed: ['Controls: Knob, before: Dial'],
        words: ['Lights: Lamp', 'Conditions: Gear', 'Sources: Engineering order 1: revision A, before: 0'],
      },
    });
  });

  it('is told line by line of what is not compared case by case', () => {
    const more: Edit[] = [
      [
        'panels/p.yaml',
        'items:\n',
        `sequences:
  timer:
    title: Timer
    noun: the timer
    initial: idle
    modes:
      idle: { says: with the timer idle }
      counting: { says: while the timer counts }
    transitions:
      - { from: idle, to: counting, when: sw is ON }
      - { from: counting, to: idle, after: 30 s }
sounds:
  chime:
    title: Chime
    sounds: single chime
    triggers:
      - { moves: sw, to: "ON" }
      - { becomes: bus is lost, while: gear is up }
items:
`,
      ],
      [
        'conditions.yaml',
        'conditions:\n',
        `detectors:
  fast: { title: Fast, trips: speed > 200 kt, tolerance: 5, says: with fast tripped, says-not: without fast }
conditions:
`,
      ],
    ];
    const files = (edits: readonly Edit[]): Edit[] => [...more, ...edits];
    const { found } = changesFrom(
      files([]),
      files([
        ['panels/p.yaml', 'after: 30 s', 'after: 40 s +/- 2 s'],
        ['panels/p.yaml', 'becomes: bus is lost, while: gear is up', 'becomes: bus is lost'],
        ['conditions.yaml', 'speed > 200 kt', 'speed > 210 kt'],
      ]),
    );
    expect(found.lists).toEqual({
      words: [
        'Sounds: Chime - as it becomes so: with the bus lost; while it is so: with the gear up + as it becomes so: with the bus lost',
        'Detectors: Fast - Trips above 200 kt, with a tolerance of 5 kt. + Trips above 210 kt, with a tolerance of 5 kt.',
        'Sequences: Timer - counting to idle: after 30 s in the mode + counting to idle: after 40 s ± 2 s in the mode',
      ],
    });
  });

  it('is not an id that was renamed and says what it was called', () => {
    const { found } = changesFrom(
      [
        ['panels/p.yaml', 'kn:', 'old-knob:'],
        ['panels/p.yaml', 'control: kn', 'control: old-knob'],
        ['panels/p.yaml', 'kn is', 'old-knob is'],
        ['panels/p.yaml', 'HIGH', 'MUCH'],
        ['panels/p.yaml', '  lamp:\n    kind', '  old-lamp:\n    kind'],
        ['options.yaml', 'small', 'little'],
        ['aircraft.csv', 'small', 'little'],
        ['conditions.yaml', '  gear:', '  wheels:'],
        ['panels/p.yaml', 'gear is', 'wheels is'],
      ],
      [
        ['panels/p.yaml', 'title: Knob', 'title: Knob\n    formerly: [old-knob]'],
        ['panels/p.yaml', 'HIGH: {}', 'HIGH: { legend: MUCH, formerly: [MUCH] }'],
        ['panels/p.yaml', 'title: Lamp\n', 'title: Lamp\n    formerly: [old-lamp]\n'],
        ['options.yaml', 'small: {}', 'small: { title: little, formerly: [little] }'],
        ['conditions.yaml', 'title: Gear', 'title: Gear\n    formerly: [wheels]'],
      ],
    );
    expect(found).toEqual(NOTHING);
  });

  it('is a position and a value that were not there', () => {
    const { found } = changesFrom([
      ['panels/p.yaml', 'OFF: {}, AUTO: {}, ON: {}', 'OFF: {}, ON: {}'],
      ['panels/p.yaml', '      - { when: sw is AUTO and gear is down and speed < 100 kt, then: lit }\n', ''],
    ]);
    expect(found.looks).toEqual(['Lamp switch: Two positions: OFF, ON > Three positions: OFF, AUTO, ON']);
    expect(found.lone).toEqual(['With the lamp switch at AUTO: Only possible in revision 2']);
    expect(found.differences).toEqual([]);
  });

  it('is told without links to pages that are no more', () => {
    const { page, found } = changesFrom([
      [
        'panels/p.yaml',
        'items:\n',
        '  old:\n    title: Old switch\n    form: toggle\n    positions: { IN: {}, OUT: {} }\nitems:\n',
      ],
      ['panels/p.yaml', 'when: sw is ON, then: lit', 'when: sw is ON and old is OUT, then: lit'],
    ]);
    const [{ what } = { what: undefined }] = page.panels.flatMap(({ differences }) => differences);
    expect(what?.table.columns.map(({ title }) => title)).toContainEqual([{ kind: 'text', text: 'Old switch' }]);
    expect(found.lists).toEqual({ gone: ['Controls: Old switch'] });
    expect(JSON.stringify(page)).not.toContain('controls/old.html');
  });

  it('is compared although a condition has become a number, and a control counts as another one', () => {
    const { found } = changesFrom(
      [
        [
          'conditions.yaml',
          'number: { unit: kt, from: 0, to: 400, step: 1 }',
          'values: { slow: { says: while it is slow }, fast: { says: while it is fast } }',
        ],
        ['panels/p.yaml', 'speed < 100 kt', 'speed is slow'],
      ],
      [
        [
          'panels/p.yaml',
          'fitted: kit is not none\n    positions: { LOW: {}, HIGH: {} }',
          'fitted: kit is not none\n    positions: { LOW: {}, HIGH: {} }\n  dial:\n    title: Dial\n    form: dial\n    fitted: kit is none\n    counterpart: kn\n    positions: { MIN: { as: LOW }, MAX: { as: HIGH } }',
        ],
      ],
    );
    expect(found.lists['new']).toEqual(['Controls: Dial']);
    expect(found.differences.map((each) => each.replace(/:.*/, ''))).toEqual(['Lamp Differs on the whole fleet']);
  });
});

it('is compared although controls that counted as one count as a third one', () => {
  const dial = (head: string): string =>
    `  dial:\n    title: Dial\n    form: dial\n    fitted: kit is none\n    counterpart: ${head}\n    positions: { MIN: { as: LOW }, MAX: { as: HIGH }, EXTRA: {} }\n`;
  const { found } = changesFrom(
    [['panels/p.yaml', 'items:\n', `${dial('kn')}items:\n`]],
    [
      [
        'panels/p.yaml',
        'fitted: kit is not none\n    positions: { LOW: {}, HIGH: {} }',
        'fitted: kit is small\n    counterpart: wheel\n    positions: { LOW: { as: LOW }, HIGH: { as: HIGH } }',
      ],
      [
        'panels/p.yaml',
        'items:\n',
        `  wheel:\n    title: Wheel\n    form: wheel\n    fitted: kit is large\n    positions: { LOW: {}, HIGH: {} }\n${dial('wheel')}items:\n`,
      ],
      ['panels/p.yaml', '    fitted: kit is not none\n    control: kn', '    fitted: kit is small\n    control: kn'],
    ],
  );
  expect(found.lists['new']).toEqual(['Controls: Wheel']);
  expect(found.missing).toEqual(['Not fitted in revision 2: Spot']);
});

describe('marks of what has changed', () => {
  const { book } = changesFrom([['panels/p.yaml', 'speed < 100 kt', 'speed < 80 kt']]);
  const marked = (address: string): string[] => {
    const views = book.tables.get(address) ?? [];
    return views.flatMap(({ groups }) =>
      groups.flatMap(({ normal, abnormal }) =>
        [normal, abnormal].flatMap((table) =>
          (table?.rows ?? []).filter(({ changed }) => changed).map(({ key, result }) => `${key}: ${result.text}`),
        ),
      ),
    );
  };

  it('stand at the rows of which a case was otherwise', () => {
    expect(marked('lamp')).toEqual(['AUTO_down_below-100-kt: lit']);
    expect(marked('spot')).toEqual([]);
  });

  it('lead from pages to the page of changes', () => {
    const told = new Map(book.pages.flatMap(({ address, changed }) => (changed ? [[address, changed] as const] : [])));
    expect([...told.keys()]).toEqual(['lights/lamp.html']);
    const { to, anchor } = told.get('lights/lamp.html') ?? {};
    const page = book.pages.find((each): each is ChangesPage => each.address === to && each.kind === 'changes');
    expect(page?.panels.flatMap(({ differences }) => differences.map(({ what }) => what.id))).toContain(anchor);
  });

  it('do not stand where only an aircraft was modified', () => {
    const modified = changesFrom([], [['aircraft.csv', '1,QQ-ONE,2020-01-01,,none', '1,QQ-ONE,2020-01-01,,small']]);
    expect(modified.found.missing).toEqual(['Not fitted in revision 1: Spot']);
    const rows = [...modified.book.tables.values()]
      .flat()
      .flatMap(({ groups }) => groups.flatMap(({ normal }) => normal?.rows ?? []));
    expect(rows.length).toBeGreaterThan(4);
    expect(rows.filter(({ changed }) => changed)).toEqual([]);
  });
});

it('each earlier revision has a page, the last one the page of changes', () => {
  const releases = ['1', '0'].map((revision) => ({
    ...releaseOf(compiledFiles(withEdits(BASE, FIRST))),
    ...{ revision, name: revision },
  }));
  const pages = makeBook(compiledFiles(BASE), releases).pages.filter(
    (each): each is ChangesPage => each.kind === 'changes',
  );
  expect(pages.map(({ address, others }) => [address, others.map(({ to }) => to)])).toEqual([
    ['changes.html', ['changes/since-0.html']],
    ['changes/since-0.html', ['changes.html']],
  ]);
});

describe('the order of columns', () => {
  const columnsOf = (orders: Record<string, readonly string[]> | undefined): string[] => {
    const { orders: _, ...release } = releaseOf(compiledFiles(withEdits(BASE, FIRST)));
    const book = makeBook(compiledFiles(BASE), [{ ...release, ...(orders ? { orders } : {}) }]);
    const table = book.tables.get('lamp')?.[0]?.groups[0]?.normal;
    expect(table?.rows).toHaveLength(5);
    return (table?.columns ?? []).map(({ title }) => plain(title));
  };
  const key = 'lamp-lamp-1 normal sw';

  it('is that of the last release while it costs no row', () => {
    expect(releaseOf(compiledFiles(BASE)).orders?.[key]).toEqual(['sw', 'gear', 'speed']);
    expect(columnsOf(undefined)).toEqual(['Lamp switch', 'Gear', 'Speed']);
    expect(columnsOf({ [key]: ['sw', 'gear', 'speed'] })).toEqual(['Lamp switch', 'Gear', 'Speed']);
    expect(columnsOf({ [key]: ['sw', 'speed', 'gear'] })).toEqual(['Lamp switch', 'Speed', 'Gear']);
    // What is no more is passed over, what is new comes last.
    expect(columnsOf({ [key]: ['sw', 'gone', 'speed'] })).toEqual(['Lamp switch', 'Speed', 'Gear']);
  });

  it('is another where the last one would cost a row', () => {
    expect(columnsOf({ [key]: ['gear', 'speed', 'sw'] })).toEqual(['Lamp switch', 'Gear', 'Speed']);
  });

  it('goes on from release to release', () => {
    const release = { ...releaseOf(compiledFiles(withEdits(BASE, FIRST))), orders: { [key]: ['sw', 'speed', 'gear'] } };
    const { book } = JSON.parse(releaseText(compiledFiles(BASE), release));
    expect(book.orders[key]).toEqual(['sw', 'speed', 'gear']);
  });
});
