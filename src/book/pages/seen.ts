/** The page for readers who begin with what they see: everything that can be looked at, and on which aircraft it looks so. */
import { SEEN } from '../addresses.ts';
import type { Observation, SeenPage } from '../book-seen.ts';
import type { Sight } from '../seen.ts';
import { trailTo } from '../trail.ts';

const PARTS: readonly { id: string; title: string; kinds: readonly Observation['kind'][]; about: string }[] = [
  {
    id: 'legends',
    title: 'Legends',
    kinds: ['legend'],
    about: 'What stands on an annunciator, a sign or a lit push-button.',
  },
  { id: 'colours', title: 'Colours', kinds: ['colour'], about: 'Something is lit in this colour.' },
  { id: 'lights', title: 'Lights and lamps', kinds: ['light', 'lamp'], about: 'What has no legend, by panel.' },
  { id: 'controls', title: 'Controls', kinds: ['control'], about: 'How many positions a control has, by panel.' },
];

export function seenPage(observations: readonly Sight[]): SeenPage {
  return {
    kind: 'seen',
    address: SEEN,
    title: 'From what I see',
    trail: trailTo(),
    parts: PARTS.flatMap(({ id, title, kinds, about }) => {
      const own = observations.filter(({ kind }) => kinds.includes(kind));
      const byPanel = ['lights', 'controls'].includes(id)
        ? [...Map.groupBy(own, ({ panel }) => panel)].map(([panel, some]) => ({ title: panel, observations: some }))
        : [{ observations: own }];
      const groups = byPanel.map((group) => ({
        ...group,
        observations: group.observations.map(({ panel: _, ...observation }): Observation => observation),
      }));
      return own.length === 0 ? [] : [{ id, title, about, groups }];
    }),
  };
}
