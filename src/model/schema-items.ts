/** The shapes of what is seen: lights, signs, annunciators, messages and supplies of a panel; overrides.yaml. */
import { z } from 'zod';
import { NAMED_SPOTS } from './airframe.ts';
import { defined, documentId, expression, id, label, source, text } from './schema-parts.ts';

export const legends = z
  .array(z.strictObject({ when: expression, legend: label }))
  .min(1)
  .optional()
  .describe('Other legends by option; the first that holds decides');

const states = z.record(
  id,
  z.strictObject({ title: text.optional(), glyph: z.enum(['dark', 'lit', 'flashing', 'none']).optional() }).nullable(),
);
const rule = z.strictObject({
  when: expression.optional(),
  then: text.optional().describe('A state, or "not stated" with a query'),
  otherwise: text.optional().describe('A state, or "not stated" with a query'),
  query: documentId.optional().describe('The open query that asks what happens'),
  'in-every-case': z.boolean().optional().describe('Holds whatever overrides say'),
  source: source.optional(),
});
const rules = z.union([
  z.array(rule).min(1),
  z.strictObject({ table: text.describe('A file in tables/') }).describe('Rules as a decision table'),
]);
const ruled = { states: states.optional(), policy: z.enum(['any', 'unique', 'first']).optional() };
const shown = {
  ...defined,
  noun: text.optional(),
  plural: z.boolean().optional(),
  colour: text.optional(),
  control: text.optional(),
  supply: z.array(text).optional(),
  fitted: expression.optional(),
  rules: rules.optional(),
};
const spot = z
  .union([
    z.enum([...NAMED_SPOTS.keys()]),
    z.strictObject({
      along: z.number().describe('Percent of the length, from the nose'),
      across: z.number().describe('Percent of the half span, from the axis; the left is negative'),
      above: z.number().describe('Percent of the height, from the ground'),
    }),
  ])
  .describe('The point of the airframe at which drawings show it');
const sector = z
  .strictObject({ from: z.number(), to: z.number() })
  .optional()
  .describe('What it is seen from: relative bearings in degrees, clockwise from dead ahead');
const lamp = z.strictObject({
  title: text.optional(),
  spot: spot.optional(),
  sector,
  at: text.optional().describe('Where on the airframe, for example: left wing tip'),
  side: z.enum(['left', 'right', 'centre']).optional(),
  colour: text.optional(),
  supply: z.array(text).optional(),
  when: expression.optional().describe('What it needs beside its supply'),
  rules: rules.optional(),
});

export const item = z.strictObject({
  ...shown,
  ...ruled,
  kind: z.enum(['light', 'sign', 'annunciator']),
  zone: id.optional().describe('A part of the aircraft that overrides can name'),
  legend: label.optional(),
  legends,
  stations: z.array(text).min(1).optional().describe('Controls that can each ask for it'),
  attributes: z
    .record(id, z.strictObject({ title: text.optional(), control: text.optional(), ...ruled, rules }))
    .optional(),
  lamps: z.record(id, lamp.nullable()).optional(),
  spots: z
    .array(
      z.union([
        z.enum([...NAMED_SPOTS.keys()]),
        z.strictObject({ spot, at: text.optional().describe('The spot in words'), sector }),
      ]),
    )
    .min(1)
    .optional()
    .describe('Where the units of a light are that names no lamps'),
});

export const message = z.strictObject({
  ...shown,
  text,
  class: z.enum(['warning', 'caution', 'advisory', 'reminder']),
  when: expression.optional(),
  policy: ruled.policy,
  inhibit: z.array(text).min(1).optional().describe('Signals in which it is held back'),
  'suppressed-by': z.array(text).min(1).optional().describe('Messages that take its place'),
  latched: z
    .strictObject({
      reset: expression,
      wins: z.enum(['set', 'reset']).optional(),
      'through-inhibit': z.boolean().optional().describe('What arises while it is held back is shown afterwards'),
    })
    .optional(),
});

const feeder = z.strictObject({ from: text, when: expression.optional() });
export const supplies = z
  .record(
    id,
    z.strictObject({
      ...defined,
      noun: text.optional(),
      fitted: expression.optional(),
      fed: z.array(feeder).min(1).describe('What feeds it, in order'),
      unless: expression.optional().describe('Then it is lost whatever feeds it'),
    }),
  )
  .optional();

export const overridesSchema = z.array(
  z.strictObject({
    id,
    ...defined,
    scope: z
      .strictObject({
        kinds: z
          .array(z.enum(['light', 'sign', 'annunciator']))
          .min(1)
          .optional(),
        panels: z.array(text).min(1).optional(),
        zones: z.array(text).min(1).optional(),
        items: z.array(text).min(1).optional(),
        except: z.array(text).min(1).optional(),
      })
      .describe('The items that fulfil all that is given'),
    attribute: text.optional(),
    when: expression,
    // "then" of a list, as in a rule.
    then: text,
    quiet: z.boolean().optional().describe('Messages, sounds and sequences read items as if it did not exist'),
    query: documentId.optional().describe('The open query about rules for every case that it breaks'),
  }),
);

export const queriesSchema = z.record(
  documentId,
  z.strictObject({
    title: text,
    about: text.optional(),
    source: source.optional(),
    question: text,
    to: text,
    asked: z.iso.date(),
    answered: z.strictObject({ date: z.iso.date(), answer: text, source: source.optional() }).optional(),
  }),
);

export const detectors = z
  .record(
    id,
    z.strictObject({
      ...defined,
      trips: expression.describe('A threshold on a number, for example: cabin-altitude > 10000 ft'),
      tolerance: z.union([z.number(), z.string()]).describe("In the number's unit, on either side"),
      says: text.describe('For example: with the detector tripped'),
      'says-not': text,
    }),
  )
  .optional();
