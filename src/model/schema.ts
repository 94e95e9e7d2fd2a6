/**
 * The shape of each YAML file kind. One schema serves the reader (schema-check.ts) and, as JSON Schema, the author's
 * editor. No transforms: what is read is what was written.
 */
import { z } from 'zod';
import { PRACTICE_KINDS } from './fleet.ts';
import { detectors, item, legends, message, overridesSchema, queriesSchema, supplies } from './schema-items.ts';
import {
  claim,
  decimal,
  defined,
  documentId,
  expression,
  formerly,
  id,
  label,
  positionId,
  source,
  text,
} from './schema-parts.ts';
import { sheetsSchema } from './schema-sheets.ts';
import { latches, procedureSchema, sequences, sounds, timelinesSchema } from './schema-time.ts';

export const bookSchema = z.strictObject({
  operator: text,
  type: text,
  title: text,
  revision: label,
  date: z.iso.date(),
  baseline: label.describe('Serial of the aircraft that the others are compared with'),
  language: z
    .string()
    .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, { error: 'a language tag, for example en or pt-BR' })
    .optional(),
  paper: z.enum(['A4', 'A5', 'Letter']).optional(),
  address: z
    .url({ protocol: /^https?$/, error: 'a whole web address, for example https://books.example/ostrel-86/' })
    .optional()
    .describe('Where the book can be read, for the codes on printed sheets'),
  remarks: z
    .email({ error: 'a mail address, for example lighting@books.example' })
    .optional()
    .describe('Where remarks of readers are mailed to'),
  cautions: z.array(text).optional(),
});

const optionValue = z.strictObject({
  title: text.optional(),
  requires: expression.optional().describe('What an aircraft with this value must have, over options only'),
  excludes: expression.optional().describe('What an aircraft with this value must not have, over options only'),
  formerly,
});
export const optionsSchema = z.record(id, z.strictObject({ ...defined, values: z.record(id, optionValue.nullable()) }));

const condition = z.strictObject({
  ...defined,
  normal: text.optional(),
  values: z.record(id, z.strictObject({ title: text.optional(), says: text })).optional(),
  noun: text.optional(),
  number: z.strictObject({ unit: text, from: decimal, to: decimal, step: decimal }).optional(),
});
export const conditionsSchema = z.strictObject({
  conditions: z.record(id, condition),
  detectors,
  'in-order': z
    .array(z.array(text).min(2))
    .optional()
    .describe('Detectors of which none trips before the one before it'),
  never: z.array(z.union([expression, z.strictObject({ when: expression, source: source.optional() })])).optional(),
});

const position = z.strictObject({
  legend: label.optional(),
  legends,
  fitted: expression.optional(),
  returns: label.optional().describe('The position that it springs back to when it is let go'),
  abnormal: z.boolean().optional().describe('Cases in which the control stands here are abnormal'),
  as: label.optional().describe('The position of the counterpart that it is the same as'),
  formerly: z.array(label).min(1).optional().describe('Ids that it had in earlier releases'),
});
const control = z.strictObject({
  ...defined,
  form: text,
  fitted: expression.optional(),
  place: text.optional().describe('The place of the panel in which it is fitted'),
  guarded: z.boolean().optional(),
  row: text.optional().describe('The row of the panel in which it is drawn, as its heading: Being seen'),
  counterpart: text.optional().describe('The control that it counts as where aircraft are compared'),
  positions: z.record(positionId, position.nullable()),
});

export const panelSchema = z.strictObject({
  panel: id,
  ...defined,
  places: z.record(id, z.strictObject(defined)).optional(),
  controls: z.record(id, control).optional(),
  items: z.record(id, item).optional(),
  messages: z.record(id, message).optional(),
  supplies,
  sounds,
  latches,
  sequences,
});

export const signalsSchema = z.record(
  id,
  z.strictObject({
    ...defined,
    when: expression,
    says: text.describe('For example: in the take-off window').optional(),
    'says-not': text.describe('For example: outside the take-off window').optional(),
  }),
);
export { overridesSchema, queriesSchema } from './schema-items.ts';
export { sheetsSchema } from './schema-sheets.ts';
export { procedureSchema, timelinesSchema } from './schema-time.ts';
export const claimsSchema = z.array(claim);
export const sourcesSchema = z.record(
  documentId,
  z.strictObject({ title: text, revision: label, date: z.iso.date().optional() }),
);
const term = z.strictObject({
  title: text.describe('The term itself'),
  meaning: text.describe('What it means here, in one plain paragraph'),
  also: z.array(text).min(1).optional().describe('Other words for it, as crews say them'),
  see: z.array(text).min(1).optional().describe('Ids of definitions or other terms that it leads to'),
  source: source.optional(),
  formerly,
});
export const glossarySchema = z.record(id, term);
export const frontMatterSchema = z.strictObject({ title: text, about: z.array(text).optional() });
export const tourFrontMatterSchema = z.strictObject({
  title: text,
  panel: text.describe('The panel that the tour walks along'),
  for: expression.optional().describe('The aircraft that it is for, over options only'),
  minutes: z.number().positive({ error: 'a number above 0' }).optional().describe('How long it takes'),
});
export const noticeFrontMatterSchema = z.strictObject({
  number: label.describe('Unique among the notices: 26-07'),
  title: text,
  date: z.iso.date(),
  expires: z.iso.date().describe('The last day on which it holds'),
  'issued-by': text.optional().describe('Who signs it'),
  for: expression.optional().describe('The aircraft that it is for, over options only'),
  'changed-by': label.optional().describe('The document whose changes make aircraft affected'),
  about: z.array(text).optional().describe('Ids of the definitions whose pages lead to it'),
});
const whole = (from: number, to: number) =>
  z
    .number()
    .int({ error: 'a whole number' })
    .min(from, { error: `${from} or more` })
    .max(to, { error: `${to} or less` });
const practiceSet = z.strictObject({
  ...defined,
  seed: whole(0, 2 ** 32 - 1).describe('Decides which questions are drawn; each further sheet has the next one'),
  sheets: whole(1, 12).optional().describe('How many sheets; 1 unless said'),
  questions: whole(1, 30).optional().describe('How many on each sheet; 10 unless said'),
  kinds: z.array(z.enum(PRACTICE_KINDS)).min(1).optional().describe('What is asked; everything unless said'),
  for: expression.optional().describe('The aircraft that are asked about, over options only'),
  panels: z.array(text).min(1).optional().describe('The panels that are asked about; all unless said'),
});
export const practiceSchema = z.record(id, practiceSet);

export type Control = z.infer<typeof control>;
export type Condition = z.infer<typeof condition>;

/** JSON Schema of each YAML file kind, by the kind's name, for editors that complete and check while typing. */
export function jsonSchemas(): Record<string, object> {
  const schemas = {
    book: bookSchema,
    options: optionsSchema,
    conditions: conditionsSchema,
    signals: signalsSchema,
    panel: panelSchema,
    overrides: overridesSchema,
    timelines: timelinesSchema,
    procedure: procedureSchema,
    claims: claimsSchema,
    sources: sourcesSchema,
    queries: queriesSchema,
    glossary: glossarySchema,
    sheets: sheetsSchema,
    practice: practiceSchema,
    'note-front-matter': frontMatterSchema,
    'tour-front-matter': tourFrontMatterSchema,
    'notice-front-matter': noticeFrontMatterSchema,
  };
  return Object.fromEntries(
    Object.entries(schemas).map(([kind, schema]) => [kind, z.toJSONSchema(schema, { io: 'input' })]),
  );
}
