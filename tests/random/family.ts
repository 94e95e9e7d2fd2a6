/**
 * A random family of content as data: a few options and aircraft, conditions, controls, rules and claims. Every part can be
 * taken away, so that a family with which something fails can be made small. `written` turns it into an author's files.
 */

export type Files = Readonly<Record<string, string>>;

/** An expression; `reads` are the ids that an atom names. */
export type Formula =
  | { readonly atom: string; readonly reads: readonly string[] }
  | { readonly not: Formula }
  | { readonly all: readonly Formula[] }
  | { readonly any: readonly Formula[] };

export interface FamilyOption {
  readonly id: string;
  readonly values: readonly { readonly id: string; readonly requires?: Formula }[];
}

export interface FamilyControl {
  readonly id: string;
  readonly fitted?: Formula;
  readonly counterpart?: string;
  readonly positions: readonly {
    readonly id: string;
    readonly fitted?: Formula;
    readonly as?: string;
    readonly returns?: string;
    readonly abnormal?: boolean;
  }[];
}

export interface FamilyRule {
  /** Absent in what closes the list. */
  readonly when?: Formula;
  /** `?` is "not stated". */
  readonly then: string;
}

export interface FamilyItem {
  readonly id: string;
  readonly kind: 'light' | 'annunciator' | 'message';
  readonly fitted?: Formula;
  readonly control?: string;
  readonly policy: 'first' | 'any' | 'unique';
  readonly states: readonly string[];
  readonly rules: readonly FamilyRule[];
  readonly lamps: readonly { readonly id: string; readonly supply?: string }[];
}

export interface Family {
  readonly options: readonly FamilyOption[];
  /** Option to value; `unknown` is one. */
  readonly aircraft: readonly { readonly values: Readonly<Record<string, string>> }[];
  readonly changes: readonly { readonly serial: number; readonly option: string; readonly value: string }[];
  readonly conditions: readonly {
    readonly id: string;
    readonly values: readonly string[];
    readonly normal?: string;
  }[];
  /** One at most. It goes from 0 to 3 kt by 0.5. */
  readonly numbers: readonly { readonly id: string }[];
  readonly detectors: readonly {
    readonly id: string;
    readonly trips: string;
    readonly reads: readonly string[];
    readonly tolerance: string;
  }[];
  readonly inOrder: readonly (readonly string[])[];
  readonly controls: readonly FamilyControl[];
  readonly never: readonly Formula[];
  readonly signals: readonly { readonly id: string; readonly when: Formula }[];
  readonly latches: readonly {
    readonly id: string;
    readonly set: Formula;
    readonly reset: Formula;
    readonly wins: string;
  }[];
  readonly items: readonly FamilyItem[];
  readonly overrides: readonly {
    readonly id: string;
    readonly kind: string;
    readonly when: Formula;
    readonly then: string;
    readonly quiet: boolean;
  }[];
  readonly claims: readonly { readonly premise?: Formula; readonly holds: Formula }[];
}

export const ALWAYS: Formula = { atom: 'always', reads: [] };
export const NEVER: Formula = { atom: 'never', reads: [] };

/** As an author writes it: what stands inside of something else in parentheses. */
export function textOf(formula: Formula): string {
  if ('atom' in formula) return formula.atom;
  if ('not' in formula) return `not ${inner(formula.not)}`;
  const [parts, by, none] = 'all' in formula ? [formula.all, 'and', 'always'] : [formula.any, 'or', 'never'];
  if (parts.length === 0) return none;
  return parts.length === 1 ? textOf(parts[0] as Formula) : parts.map(inner).join(` ${by} `);
}

const inner = (formula: Formula): string => ('atom' in formula ? formula.atom : `(${textOf(formula)})`);
const quoted = (formula: Formula): string => JSON.stringify(textOf(formula));
const lines = (all: readonly string[]): string => all.join('');
const section = (title: string, all: readonly string[]): string => (all.length > 0 ? `${title}\n${lines(all)}` : '');

/** The files of a family. What it has nothing of is left out. */
export function written(family: Family): Files {
  const { options, aircraft, changes, signals, overrides, claims, items } = family;
  const asked = items.some(({ rules }) => rules.some(({ then }) => then === '?'));
  const some = (path: string, all: readonly string[]): Files => (all.length > 0 ? { [path]: lines(all) } : {});
  return {
    'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
    'options.yaml': lines(
      options.map(({ id, values }) => {
        const all = values.map(
          (value) => `${value.id}: ${value.requires ? `{ requires: ${quoted(value.requires)} }` : '{}'}`,
        );
        return `${id}: { title: ${id}, values: { ${all.join(', ')} } }\n`;
      }),
    ),
    'aircraft.csv': [
      ['serial,registration,from,to', ...options.map(({ id }) => id)].join(','),
      ...aircraft.map(({ values }, at) =>
        [`${at + 1},QQ-T${'ABCDEF'[at]},2020-01-01,`, ...options.map(({ id }) => values[id] ?? '')].join(','),
      ),
      '',
    ].join('\n'),
    ...some(
      'modifications.csv',
      changes.length === 0
        ? []
        : [
            'serial,option,value,date,document\n',
            ...changes.map(({ serial, option, value }) => `${serial},${option},${value},2026-06-01,\n`),
          ],
    ),
    'conditions.yaml': conditionsOf(family),
    ...some(
      'signals.yaml',
      signals.map(({ id, when }) => `${id}: { title: ${id}, when: ${quoted(when)} }\n`),
    ),
    ...some(
      'queries.yaml',
      asked ? ['Q-1: { title: Q, question: What then?, to: Somebody, asked: 2025-01-01 }\n'] : [],
    ),
    ...some(
      'overrides.yaml',
      overrides.map(
        ({ id, kind, when, then, quiet }) =>
          `- { id: ${id}, title: ${id}, scope: { kinds: [${kind}] }, when: ${quoted(when)}, then: ${then}${quiet ? ', quiet: true' : ''} }\n`,
      ),
    ),
    ...some(
      'claims.yaml',
      claims.map(({ premise, holds }, at) => {
        const text = premise ? `${inner(premise)} implies ${inner(holds)}` : textOf(holds);
        return `- { sentence: Claim ${at}., holds: ${JSON.stringify(text)} }\n`;
      }),
    ),
    'panels/p.yaml': panelOf(family),
  };
}

function conditionsOf({ conditions, numbers, detectors, inOrder, never }: Family): string {
  const named = conditions.map(({ id, values, normal }) => {
    const all = values.map((value) => `${value}: { says: with the ${id} ${value} }`).join(', ');
    return `  ${id}: { title: ${id}${normal === undefined ? '' : `, normal: ${normal}`}, values: { ${all} } }\n`;
  });
  const counted = numbers.map(
    ({ id }) => `  ${id}: { title: ${id}, number: { unit: kt, from: 0, to: 3, step: 0.5 } }\n`,
  );
  return (
    section('conditions:', [...named, ...counted]) +
    section(
      'detectors:',
      detectors.map(
        ({ id, trips, tolerance }) =>
          `  ${id}: { title: ${id}, trips: "${trips}", tolerance: ${tolerance}, says: with ${id} tripped, says-not: without ${id} }\n`,
      ),
    ) +
    section(
      'in-order:',
      inOrder.map((ids) => `  - [${ids.join(', ')}]\n`),
    ) +
    section(
      'never:',
      never.map((formula) => `  - ${quoted(formula)}\n`),
    )
  );
}

function panelOf({ controls, latches, items }: Family): string {
  const position = ({ id, fitted, as, returns, abnormal }: FamilyControl['positions'][number]): string => {
    const keys = [
      ...(fitted ? [`fitted: ${quoted(fitted)}`] : []),
      ...(as === undefined ? [] : [`as: ${as}`]),
      ...(returns === undefined ? [] : [`returns: ${returns}`]),
      ...(abnormal === true ? ['abnormal: true'] : []),
    ];
    return `${id}: {${keys.length > 0 ? ` ${keys.join(', ')} ` : ''}}`;
  };
  const control = ({ id, fitted, counterpart, positions }: FamilyControl): string =>
    `  ${id}:\n    title: ${id}\n    form: toggle\n` +
    (fitted ? `    fitted: ${quoted(fitted)}\n` : '') +
    (counterpart === undefined ? '' : `    counterpart: ${counterpart}\n`) +
    `    positions: { ${positions.map(position).join(', ')} }\n`;
  const messages = items.filter(({ kind }) => kind === 'message');
  return (
    'panel: p\ntitle: P\n' +
    section('controls:', controls.map(control)) +
    section(
      'latches:',
      latches.map(
        ({ id, set, reset, wins }) =>
          `  ${id}: { title: ${id}, set: ${quoted(set)}, reset: ${quoted(reset)}, wins: ${wins} }\n`,
      ),
    ) +
    section('items:', items.filter(({ kind }) => kind !== 'message').map(itemOf)) +
    section('messages:', messages.map(itemOf))
  );
}

function itemOf({ id, kind, fitted, control, policy, states, rules, lamps }: FamilyItem): string {
  const rule = ({ when, then }: FamilyRule): string => {
    const state = then === '?' ? 'not stated, query: Q-1' : then;
    return `      - { ${when ? `when: ${quoted(when)}, then` : 'otherwise'}: ${state} }\n`;
  };
  return (
    `  ${id}:\n    title: ${id}\n` +
    (kind === 'message' ? '    text: TEXT\n    class: advisory\n' : `    kind: ${kind}\n`) +
    (fitted ? `    fitted: ${quoted(fitted)}\n` : '') +
    (control === undefined ? '' : `    control: ${control}\n`) +
    (kind === 'message' || states.join() === 'dark,lit'
      ? ''
      : `    states: { ${states.map((each) => `${each}: {}`).join(', ')} }\n`) +
    `    policy: ${policy}\n` +
    section('    rules:', rules.map(rule)) +
    section(
      '    lamps:',
      lamps.map((lamp) => `      ${lamp.id}: {${lamp.supply === undefined ? '' : ` supply: [${lamp.supply}] `}}\n`),
    )
  );
}
