/**
 * `npm run bench:logic`: how fast the logic is, beside brute force and a solver on the same work.
 *
 *   --quick        smaller families, fewer rounds
 *   --json FILE    the report as data too
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { benchmark, FULL, QUICK } from './benchmark.ts';
import { reportText } from './report.ts';

const { values } = parseArgs({ options: { quick: { type: 'boolean', default: false }, json: { type: 'string' } } });
const report = await benchmark(values.quick ? QUICK : FULL, (line) => process.stderr.write(`${line}\n`));
if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify(report, undefined, 2)}\n`);
// Now and then a thread of the solver outlives its end.
process.stdout.write(reportText(report), () => process.exit());
