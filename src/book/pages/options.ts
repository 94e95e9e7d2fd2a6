/** All options: what can differ between aircraft. */
import { OPTIONS } from '../addresses.ts';
import type { OptionPage } from '../book.ts';
import type { OptionsPage } from '../book-reference.ts';
import { trailTo } from '../trail.ts';

/** `pages` are those of the options, which say the same at length. */
export function optionsPage(pages: readonly OptionPage[]): OptionsPage {
  return {
    kind: 'options',
    address: OPTIONS,
    title: 'Options',
    trail: trailTo(),
    options: pages.map(({ id, address, title, about, values, constraints, decides }) => ({
      id: `option-${id}`,
      option: { to: address, title },
      ...(about === undefined ? {} : { about }),
      values,
      constraints,
      decides,
    })),
  };
}
