/** The shape of sheets.yaml. */
import { z } from 'zod';
import { defined, id, label, text } from './schema-parts.ts';

const topic = z.strictObject({
  panel: text.optional().describe('A panel: what can be seen of everything on it, in tables'),
  show: z.enum(['tables', 'positions']).optional().describe('Of a panel: tables, or a sentence for each position'),
  abnormal: z.boolean().optional().describe('Of a panel: the tables of abnormal cases too'),
  stages: text.optional().describe('A procedure: where controls should stand and what is lit, stage by stage'),
  of: text.optional().describe('Of stages: one panel only. Of differences: the serial of the one aircraft'),
  legends: z.literal('all').optional().describe('What each legend can mean'),
  messages: z
    .array(z.enum(['warning', 'caution', 'advisory', 'reminder']))
    .min(1)
    .optional()
    .describe('Messages of these classes'),
  differences: label.optional().describe('What differs from the aircraft with this serial'),
  device: label.optional().describe('What differs on the training device with this serial'),
  'walk-round': z
    .literal('lights')
    .optional()
    .describe('The lights on the outside, in the order of a walk around them'),
  in: z
    .strictObject({ procedure: text, stage: text })
    .optional()
    .describe('Of a walk-round: a stage of a procedure, to say what each light does in it'),
  fleet: z.literal('options').optional().describe('The fleet by option'),
});

const points = z.number().min(5, { error: 'at least 5 points' }).max(20, { error: 'at most 20 points' });
const columns = z.int().min(1, { error: 'at least 1' }).max(6, { error: 'at most 6' });
const number = z.int().min(1, { error: 'at least 1' }).max(20, { error: 'at most 20' });
const sheet = z.strictObject({
  ...defined,
  size: z.enum(['A4', 'A5', 'Letter']).optional().describe("The paper; the book's own unless said"),
  orientation: z.enum(['portrait', 'landscape']).optional(),
  'two-up': z.boolean().optional().describe('Two pages side by side on each sheet of paper, each half its size'),
  sheets: z
    .union([number, z.strictObject({ from: number, to: number })])
    .optional()
    .describe('How many sheets of paper it fills, or the fewest and the most'),
  type: z
    .strictObject({ from: points, to: points })
    .optional()
    .describe('The smallest and the largest type, in points'),
  columns: z.strictObject({ from: columns, to: columns }).optional().describe('The fewest and the most columns'),
  topics: z.array(topic).min(1, { error: 'at least one topic' }),
});

export const sheetsSchema = z.record(id, sheet);
