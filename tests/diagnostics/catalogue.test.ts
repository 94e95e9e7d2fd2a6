import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { catalogue } from '../../src/diagnostics/index.ts';
import { fixtureCodes, fixturesFolder, runFixture } from '../helpers/fixtures.ts';
import { runCommand } from '../helpers/run-command.ts';

const codes = Object.keys(catalogue);
const reported = Object.entries(catalogue)
  .filter(([, entry]) => !('retired' in entry))
  .map(([code]) => code);

test('the catalogue has codes of the form SL and three digits', () => {
  expect(codes.length).toBeGreaterThan(0);
  expect(codes.filter((code) => !/^SL[1-6]\d\d$/.test(code))).toEqual([]);
});

test('every code that is reported has a fixture, and every fixture a code', () => {
  expect(fixtureCodes().sort()).toEqual([...reported].sort());
});

test('every code has a title, and an explanation that says more than it', () => {
  for (const [code, { title, explanation }] of Object.entries(catalogue)) {
    expect(title, code).toMatch(/^["A-Z].*[^.]$/);
    expect(explanation, code).toMatch(/\.$/);
    expect(explanation.length, code).toBeGreaterThan(title.length);
  }
});

test('the base of the fixtures is sound', async () => {
  const { status, stdout } = await runCommand(['check', '--content', 'base'], fixturesFolder);
  expect(stdout).toMatch(/^The content is sound: \d+ pages\.\n$/);
  expect(status).toBe(0);
});

describe('the fixture of each code prints it, as expected', () => {
  test.each(reported)('%s', async (code) => {
    const expectation = join(fixturesFolder, code, 'expected.txt');
    expect(
      existsSync(expectation),
      `tests/fixtures/${code}/expected.txt is missing; see "npm run fixtures:update"`,
    ).toBe(true);
    const printed = await runFixture(code);
    expect(printed).toBe(readFileSync(expectation, 'utf8'));
    expect(printed).toMatch(new RegExp(`^${code} (error|warning): `, 'm'));
    // No trace of the program in what an author reads.
    expect(printed).not.toMatch(
      /^ +at (.* \()?(file:|node:|\/).*:\d+:\d+\)?$|node_modules|\.ts\b|undefined|\[object|NaN/m,
    );
  });
});
