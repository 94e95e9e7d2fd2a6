/** How much of the demo has to come before a page can be read, compressed as servers do, without its typeface. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, inject, it } from 'vitest';

const root = inject('demoSite');
const addresses = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.html'));
/** Pages about one thing, which are looked up. */
const reference = addresses.filter((address) =>
  /^(panels|controls|lights|messages|sounds|sequences|supplies|conditions|options|aircraft)\//.test(address),
);

const sizes = new Map<string, number>();
function sizeOf(path: string): number {
  const size = sizes.get(path) ?? gzipSync(readFileSync(join(root, path))).length;
  sizes.set(path, size);
  return size;
}
/** A page with the files that it brings in by some elements. */
function sizeWith(address: string, elements: RegExp): number {
  const html = readFileSync(join(root, address), 'utf8');
  const files = [...html.matchAll(elements)].map(([, path = '']) => posix.join(posix.dirname(address), path));
  expect(files, address).not.toEqual([]);
  return [address, ...new Set(files)].reduce((sum, path) => sum + sizeOf(path), 0);
}

it('has no page that takes more than 60 KB to be read, with its styles', () => {
  expect(addresses.length).toBeGreaterThan(200);
  const styles = /<link rel="stylesheet" href="([^"]+)"/g;
  for (const address of addresses) expect(sizeWith(address, styles), address).toBeLessThanOrEqual(60_000);
});

it('has no reference page that takes more than 60 KB with its styles and its scripts', () => {
  expect(reference.length).toBeGreaterThan(100);
  const all = /<(?:link rel="stylesheet" href|script(?: defer)? src)="([^"]+)"/g;
  for (const address of reference) expect(sizeWith(address, all), address).toBeLessThanOrEqual(60_000);
});
