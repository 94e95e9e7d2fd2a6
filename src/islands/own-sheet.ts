/** What only a reader's own sheet needs, brought in by its script: any two aircraft as a topic, and the code of its address. */
import { type ComparedFleet, compareAircraft, comparisonTopic, OWN_SHEET } from '../book/index.ts';
import { topicMarkup } from '../components/sheet-markup.ts';
import { qrCode } from '../figures/index.ts';
import { loadComparison } from './parts/comparison-data.ts';
import type { OwnSheetParts } from './parts/own-parts.ts';

let fleet: Promise<ComparedFleet> | undefined;

const parts: OwnSheetParts = {
  code: qrCode,
  async pair(serials, day) {
    fleet ??= loadComparison();
    const view = await fleet.then((loaded) => compareAircraft(loaded, serials, day)).catch(() => undefined);
    if (view) return topicMarkup(comparisonTopic(view), OWN_SHEET);
    fleet = undefined;
    return undefined;
  },
};
globalThis.switchleafOwnSheet = parts;
