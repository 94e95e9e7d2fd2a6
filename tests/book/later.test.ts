import { expect, test } from 'vitest';
import type { MovedPage } from '../../src/book/book.ts';
import { later, laterAll, once } from '../../src/book/later.ts';

const moved = (address: string): MovedPage => ({
  kind: 'moved',
  address,
  title: `Moved: ${address}`,
  trail: [],
  to: { to: 'there.html', title: 'There' },
  former: 'here',
  present: 'there',
});

test('a value is made when it is first asked for, and once, undefined too', () => {
  let made = 0;
  const value = once(() => {
    made += 1;
  });
  expect(made).toBe(0);
  expect([value(), value()]).toEqual([undefined, undefined]);
  expect(made).toBe(1);
});

test('a value that could not be made is tried again', () => {
  let tries = 0;
  const value = once(() => {
    tries += 1;
    if (tries === 1) throw new Error('not yet');
    return tries;
  });
  expect(value).toThrow('not yet');
  expect([value(), value()]).toEqual([2, 2]);
});

test('a page is made when something else than its kind and address is read', () => {
  let made = 0;
  const page = later('moved', 'here.html', () => {
    made += 1;
    return moved('here.html');
  });
  expect([page.kind, page.address, made]).toEqual(['moved', 'here.html', 0]);
  expect(page.title).toBe('Moved: here.html');
  expect({ ...page }).toEqual(moved('here.html'));
  expect(JSON.parse(JSON.stringify(page))).toEqual(moved('here.html'));
  expect('former' in page).toBe(true);
  expect('notices' in page).toBe(false);
  expect(made).toBe(1);
});

test('pages that are made together each read as by themselves', () => {
  let made = 0;
  const pages = laterAll([['moved', 'a.html'] as const, ['moved', 'b.html'] as const], () => {
    made += 1;
    return [moved('a.html'), moved('b.html')];
  });
  expect(pages.map(({ address }) => address)).toEqual(['a.html', 'b.html']);
  expect(made).toBe(0);
  expect(pages.map(({ title }) => title)).toEqual(['Moved: a.html', 'Moved: b.html']);
  expect(made).toBe(1);
});

test('no page takes the place of another, and none is left out', () => {
  expect(() => later('moved', 'here.html', () => moved('there.html')).title).toThrow(
    'there.html was made in the place',
  );
  const pages = laterAll([['moved', 'a.html'] as const], () => [moved('a.html'), moved('b.html')]);
  expect(() => pages[0]?.title).toThrow('2 pages were made where 1 belong');
});
