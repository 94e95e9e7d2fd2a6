/** The lights of the demo that have spots, as drawings take them. */
import { join } from 'node:path';
import { lightsFigure } from '../../src/book/aircraft-figures.ts';
import type { AircraftUnit } from '../../src/book/index.ts';
import { readFolder } from '../../src/cli/read-folder.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { type Fleet, readFleet } from '../../src/model/index.ts';
import { projectFolder } from './content.ts';

let read: Fleet | undefined;

/** Read once: it takes a second. */
export function demoFleet(): Fleet {
  if (read) return read;
  const diagnostics = new Diagnostics();
  const fleet = readFleet(readFolder(join(projectFolder, 'content'), 'content', diagnostics), diagnostics);
  if (!fleet) throw new Error('the demo has errors');
  read = fleet;
  return fleet;
}

export function demoUnits(): AircraftUnit[] {
  const { items } = demoFleet();
  return [...(lightsFigure({ id: 'where', heading: 'Where', title: 'Lights' }, items)?.units ?? [])];
}
