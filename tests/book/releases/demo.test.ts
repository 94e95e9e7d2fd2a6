/** The demo's own releases, which an earlier Switchleaf wrote: they are read as long as there is one. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Release } from '../../../src/book/index.ts';
import { changesSince } from '../../../src/book/releases/changes.ts';
import { compareReleases } from '../../../src/book/releases/compared-releases.ts';
import { listings, WORDS } from '../../../src/book/releases/listings.ts';
import type { Compiled } from '../../../src/compile/index.ts';
import { crc32 } from '../../../src/logic/index.ts';
import { compiledFolder, withReleases } from '../../helpers/compiled-folder.ts';
import { demoFolder, smallFleet } from '../../helpers/content.ts';
import { releaseOf } from '../../helpers/releases.ts';

const NAMES = { here: 'the release', there: 'the book', revisions: true } as const;

describe('the demo', () => {
  let compiled: Compiled;
  let releases: readonly Release[];
  beforeAll(() => {
    ({ compiled, releases } = withReleases(demoFolder));
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
        lists: lists.flatMap(({ id, kinds }) => kinds.map(({ kind, entries }) => `${id}: ${entries.length} ${kind}`)),
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
            "Device signs: Stated in the release only, 12 aircraft",
            "No-smoking signs: Differs, 4 aircraft",
          ],
          "lists": [
            "new: 1 Crew notices",
            "new: 1 Queries",
            "renamed: 1 Lights",
            "renamed: 1 Annunciators",
            "words: 1 Messages",
            "words: 1 Sequences",
            "words: 1 Sources",
          ],
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
            "Device signs: Stated in the release only, 10 aircraft",
          ],
          "lists": [
            "new: 2 Crew notices",
            "new: 1 Queries",
            "renamed: 1 Lights",
            "renamed: 1 Annunciators",
            "words: 1 Messages",
            "words: 1 Sequences",
            "words: 1 Tours",
            "words: 1 Sources",
          ],
          "revision": "6",
        },
      ]
    `);
  });
});

it('words of the same definitions come to the same checksums: another number here asks for another `WORDS`', () => {
  const compiled = compiledFolder(smallFleet);
  const words = listings(compiled.fleet).map(({ kind, id, words: sum }) => `${kind} ${id} ${sum}`);
  expect([WORDS, crc32(words.join())]).toMatchInlineSnapshot(`
    [
      1,
      1330185799,
    ]
  `);
});
