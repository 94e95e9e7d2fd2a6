/** What the pages of sequences and timelines say, against the content, Mermaid and the oracle. */
import { describe, expect, test } from 'vitest';
import { plain, type SequencePage } from '../../src/book/index.ts';
import { readMermaidStates } from '../helpers/mermaid-graph.ts';
import { loadOracle, replay } from '../oracle/index.ts';
import { inTimeBook, inTimeFolder, pageAt } from './in-time.ts';

const { book, compiled } = inTimeBook();
const { fleet } = compiled;
const oracle = loadOracle(inTimeFolder);
const pages = book.pages.filter((page): page is SequencePage => page.kind === 'sequence');
const unit = pageAt(book, 'sequence', 'sequences/unit.html');

test('every sequence and latch has a page, and the list leads to each', () => {
  expect(pages.map(({ id }) => id)).toEqual(fleet.sequences.map(({ id }) => id));
  const list = pageAt(book, 'sequences', 'sequences.html');
  expect([...list.sequences, ...list.latches].map(({ to }) => to).sort()).toEqual(
    pages.map(({ address }) => address).sort(),
  );
});

describe.each(pages.map((page) => [page.id, page] as const))('the diagram of %s', (id, page) => {
  const sequence = fleet.sequences.find((each) => each.id === id);
  if (!sequence) throw new Error(`no sequence is called ${id}`);
  const wanted = sequence.transitions.flatMap(({ from, to }, index) =>
    from.map((mode) => `${mode} > ${to} ${index + 1}`),
  );
  const finals = sequence.modes.filter(({ final }) => final).map((mode) => `${mode.id} > end`);
  const idOf = new Map(page.diagram.vertices.map((vertex, at) => [vertex.id, sequence.modes[at]?.id ?? '']));

  test('has an edge for each transition from each mode, and no other', () => {
    const edges = page.diagram.edges.map(({ from, to, number }) => `${idOf.get(from)} > ${idOf.get(to)} ${number}`);
    expect(edges).toEqual(wanted);
  });

  test('says the same as text that Mermaid reads', async () => {
    const { states, transitions } = await readMermaidStates(page.diagram.mermaid);
    expect(states.map(({ text }) => text)).toEqual(sequence.modes.map(({ title }) => title));
    const named = transitions.map(({ from, to, label }) => {
      const ends = [from, to].map((end) => idOf.get(end) ?? end).join(' > ');
      return label === '' ? ends : `${ends} ${/^\d+/.exec(label)?.[0]}`;
    });
    expect(named).toEqual([`start > ${sequence.initial}`, ...wanted, ...finals]);
    for (const { from, label } of transitions.filter((each) => each.label !== '')) {
      const row = page.transitions.find(({ number }) => label.startsWith(`${number}, `));
      expect(row?.from).toContain(states.find((state) => state.id === from)?.text);
      expect(label).toContain(row && plain(row.delay));
    }
  });
});

test('transitions say what they wait for, in the order of priority', () => {
  const said = unit.transitions.map(
    ({ number, from, to, waits, delay }) =>
      `${number} ${from.join(', ')} > ${to}: ${plain(waits)} | ${plain(delay) || 'at once'}`,
  );
  expect(said).toEqual([
    '1 starting, running > tripped: with the essential bus lost | at once',
    '2 starting > tripped: with the starter charge at 0 min or below | at once',
    '3 stopped > starting: while Unit may run holds with the unit control at START | at once',
    '4 starting > running: in every case | 2 s after this begins: with the unit speed at 95 % or above',
    '5 running > cooling: with the unit control at STOP | after 10 s in the mode',
    '6 cooling > stopped: in every case | after 60 s ± 5 s in the mode',
  ]);
  expect(unit.signals.map(({ title, words }) => `${title}: ${plain(words)}`)).toEqual([
    'Unit may run: with the essential bus powered and the unit control not at STOP',
  ]);
  expect(unit.stores.map(({ title, range }) => `${title}: ${range}`)).toEqual([
    'Starter charge: 0 to 3 min, 3 min at first',
  ]);
  expect(unit.stores[0]?.flows.map(({ rate, when }) => `${rate} ${plain(when)}`)).toEqual([
    'fills by 0.5 min a minute with the main bus powered',
    'drains by 1 min a minute while the unit is starting',
  ]);
});

test('a sequence names what reads it and what it reads', () => {
  expect(unit.items.map(({ title }) => title)).toEqual(['READY annunciator']);
  expect(unit.sounds.map(({ title }) => title)).toEqual([]);
  expect(unit.reads.map(({ title }) => title)).toEqual(['Essential bus', 'Unit control', 'Unit speed', 'Main bus']);
  const latch = pageAt(book, 'sequence', 'sequences/main-bus-lost-latch.html');
  expect(latch.latch).toBe(true);
  expect(latch.messages.map(({ title }) => title)).toEqual(['Main bus lost']);
});

test('modes are marked, and say where they are reached', () => {
  const marks = unit.modes.map(({ title, marks: words, reached }) => [title, words.join(', '), reached?.text]);
  expect(marks).toEqual([
    ['stopped', 'at first', 'the whole fleet'],
    ['starting', '', 'the whole fleet'],
    ['running', '', 'the whole fleet'],
    ['cooling', '', 'the whole fleet'],
    ['tripped', 'final', 'the whole fleet'],
  ]);
});

describe('a timeline', () => {
  const [start] = unit.timelines;
  const alone = pageAt(book, 'sequences', 'sequences.html');

  test('stands on the page of the first sequence that it shows, or else on the list', () => {
    expect(unit.timelines.map(({ title }) => title)).toEqual(['A start, and a stop with cooling']);
    expect(alone.own.map(({ title }) => title)).toEqual(['The essential bus is lost, and comes back']);
    expect(alone.timelines.map(({ to, anchor }) => `${to}#${anchor}`)).toEqual([
      'sequences/unit.html#timeline-start-and-stop',
      'sequences.html#timeline-bus-fault',
    ]);
  });

  test('has the steps of a run that was worked out by hand', () => {
    // Started at 5 s; 95 % at 20 s and 2 s more make it run at 22 s; 10 s in that mode are over at 32 s; 60 s of cooling
    // end at 92 s, by their tolerance between 87 s and 97 s.
    const rows = start?.steps.map(
      ({ time, inputs, changes, states }) =>
        `${time} | ${inputs.map(plain).join('; ')} | ${changes.join('; ')} | ${states.map(({ state }) => state.text).join(', ')}`,
    );
    expect(rows).toEqual([
      '0 s | Unit control RUN |  | stopped, dark',
      '5 s | Unit control START | Unit: stopped → starting | starting, dark',
      '6 s | Unit control RUN |  | starting, dark',
      '20 s | Unit speed 95 % |  | starting, dark',
      '22 s |  | Unit: starting → running | running, lit',
      '24 s | Unit control STOP |  | running, lit',
      '32 s |  | Unit: running → cooling | cooling, dark',
      '92 s |  | Unit: cooling → stopped, between 87 s and 97 s | stopped, dark',
    ]);
    expect(start?.tolerant).toBe(true);
  });

  test.each([...unit.timelines, ...alone.own].map((each) => [each.title, each] as const))(
    'has in every step what the oracle has: %s',
    (title, view) => {
      const timeline = fleet.timelines.find((each) => each.title === title);
      if (!timeline) throw new Error(`no timeline has the title ${title}`);
      const course = replay(oracle, timeline.id);
      for (const { time, states } of view.steps) {
        const seconds = time.replace(/ s$/, '');
        const wanted = timeline.shows.map(({ id, attribute }) =>
          attribute === undefined ? course.modeAt(id, seconds) : course.stateAt(id, attribute, seconds),
        );
        expect(`${time} ${states.map(({ state }) => state.text)}`).toBe(`${time} ${wanted}`);
      }
    },
  );

  test('draws each row without a gap, from the first time to the last', () => {
    for (const { rows, times, steps } of [...unit.timelines, ...alone.own]) {
      expect(times).toEqual([...steps.map(({ time }) => time), times.at(-1)]);
      for (const { spans } of rows) {
        expect(spans[0]?.from).toBe(0);
        expect(spans.at(-1)?.to).toBe(times.length - 1);
        spans.slice(1).forEach((span, before) => {
          expect(span.from).toBe(spans[before]?.to);
          expect(span.state).not.toEqual(spans[before]?.state);
        });
      }
    }
  });
});
