export { isColourAllowed } from './alerting-colours.ts';
export { claimsOf, standingClaims } from './claims-of.ts';
export { isContentPath } from './content-files.ts';
export * from './fleet.ts';
export { constraintExpression, holdsOnFit } from './possible-fits.ts';
export { readFleet } from './read-fleet.ts';
export { jsonSchemas } from './schema.ts';
export { overridesOf } from './scope.ts';
export { withSmallInitial } from './words.ts';
