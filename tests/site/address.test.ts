import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { relative } from '../../src/components/address.ts';

describe('relative', () => {
  it.each([
    ['index.html', 'index.html', undefined, 'index.html'],
    ['index.html', 'controls/logo.html', undefined, 'controls/logo.html'],
    ['controls/logo.html', 'index.html', undefined, '../index.html'],
    ['controls/logo.html', 'controls/taxi.html', undefined, 'taxi.html'],
    ['controls/logo.html', 'lights/logo.html', 'logo-1', '../lights/logo.html#logo-1'],
    ['controls/logo.html', 'controls/logo.html', 'logo-1', '#logo-1'],
  ])('goes from %s to %s (anchor %s) by %s', (from, to, anchor, href) => {
    expect(relative(from, to, anchor)).toBe(href);
  });

  it('is resolved to the same page by the URL standard, wherever the book lies', () => {
    const name = fc.stringMatching(/^[a-z][a-z0-9-]{0,5}$/);
    const address = fc.array(name, { minLength: 1, maxLength: 4 }).map((parts) => `${parts.join('/')}.html`);
    fc.assert(
      fc.property(address, address, fc.option(name, { nil: undefined }), (from, to, anchor) => {
        const root = 'https://example.org/some/folder/';
        const reached = new URL(relative(from, to, anchor), new URL(from, root));
        expect(reached.href).toBe(`${root}${to}${anchor === undefined ? '' : `#${anchor}`}`);
      }),
    );
  });
});
