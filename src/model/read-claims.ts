/** claims.yaml: statements that must hold in every case. */
import type { SourceFile } from '../diagnostics/index.ts';
import { type Context, oneParagraph } from './context.ts';
import type { Claim } from './fleet.ts';
import { claimsSchema } from './schema.ts';
import { checkShape } from './schema-check.ts';
import { readYaml, scalarUnder, type YamlNode } from './yaml-source.ts';

export function readClaims(file: SourceFile, context: Context): Claim[] {
  const root = readYaml(file, context.diagnostics);
  if (!root) return [];
  const shape = checkShape(claimsSchema, root, context.diagnostics);
  return (root.kind === 'list' ? root.items : []).flatMap((node, at) =>
    shape.sound(at) ? readClaim(node, context) : [],
  );
}

/** One claim of sound shape; none after a report. */
export function readClaim(node: YamlNode, context: Context): Claim[] {
  const holds = scalarUnder(node, 'holds');
  const expression = holds && context.expression(holds);
  const sentence = oneParagraph(scalarUnder(node, 'sentence')?.written ?? '');
  return expression ? [{ expression, sentence, place: holds.place }] : [];
}
