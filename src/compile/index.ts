export { compileFleet, holdsOn, type Compiled, type CompileOptions } from './compile.ts';
export { difference, type Difference, type Verdict } from './difference.ts';
export { effectivityText } from './effectivity.ts';
export { fitOfAircraft, type Fit } from './fits.ts';
export type { Behaviour, Group } from './groups.ts';
export { IMPOSSIBLE, NOT_FITTED } from './outcomes.ts';
export { type Part, partForm, partNormals, partTable } from './parts.ts';
export { absentValue, levelOf, type Meaning, type Space, valueIds } from './space.ts';
export { formatNumber, valuesTitle, valueTitle, variableTitle } from './words.ts';
