/** The page of an option: which aircraft have which value, and what it decides. */
import type { Compiled } from '../../compile/index.ts';
import { type Expression, referencesOf } from '../../language/index.ts';
import { type Fleet, type Option, UNKNOWN } from '../../model/index.ts';
import { optionAddress } from '../addresses.ts';
import type { Inline, Listed, OptionPage } from '../book.ts';
import { text, upperFirst } from '../cells.ts';
import { effectivityOf } from '../effectivity.ts';
import { expressionWords } from '../expression-words.ts';
import { optionValue } from '../fits.ts';
import { citations, definedBase, itemsReading, listedControl, listedItem } from '../links.ts';
import { otherwise } from '../otherwise.ts';
import { trailTo } from '../trail.ts';

export function optionPage(compiled: Compiled, option: Option): OptionPage {
  const { fleet } = compiled;
  const sole = otherwise(compiled, option);
  return {
    kind: 'option',
    address: optionAddress(option),
    title: option.title,
    trail: trailTo(),
    ...definedBase(fleet, option),
    citations: citations(fleet, [option]),
    values: [
      ...option.values.map(({ id, title }) => ({
        id,
        title,
        effectivity: effectivityOf(
          compiled,
          compiled.fits.filter(({ options }) => options.get(option.id) === id),
        ),
      })),
      ...unknown(compiled, option),
    ],
    constraints: constraintWords(fleet, option),
    decides: decides(compiled, option),
    ...(sole ? { otherwise: sole } : {}),
  };
}

/** "Unknown: one of A, B": the aircraft of which nobody knows the value. */
function unknown(compiled: Compiled, option: Option): OptionPage['values'] {
  const fits = compiled.fits.filter((fit) => fit.unknown.includes(option.id));
  return [...Map.groupBy(fits, (fit) => optionValue(option, fit))].map(([title, some]) => ({
    id: UNKNOWN,
    title: upperFirst(title),
    effectivity: effectivityOf(compiled, some),
  }));
}

/** "Automatic: only with the option Logo light control set to Automatic." */
function constraintWords(fleet: Fleet, option: Option): Inline[][] {
  return fleet.constraints
    .filter((constraint) => constraint.option === option.id)
    .map(({ value, kind, expression }) => [
      text(
        `${option.values.find(({ id }) => id === value)?.title ?? value}: ${kind === 'requires' ? 'only' : 'never'} `,
      ),
      ...expressionWords(fleet, expression),
      text('.'),
    ]);
}

/** Controls that exist or have positions or legends by it, and items whose behaviour depends on it. */
function decides(compiled: Compiled, option: Option): Listed[] {
  const { fleet } = compiled;
  const names = (expression: Expression | undefined): boolean =>
    expression !== undefined && referencesOf(expression).some(({ id }) => id === option.id);
  const controls = fleet.controls.filter(
    ({ fitted, positions }) =>
      names(fitted) ||
      positions.some((position) => names(position.fitted) || position.legends.some(({ when }) => names(when))),
  );
  return [...controls.map(listedControl), ...itemsReading(compiled, option.id).map(listedItem)];
}
