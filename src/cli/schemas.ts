/** `schemas`: JSON Schemas of the content files, with which an editor checks and completes while the author types. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Diagnostics } from '../diagnostics/index.ts';
import { jsonSchemas } from '../model/index.ts';
import { type ExitStatus, exitStatus } from './exit-status.ts';
import { failure, isRefusedByMachine } from './failure.ts';
import type { Io } from './io.ts';
import { report } from './report.ts';

/** Writes one file a kind, `panel.schema.json` for instance, into the folder `out`; files of other names stay. */
export function writeSchemas(out: string, io: Io): ExitStatus {
  const folder = resolve(io.cwd, out);
  const schemas = Object.entries(jsonSchemas());
  try {
    mkdirSync(folder, { recursive: true });
    for (const [kind, schema] of schemas) {
      writeFileSync(join(folder, `${kind}.schema.json`), `${JSON.stringify(schema, null, 2)}\n`);
    }
  } catch (error) {
    if (!isRefusedByMachine(error)) throw error;
    const diagnostics = new Diagnostics();
    diagnostics.report('SL609', { out, reason: failure(error) });
    return report(io, 'text', diagnostics.all, 'The schemas were not written.');
  }
  io.stdout.write(`Wrote ${schemas.length} schemas into ${out}.\n`);
  return exitStatus.fine;
}
