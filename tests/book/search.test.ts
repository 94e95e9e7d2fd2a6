import { expect, it } from 'vitest';
import { everyKind } from './every-kind.ts';

const { pages, search } = everyKind;

it('every page but the first can be found, under its own title', () => {
  const whole = search.filter(({ anchor }) => anchor === undefined);
  expect(whole.map(({ to, title }) => [to, title])).toEqual(
    pages.filter(({ kind }) => kind !== 'home').map(({ address, title }) => [address, title]),
  );
});

it('what only some aircraft have says which', () => {
  for (const page of pages) {
    if (page.kind !== 'control') continue;
    const cues = page.cues.filter(({ text }) => !text.some((words) => words.text.startsWith('Not fitted')));
    const entry = search.find(({ to }) => to === page.address);
    expect(entry?.fits === undefined, page.title).toBe(cues.length > 0 && page.cues.length === cues.length);
    for (const { effectivity } of entry?.fits === undefined ? [] : cues) {
      for (const { registration } of effectivity.aircraft) expect(entry?.fits).toContain(registration);
    }
  }
});

it('an aircraft can be found under the registration that it will have', () => {
  const renamed = everyKind.frame.fleet.filter(({ later }) => later);
  expect(renamed).not.toEqual([]);
  for (const { serial, registration, later = [] } of renamed) {
    const entry = search.find(({ title, to }) => title === registration && to.startsWith('aircraft/'));
    expect(entry?.words).toEqual([serial, ...later.map(([, name]) => name)]);
  }
});

it('legends stand as they are on the panel of some aircraft', () => {
  for (const page of pages) {
    if (page.kind !== 'item' || page.legend === undefined) continue;
    expect(search.find(({ to }) => to === page.address)?.legends, page.title).toContain(page.legend);
  }
});
