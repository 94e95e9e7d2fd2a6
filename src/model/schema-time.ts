/** The shapes of what happens in time: sequences, latches and sounds of a panel, timelines.yaml and procedures. */
import { z } from 'zod';
import { claim, decimal, defined, expression, id, label, source, text } from './schema-parts.ts';

const duration = text.describe('A time, for example: 30 s, 2 min, 60 s +/- 5 s');

const transition = z.strictObject({
  from: z.union([text, z.array(text).min(1)]).describe('The mode that it leads out of, or several'),
  to: text,
  when: expression.optional().describe('What it waits for, for example: apu-speed >= 95 % for 2 s'),
  after: duration.optional().describe('Time in the mode'),
  since: expression.optional().describe('The event from which the delay is counted'),
  delay: duration.optional(),
  restarts: z.boolean().optional().describe('Each time that the event comes anew starts the delay again'),
  source: source.optional(),
});

const flow = z.strictObject({ when: expression, 'per-minute': decimal });
const store = z.strictObject({
  ...defined,
  unit: text,
  capacity: decimal,
  start: decimal.describe('The level after power-up'),
  fills: z.array(flow).min(1).optional(),
  drains: z.array(flow).min(1).optional(),
});

const mode = z.strictObject({
  title: text.optional(),
  says: text.describe('The words of a sentence, for example: with the APU running'),
  sets: z.record(text, decimal).optional().describe('Stores that entering the mode sets to a level'),
  final: z.boolean().optional().describe('No way leads out of it, on purpose'),
});

export const sequences = z
  .record(
    id,
    z.strictObject({
      ...defined,
      noun: text.optional(),
      fitted: expression.optional(),
      initial: text.describe('The mode after power-up'),
      normal: text.optional(),
      modes: z.record(id, mode),
      stores: z.record(id, store).optional(),
      priority: z.literal('declared').optional().describe('Transitions that can be due at once are meant so'),
      transitions: z.array(transition).min(1),
    }),
  )
  .optional();

export const latches = z
  .record(
    id,
    z.strictObject({
      ...defined,
      noun: text.optional(),
      fitted: expression.optional(),
      set: expression,
      reset: expression,
      wins: z.enum(['set', 'reset']).optional().describe('What happens while both hold'),
    }),
  )
  .optional();

const values = z.union([text, z.number(), z.array(label).min(1)]);
const trigger = z.strictObject({
  moves: text.optional().describe('The control, condition or sequence that moves'),
  from: values.optional(),
  to: values.optional(),
  becomes: expression.optional().describe('False before the change and true after it'),
  while: expression.optional().describe('Holds after the change'),
  source: source.optional(),
});
export const sounds = z
  .record(
    id,
    z.strictObject({
      ...defined,
      noun: text.optional(),
      fitted: expression.optional(),
      sounds: text.describe('In words: single low chime'),
      triggers: z.array(trigger).min(1),
    }),
  )
  .optional();

const step = z.strictObject({ at: duration, set: z.record(text, label) });
export const timelinesSchema = z.record(
  id,
  z.strictObject({
    ...defined,
    on: label.describe('The serial of the aircraft'),
    shows: z.array(text).min(1),
    steps: z.array(step).min(1),
    until: duration,
    expect: z.array(z.strictObject({ at: duration, holds: expression })).optional(),
  }),
);

const wanted = z.strictObject({
  when: expression.optional().describe('Where it is wanted, over options only'),
  position: label,
  says: text.optional().describe('The words after the position, for example: when cleared for take-off'),
});
const stage = z.strictObject({
  title: text,
  about: text.optional(),
  source: source.optional(),
  conditions: z
    .record(text, z.union([label, z.array(label).min(1)]))
    .optional()
    .describe('What is so: values of conditions, numbers with their unit (0 kt, or 60 kt to 140 kt), modes, or any'),
  positions: z
    .record(text, z.union([label, wanted, z.array(wanted).min(1)]))
    .optional()
    .describe('Where the controls are wanted'),
  claims: z.array(claim).min(1).optional().describe('What must hold in the stage'),
});
export const procedureSchema = z.strictObject({ procedure: id, ...defined, stages: z.record(id, stage) });
