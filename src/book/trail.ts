/** Where a page stands, from the home page down. */
import type { Panel } from '../model/index.ts';
import { HOME, panelAddress } from './addresses.ts';
import type { Listed } from './book.ts';

const home: Listed = { to: HOME, title: 'Contents' };

/** The trail of a page that stands right under the home page, or under a panel. */
export function trailTo(panel?: Panel): Listed[] {
  return panel ? [home, { to: panelAddress(panel), title: panel.title }] : [home];
}
