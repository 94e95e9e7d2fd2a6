/** A small scope of names for tests of the expression language, and random expressions over it. */
import fc from 'fast-check';
import { type Diagnostic, Diagnostics, type Place } from '../../src/diagnostics/index.ts';
import {
  type Allowed,
  type Declaration,
  type Expression,
  readExpression,
  type Scope,
} from '../../src/language/index.ts';

const DECLARATIONS: readonly Declaration[] = [
  { kind: 'option', id: 'mount', values: ['fixed', 'movable'] },
  { kind: 'option', id: 'logic', values: ['struts', 'slats', '2'] },
  { kind: 'condition', id: 'gear', values: ['compressed', 'extended'] },
  { kind: 'condition', id: 'slats', values: ['in', 'out'] },
  { kind: 'number', id: 'airspeed', unit: 'kt', from: '0', to: '400', step: '1' },
  { kind: 'number', id: 'rotor', unit: '%', from: '-2.5', to: '110', step: '0.5' },
  { kind: 'control', id: 'logo', values: ['OFF', 'AUTO', 'ON'] },
  { kind: 'control', id: 'dome', values: ['1', '2', 'SET-2'] },
  { kind: 'item', id: 'beacon', attributes: new Map([['lamp', ['dark', 'lit']]]) },
  {
    kind: 'item',
    id: 'landing',
    attributes: new Map([
      ['lamp', ['dark', 'lit']],
      ['stowage', ['stowed', 'extended']],
    ]),
  },
  { kind: 'signal', id: 'on-ground' },
  { kind: 'signal', id: 'taxiing' },
];

export const scope: Scope = new Map(DECLARATIONS.map((declaration) => [declaration.id, declaration]));

/** Reads a text that stands by itself in a file. */
export function readText(
  text: string,
  allow?: Allowed,
): { expression: Expression | undefined; found: readonly Diagnostic[] } {
  const diagnostics = new Diagnostics();
  const source = { text, file: { path: 'panels/test.yaml', text }, offset: (index: number) => index };
  const expression = readExpression(source, scope, diagnostics, allow);
  return { expression, found: diagnostics.all };
}

/** Reads a text that must be sound. */
export function soundExpression(text: string): Expression {
  const { expression, found } = readText(text);
  if (!expression) throw new Error(`${text}: ${found.map(({ code }) => code).join(' ')}`);
  return expression;
}

/** The expression without its places, for comparisons. */
export function withoutPlaces(expression: Expression): unknown {
  return JSON.parse(JSON.stringify(expression, (key, value: unknown) => (key === 'place' ? undefined : value)));
}

const NOWHERE: Place = { file: { path: '', text: '' }, start: 0, end: 0 };

const leaf: fc.Arbitrary<Expression> = fc.oneof(
  fc.boolean().map((value): Expression => ({ op: 'constant', value, place: NOWHERE })),
  fc.constantFrom(...DECLARATIONS).chain((declaration): fc.Arbitrary<Expression> => {
    const { kind, id } = declaration;
    switch (kind) {
      case 'signal':
        return fc.constant({ op: 'signal', id, place: NOWHERE });
      case 'number':
        // Between the ends and off every step, so that only < and the like are asked; both tell numbers apart.
        return fc.record({ by: fc.constantFrom('<', '<=', '>', '>='), tenths: fc.integer({ min: 1, max: 999 }) }).map(
          ({ by, tenths }): Expression => ({
            op: 'compare',
            condition: id,
            by,
            value: `${tenths / 10}`,
            unit: declaration.unit,
            place: NOWHERE,
          }),
        );
      case 'item':
        return fc
          .constantFrom(...declaration.attributes)
          .chain(([attribute, states]) =>
            someOf(states).map(
              (values): Expression => ({ op: 'among', of: { kind, id, attribute }, values, place: NOWHERE }),
            ),
          );
      default:
        return someOf(declaration.values).map(
          (values): Expression => ({ op: 'among', of: { kind, id }, values, place: NOWHERE }),
        );
    }
  }),
  fc
    .constantFrom('logo', 'dome')
    .map((id): Expression => ({ op: 'fitted', of: { kind: 'control', id }, place: NOWHERE })),
  fc
    .constantFrom('beacon', 'landing')
    .map((id): Expression => ({ op: 'fitted', of: { kind: 'item', id }, place: NOWHERE })),
  fc
    .constantFrom('OFF', 'AUTO')
    .map((position): Expression => ({ op: 'fitted', of: { kind: 'control', id: 'logo' }, position, place: NOWHERE })),
);

function someOf(values: readonly string[]): fc.Arbitrary<string[]> {
  return fc.shuffledSubarray([...values], { minLength: 1 });
}

/** Expressions that a text can write: joints of at least two operands, lists without duplicates. */
export const expressions: fc.Arbitrary<Expression> = fc.letrec<{ any: Expression }>((tie) => ({
  any: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    leaf,
    fc
      .record({ op: fc.constantFrom('and', 'or'), args: fc.array(tie('any'), { minLength: 2, maxLength: 4 }) })
      .map(({ op, args }): Expression => ({ op, args, place: NOWHERE })),
    tie('any').map((arg): Expression => ({ op: 'not', arg, place: NOWHERE })),
    fc
      .record({ premise: tie('any'), conclusion: tie('any') })
      .map(({ premise, conclusion }): Expression => ({ op: 'implies', premise, conclusion, place: NOWHERE })),
  ),
})).any;
