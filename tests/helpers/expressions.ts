/** A small scope of names for tests of the expression language, and random expressions over it. */
import fc from 'fast-check';
import { type Diagnostic, Diagnostics, type Place } from '../../src/diagnostics/index.ts';
import {
  type Allowed,
  type Declaration,
  type Expression,
  type ExpressionSource,
  type Guard,
  readExpression,
  readGuard,
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
  {
    kind: 'control',
    id: 'lamp-check',
    values: ['RELEASED', 'PRESSED', 'PULLED'],
    groups: new Map([
      ['held', ['PRESSED', 'PULLED']],
      ['released', ['RELEASED']],
    ]),
  },
  {
    kind: 'item',
    id: 'dc-essential',
    attributes: new Map([['source', ['from-dc-bus-1', 'from-battery', 'lost']]]),
    groups: new Map([['powered', ['from-dc-bus-1', 'from-battery']]]),
  },
  {
    kind: 'item',
    id: 'position-lights',
    attributes: new Map(['lamp', 'left', 'right', 'tail'].map((id) => [id, ['dark', 'dim', 'lit']])),
    lamps: ['left', 'right', 'tail'],
  },
  { kind: 'sequence', id: 'apu', values: ['stopped', 'starting', 'running'] },
  { kind: 'detector', id: 'cabin-high' },
  { kind: 'store', id: 'start-battery', unit: 'min', from: '0', to: '12', step: '0.5' },
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
  const expression = readExpression(sourceOf(text), scope, diagnostics, allow);
  return { expression, found: diagnostics.all };
}

/** As `readText`, of the guard of a transition. */
export function readGuardText(
  text: string,
  allow?: Allowed,
): { guard: Guard | undefined; found: readonly Diagnostic[] } {
  const diagnostics = new Diagnostics();
  const guard = readGuard(sourceOf(text), scope, diagnostics, allow);
  return { guard, found: diagnostics.all };
}

/** A text that stands by itself in a file. */
export function sourceOf(text: string): ExpressionSource {
  return { text, file: { path: 'panels/test.yaml', text }, offset: (index) => index };
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
  fc.constantFrom(...DECLARATIONS.filter(({ kind }) => kind !== 'store')).chain(aboutName),
  fc.constantFrom('left', 'right', 'tail').chain((attribute) => {
    const of = { kind: 'lamp', id: 'position-lights', attribute } as const;
    return someOf(['serviceable', 'failed']).map((values): Expression => ({ op: 'among', of, values, place: NOWHERE }));
  }),
  aboutLamps(),
  fc
    .constantFrom('logo', 'dome')
    .map((id): Expression => ({ op: 'fitted', of: { kind: 'control', id }, place: NOWHERE })),
  fc
    .constantFrom('beacon', 'landing', 'position-lights')
    .map((id): Expression => ({ op: 'fitted', of: { kind: 'item', id }, place: NOWHERE })),
  fc
    .constantFrom('OFF', 'AUTO')
    .map((position): Expression => ({ op: 'fitted', of: { kind: 'control', id: 'logo' }, position, place: NOWHERE })),
);

/** A statement about one name, of whatever kind. */
function aboutName(declaration: Declaration): fc.Arbitrary<Expression> {
  const { kind, id } = declaration;
  if (kind === 'signal' || kind === 'detector') return fc.constant({ op: kind, id, place: NOWHERE });
  if ('unit' in declaration) {
    const { unit } = declaration;
    // Between the ends and off every step, so that only < and the like are asked; both tell numbers apart.
    return fc
      .record({ by: fc.constantFrom('<', '<=', '>', '>='), tenths: fc.integer({ min: 1, max: 119 }) })
      .map(({ by, tenths }): Expression => {
        const limit = { by, value: `${tenths / 10}`, unit, place: NOWHERE };
        return kind === 'store' ? { op: 'level', store: id, ...limit } : { op: 'compare', condition: id, ...limit };
      });
  }
  if (declaration.kind !== 'item') {
    const of = { kind: declaration.kind, id };
    return someOf(declaration.values).map((values): Expression => ({ op: 'among', of, values, place: NOWHERE }));
  }
  return fc.constantFrom(...declaration.attributes).chain(([attribute, states]) => {
    const of = { kind: 'item', id, attribute } as const;
    return someOf(states).map((values): Expression => ({ op: 'among', of, values, place: NOWHERE }));
  });
}

function aboutLamps(): fc.Arbitrary<Expression> {
  const item = 'position-lights';
  const said = fc.oneof(
    someOf(['dark', 'dim', 'lit']).map((values) => ({ kind: 'item', values }) as const),
    someOf(['serviceable', 'failed']).map((values) => ({ kind: 'lamp', values }) as const),
  );
  const counted = fc.constantFrom(
    ...(['at least', 'at most', 'exactly'] as const).flatMap((quantifier) =>
      [1, 2, 3].map((count) => ({ quantifier, count })),
    ),
  );
  return fc
    .tuple(fc.oneof(fc.constantFrom({ quantifier: 'any' } as const, { quantifier: 'all' } as const), counted), said)
    .map(([quantified, { kind, values }]): Expression => {
      const args = ['left', 'right', 'tail'].map(
        (attribute): Expression => ({ op: 'among', of: { kind, id: item, attribute }, values, place: NOWHERE }),
      );
      return { op: 'lamps', ...quantified, item, args, place: NOWHERE };
    });
}

/** Statements about stores, which guards may read. */
export const levels: fc.Arbitrary<Expression> = fc
  .constantFrom(...DECLARATIONS.filter(({ kind }) => kind === 'store'))
  .chain(aboutName);

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
