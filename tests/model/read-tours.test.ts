/** Tours as they are read: their stops, what is said there, and what is wrong with them. */
import { toString as wordsOf } from 'mdast-util-to-string';
import { describe, expect, it } from 'vitest';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { print } from '../../src/language/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { filesOf, read } from './small-content.ts';

const FRONT = '---\ntitle: Along the roof\npanel: roof\n---\n';
/** The small content with one tour more. */
const withTour = (body: string, front = FRONT, path = 'tours/roof.md') => read(filesOf({ [path]: front + body }));

describe('a tour', () => {
  const body = `Look up, see [where][1].

## [](ref:switch)

Two remarks.

:::trap
One trap.
:::

More of it: :checked[without supply it is dark.]{holds="bus is lost implies lamp is dark"}

:::trap
Another, see [where][1].
:::

## [The lamp itself](ref:lamp)

[1]: ref:bus
`;
  const { fleet, reported } = withTour(
    body,
    FRONT.replace('panel: roof', 'panel: roof\nfor: lamp-control is manual\nminutes: 7.5'),
  );
  const [tour] = fleet?.tours ?? [];

  it('has its stops in order, with the words of its own', () => {
    expect(reported).toEqual([]);
    expect(tour).toMatchObject({ id: 'roof', title: 'Along the roof', panel: 'roof', minutes: '7.5' });
    expect(tour?.for && print(tour.for)).toBe('lamp-control is manual');
    expect(tour?.stops.map(({ at, words }) => [at, words])).toEqual([
      ['switch', undefined],
      ['lamp', 'The lamp itself'],
    ]);
  });

  it('keeps what is said before, what is said at a stop and the traps apart', () => {
    expect(wordsOf(tour?.opening.body)).toBe('Look up, see where.');
    const [first, second] = tour?.stops ?? [];
    expect(wordsOf(first?.remarks.body)).toBe('Two remarks.More of it: without supply it is dark.');
    expect(first?.traps.map((trap) => wordsOf(trap.body))).toEqual(['One trap.', 'Another, see where.']);
    expect(wordsOf(second?.remarks.body)).toBe('');
  });

  it('gives each part the definitions that links in it may name', () => {
    const parts = [tour?.opening, ...(tour?.stops ?? []).flatMap(({ remarks, traps }) => [remarks, ...traps])];
    for (const part of parts) expect(part?.body.children.filter(({ type }) => type === 'definition')).toHaveLength(1);
    expect(new Set(parts.map((part) => part?.id)).size).toBe(parts.length);
  });

  it('carries the claims of its checked sentences', () => {
    expect(tour?.claims.map(({ sentence }) => sentence)).toEqual(['without supply it is dark.']);
  });
});

describe('a mistake in a tour is reported once, at its words', () => {
  const stop = '## [](ref:switch)\n';
  it.each([
    ['an unknown stop', '## [](ref:swich)\n', 'SL304', 'swich'],
    ['a stop at a condition', '## [](ref:bus)\n', 'SL305', 'bus'],
    ['a heading of words', '## The switch\n', 'SL510', '## The switch'],
    ['words beside a reference', '## Now [](ref:switch)\n', 'SL510', '## Now [](ref:switch)'],
    ['a link to the web', '## [there](https://example.org)\n', 'SL510', '## [there](https://example.org)'],
    ['the same stop again', `${stop}\n## [again](ref:switch)\n`, 'SL512', 'switch'],
    ['a trap in a list', `${stop}\n- :::trap\n  Mind.\n  :::\n`, 'SL514', ':::trap'],
    ['a trap in a trap', `${stop}\n::::trap\nMind.\n\n:::trap\nThis.\n:::\n::::\n`, 'SL514', ':::trap'],
    ['a title', `# Roof\n\n${stop}`, 'SL515', '# Roof'],
    ['a heading in a quotation', `${stop}\n> ## Roof\n`, 'SL515', '## Roof'],
    ['a block of another name', `${stop}\n:::note\nMind.\n:::\n`, 'SL505', ':::note\nMind.\n:::'],
    ['HTML', `${stop}\n<br>\n`, 'SL503', '<br>'],
    ['a reference to nothing', `${stop}\nThe [](ref:swich).\n`, 'SL501', 'swich'],
  ])('%s', (_, body, code, words) => {
    const { reported } = withTour(body);
    expect(reported).toEqual([{ code, words }]);
  });

  it.each([
    ['a panel that is not there', FRONT.replace('panel: roof', 'panel: root'), 'SL304', 'root'],
    ['no panel', FRONT.replace('panel: roof\n', ''), 'SL121', 'title'],
    ['a case in place of a fit', FRONT.replace('panel: roof', 'panel: roof\nfor: bus is lost'), 'SL218', 'bus'],
    ['no time at all', FRONT.replace('panel: roof', 'panel: roof\nminutes: 0'), 'SL125', '0'],
    ['no block of keys', 'Mind.\n', 'SL502', 'Mind.'],
  ])('%s', (_, front, code, words) => {
    const { reported } = withTour(stop, front);
    expect(reported).toEqual([{ code, words }]);
  });

  it.each([
    ['tours/Roof walk.md', 'tours/roof-walk.md'],
    ['tour/roof.md', 'tours/roof.md'],
    ['tours/old/roof.md', 'tours/roof.md'],
  ])('%s is meant to be %s', (path, meant) => {
    const diagnostics = new Diagnostics();
    readFleet(filesOf({ [path]: FRONT + stop }), diagnostics);
    expect(diagnostics.all.map(({ code, facts }) => [code, facts])).toEqual([['SL103', { path, nearest: meant }]]);
  });
});
