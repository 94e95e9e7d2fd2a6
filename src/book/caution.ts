/** What every page, sheet and file of every book says, whoever publishes it. */
export const STANDING_CAUTION =
  'For training and reference; not approved data. The approved flight manual, the operator’s procedures, the minimum ' +
  'equipment list and local rules take precedence.';
