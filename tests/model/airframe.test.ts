/** Where lamps stand on the airframe: what is read of spots, and that the guide names all of them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { NAMED_SPOTS, sideOf } from '../../src/model/airframe.ts';
import { projectFolder } from '../helpers/content.ts';
import { itemOf, readItems } from './item-content.ts';

const RULES = '    rules: [{ when: switch is 2, then: lit }, { otherwise: dark }]\n';

describe('the spots that have names', () => {
  const guide = readFileSync(join(projectFolder, 'content/README.md'), 'utf8');
  const row = guide.split('| on the axis |')[1]?.split('\n')[2] ?? '';
  const [, axis = [], sided = []] = row
    .split('|')
    .map((cell) => [...cell.matchAll(/`([a-z-]+)`/g)].map(([, id = '']) => id));

  it('are those of the guide', () => {
    const both = sided.flatMap((id) => [`left-${id}`, `right-${id}`]);
    expect([...NAMED_SPOTS.keys()].sort()).toEqual([...axis, ...both].sort());
  });

  it('lie on the side that their names say, each pair at mirrored places', () => {
    for (const [id, { words, spot }] of NAMED_SPOTS) {
      expect(words).toBe(id.replaceAll('-', ' '));
      if (id.startsWith('left-')) {
        expect(sideOf(spot)).toBe('left');
        const { across, ...twin } = NAMED_SPOTS.get(id.replace('left-', 'right-'))?.spot ?? { across: 0 };
        expect({ ...twin, across: -across }).toEqual({ ...spot });
      } else if (!id.startsWith('right-') && id !== 'cargo-hatch') expect(sideOf(spot)).toBe('centre');
    }
  });
});

describe('a spot', () => {
  it('says where the lamp is and on which side, unless the lamp has words of its own', () => {
    const { fleet, reported } = readItems({
      items: `  tips:
    kind: light
    title: Tip lights
${RULES}    lamps:
      left: { spot: left-wing-tip, sector: { from: 250, to: 360 } }
      tail: { spot: tail-cone, at: end of the tail }
      plain: { at: somewhere }
`,
    });
    expect(reported).toEqual([]);
    const lamps = itemOf(fleet, 'tips').attributes.flatMap(({ lamp }) => lamp ?? []);
    const { spot } = NAMED_SPOTS.get('left-wing-tip') ?? {};
    const sector = { from: 250, to: 360 };
    expect(lamps[0]).toMatchObject({ at: 'left wing tip', side: 'left' });
    expect(lamps[0]?.mounting).toEqual({ at: 'left wing tip', side: 'left', spot, sector });
    expect(lamps[1]).toMatchObject({ at: 'end of the tail', side: 'centre', mounting: { at: 'end of the tail' } });
    expect(lamps[2]).toEqual({ at: 'somewhere', supply: [] });
  });

  it('can be given in percent, and several for a light that names no lamps', () => {
    const { fleet, reported } = readItems({
      items: `  pair:
    kind: light
    title: Pair
    spots: [left-nose-leg, { spot: { along: 71, across: -6.5, above: 30 }, at: inside the hatch }]
${RULES}`,
    });
    expect(reported).toEqual([]);
    expect(itemOf(fleet, 'pair').mountings).toEqual([
      { at: 'left nose leg', side: 'left', spot: NAMED_SPOTS.get('left-nose-leg')?.spot },
      { at: 'inside the hatch', side: 'left', spot: { along: 71, across: -6.5, above: 30 } },
    ]);
  });
});
