/** The demo's own releases, which an earlier Switchleaf wrote: they are read as long as there is one. */
import { beforeAll, describe, expect, it } from 'vitest';
import { type Release, readReleases } from '../../../src/book/index.ts';
import { changesSince } from '../../../src/book/releases/changes.ts';
import { compareReleases } from '../../../src/book/releases/compared-releases.ts';
import { listings, WORDS } from '../../../src/book/releases/listings.ts';
import { readFolder } from '../../../src/cli/read-folder.ts';
import { type Compiled, compileFleet } from '../../../src/compile/index.ts';
import { Diagnostics } from '../../../src/diagnostics/index.ts';
import { crc32 } from '../../../src/logic/index.ts';
import { readFleet } from '../../../src/model/index.ts';
import { demoFolder, smallFleet } from '../../helpers/content.ts';
import { releaseOf } from '../../helpers/releases.ts';

function compiledOf(folder: string): { compiled: Compiled; releases: readonly Release[] } {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(readFolder(folder, 'content', diagnostics), diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (!compiled) throw new Error(`${folder} does not compile`);
  const releases = readReleases(fleet, diagnostics);
  expect(diagnostics.all).toEqual([]);
  return { compiled, releases };
}

const NAMES = { here: 'then', there: 'now', revisions: true } as const;

describe('the demo', () => {
  let compiled: Compiled;
  let releases: readonly Release[];
  beforeAll(() => {
    ({ compiled, releases } = compiledOf(demoFolder));
  });

  it('has changed in nothing since it was released just now', () => {
    const compared = compareReleases(compiled, releaseOf(compiled));
    expect(compared.aircraft).toHaveLength(compiled.fleet.aircraft.length);
    expect(compared.fleet.behaviours).toHaveLength(compiled.behaviours.length);
    const same = compared.fleet.behaviours.map(({ forms }) =>
      compared.aircraft.every(({ before, now }) => forms[before.index] === forms[now.index]),
    );
    expect(same).not.toContain(false);
    expect(changesSince(compiled, compared, NAMES, 'changes.html')).toEqual({
      ...{ aircraft: [], groups: [], panels: [], lists: [] },
    });
  });

  it('tells what the revisions before it said', () => {
    const told = releases.map((release) => {
      const { aircraft, panels, lists } = changesSince(
        compiled,
        compareReleases(compiled, release),
        NAMES,
        'changes.html',
      );
      return {
        revision: release.revision,
        aircraft: aircraft.map((one) => one.aircraft.length),
        differing: panels.flatMap(({ differences }) =>
          differences.map(
            ({ what, effectivity }) => `${what.item.title}: ${what.verdict}, ${effectivity.aircraft.length} aircraft`,
          ),
        ),
        lists: Object.fromEntries(
          lists.map(({ id, kinds }) => [id, kinds.map(({ kind, entries }) => `${entries.length} ${kind}`)]),
        ),
      };
    });
    expect(told).toMatchInlineSnapshot(`
      [
        {
          "aircraft": [
            4,
            1,
          ],
          "differing": [
            "White anti-collision lights: tail lamp: Differs, 14 aircraft",
            "White anti-collision lights: tail lamp: Differs, 9 aircraft",
            "EXTENDED annunciator: Differs, 9 aircraft",
            "Landing lights out at high speed: Differs, 9 aircraft",
            "White anti-collision lights: tail lamp: Differs, 1 aircraft",
            "Device signs: Stated in then only, 12 aircraft",
            "No-smoking signs: Differs, 4 aircraft",
          ],
          "lists": {
            "new": [
              "1 Crew notices",
              "1 Queries",
            ],
            "renamed": [
              "1 Lights",
              "1 Annunciators",
            ],
            "words": [
              "1 Messages",
              "1 Sequences",
              "1 Sources",
            ],
          },
          "revision": "7",
        },
        {
          "aircraft": [
            6,
            1,
            1,
          ],
          "differing": [
            "White anti-collision lights: tail lamp: Differs, 14 aircraft",
            "White anti-collision lights: tail lamp: Differs, 9 aircraft",
            "EXTENDED annunciator: Differs, 9 aircraft",
            "Landing lights out at high speed: Differs, 9 aircraft",
            "White anti-collision lights: tail lamp: Differs, 1 aircraft",
            "No-smoking signs: Differs, 6 aircraft",
            "Device signs: Stated in then only, 10 aircraft",
          ],
          "lists": {
            "new": [
              "2 Crew notices",
              "1 Queries",
            ],
            "renamed": [
              "1 Lights",
              "1 Annunciators",
            ],
            "words": [
              "1 Messages",
              "1 Sequences",
              "1 Tours",
              "1 Sources",
            ],
          },
          "revision": "6",
        },
      ]
    `);
  });
});

it('words of the same definitions come to the same checksums: another number here asks for another `WORDS`', () => {
  const { compiled } = compiledOf(smallFleet);
  expect([WORDS, crc32(JSON.stringify(listings(compiled.fleet)))]).toMatchInlineSnapshot(`
    [
      1,
      504520897,
    ]
  `);
});
