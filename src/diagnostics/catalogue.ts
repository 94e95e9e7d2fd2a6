/**
 * Every diagnostic that there is, by its permanent code. Codes are numbered by stage; a code is never renamed or given to
 * something else, and one that is no longer reported stays listed as retired. The wording stands here and nowhere else.
 */
import { commandCodes } from './codes/commands.ts';
import { findingCodes } from './codes/findings.ts';
import { fleetCodes } from './codes/fleet.ts';
import { itemCodes } from './codes/items.ts';
import { languageCodes } from './codes/language.ts';
import { logicCodes } from './codes/logic.ts';
import { modelCodes } from './codes/model.ts';
import { practiceCodes } from './codes/practice.ts';
import { procedureCodes } from './codes/procedures.ts';
import { proseCodes } from './codes/prose.ts';
import { readingCodes } from './codes/reading.ts';
import { sheetCodes } from './codes/sheets.ts';
import { timeCodes } from './codes/time.ts';

export const catalogue = {
  ...readingCodes,
  ...languageCodes,
  ...modelCodes,
  ...fleetCodes,
  ...itemCodes,
  ...timeCodes,
  ...procedureCodes,
  ...logicCodes,
  ...findingCodes,
  ...proseCodes,
  ...practiceCodes,
  ...sheetCodes,
  ...commandCodes,
};

export type Catalogue = typeof catalogue;
export type Code = keyof Catalogue;
