/** Random expressions as an author may write them: with or without needless brackets, "is" or "are", wide or narrow. */
import fc from 'fast-check';

/**
 * Texts over the given statements. Brackets stand where the language wants them (`and` beside `or`, `implies` within
 * anything), and here and there where it does not.
 */
export function expressionTexts(statements: fc.Arbitrary<string>): fc.Arbitrary<string> {
  const bracketed = (text: string): string => `(${text})`;
  return fc.letrec<{ statement: string; operand: string; chain: string; whole: string }>((tie) => ({
    statement: statements,
    operand: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      tie('statement'),
      tie('operand').map((text) => `not ${text}`),
      tie('whole').map(bracketed),
    ),
    chain: fc
      .record({
        joint: fc.constantFrom(' and ', ' or ', '  and\n'),
        operands: fc.array(tie('operand'), { minLength: 1, maxLength: 3 }),
      })
      .map(({ joint, operands }) => operands.join(joint)),
    whole: fc.oneof(
      { withCrossShrink: true },
      tie('chain'),
      fc.tuple(tie('chain'), tie('chain')).map(([premise, conclusion]) => `${premise} implies ${conclusion}`),
    ),
  })).whole;
}
