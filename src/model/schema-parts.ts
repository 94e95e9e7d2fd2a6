/** The small pieces that the schemas of all file kinds are made of. */
import { z } from 'zod';

/** Ids of definitions: lower case with hyphens. */
export const ID = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
/** Position ids: as on the panel, without spaces. */
export const POSITION_ID = /^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$/;
export const DOCUMENT_ID = /^[A-Za-z0-9][A-Za-z0-9._/-]*$/;

export const text = z.string().min(1);
export const id = z
  .string()
  .regex(ID, { error: 'lower-case letters, digits and single hyphens, starting with a letter' });
export const positionId = z
  .string()
  .regex(POSITION_ID, { error: 'letters, digits and single hyphens, without spaces' });
export const documentId = z.string().regex(DOCUMENT_ID, { error: 'letters, digits, dots and hyphens, without spaces' });
/** A text that often looks like a number; taken as it was written. */
export const label = z.union([text, z.number()]);
export const decimal = z.union([z.number(), z.string()]);
export const expression = text.describe('An expression, for example: logo is ON and not ground-operation');

export const source = z
  .strictObject({
    document: documentId,
    paragraph: label.optional(),
    revision: label.optional().describe('The revision that was read'),
  })
  .describe('The document that says so, from sources.yaml');
export const formerly = z.array(id).min(1).optional().describe('Ids that it had in earlier releases');
export const defined = { title: text, about: text.optional(), source: source.optional(), formerly };
export const claim = z.strictObject({ sentence: text, holds: expression });
