/**
 * Writes tests/fixtures/CODE/expected.txt anew, for all fixtures or for the codes named. Read the difference before it is
 * committed: the tests take what stands there as right.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fixtureCodes, fixturesFolder, runFixture } from '../tests/helpers/fixtures.ts';

const named = process.argv.slice(2);
for (const code of named.length > 0 ? named : fixtureCodes()) {
  const printed = await runFixture(code);
  writeFileSync(join(fixturesFolder, code, 'expected.txt'), printed);
  if (!printed.includes(`${code} `)) console.error(`${code}: its fixture does not provoke it`);
}
