/** The files of a content of the scale family. */
import { type Fitted, type Formula, NUMBER_TO, type ScaleContent, TOLERANCE } from './scale-content.ts';

/** A formula in the words of the content guide. */
export function textOf(formula: Formula): string {
  switch (formula.op) {
    case 'is': {
      const { id, values, guarded } = formula;
      const text = values.length === 1 ? `${id} is ${values[0]}` : `${id} in (${values.join(', ')})`;
      return guarded ? `(fitted(${id}) and ${text})` : text;
    }
    case 'above':
      return `${formula.id} > ${formula.value} kt`;
    case 'trips':
      return formula.id;
    case 'state':
      return `${formula.item} is ${formula.state}`;
    case 'not':
      return `not (${textOf(formula.of)})`;
    case 'all':
    case 'some': {
      const [only, ...others] = formula.of.map(textOf);
      const between = formula.op === 'all' ? ' and ' : ' or ';
      return others.length === 0 ? `${only}` : `(${[only, ...others].join(between)})`;
    }
  }
}

const quoted = (formula: Formula): string => JSON.stringify(textOf(formula));
const lines = (all: readonly string[]): string => all.map((line) => `${line}\n`).join('');
const fittedText = (fitted: Fitted): string => (fitted ? `fitted: ${fitted.option} is ${fitted.value}` : '');

export function filesOf(content: Omit<ScaleContent, 'files'>): Record<string, string> {
  const { options, aircraft, overrides } = content;
  const ids = options.map(({ id }) => id);
  const panels = 1 + Math.max(0, ...[...content.items, ...content.controls].map(({ panel }) => panel));
  return {
    'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
    'options.yaml': lines(
      options.map(
        ({ id, values }) => `${id}: { title: ${id}, values: { ${values.map((each) => `${each}: {}`).join(', ')} } }`,
      ),
    ),
    'aircraft.csv': lines([
      ['serial', 'registration', 'from', 'to', ...ids].join(','),
      ...aircraft.map((fit, at) =>
        [at + 1, `QQ-${String(at + 1).padStart(3, '0')}`, '2020-01-01', '', ...ids.map((id) => fit.get(id))].join(','),
      ),
    ]),
    'conditions.yaml': conditionsText(content),
    'overrides.yaml': lines(
      overrides.map(({ id, kind, zone, when, then }) => {
        const scope = kind ? `kinds: [${kind}]` : `zones: [${zone}]`;
        return `- { id: ${id}, title: ${id}, scope: { ${scope} }, when: ${quoted(when)}, then: ${then} }`;
      }),
    ),
    ...Object.fromEntries(
      Array.from({ length: panels }, (_, panel) => [
        `panels/panel-${String(panel).padStart(3, '0')}.yaml`,
        panelText(content, panel),
      ]),
    ),
  };
}

function conditionsText({ conditions, detectors, never }: Omit<ScaleContent, 'files'>): string {
  return lines([
    'conditions:',
    ...conditions.map(({ id, values, normal }) => {
      if (values.length === 0)
        return `  ${id}: { title: ${id}, number: { unit: kt, from: 0, to: ${NUMBER_TO}, step: 10 } }`;
      const each = values.map((value) => `"${value}": { says: with ${id} ${value} }`).join(', ');
      return `  ${id}: { title: ${id}, ${normal ? `normal: "${values[0]}", ` : ''}values: { ${each} } }`;
    }),
    ...(detectors.length > 0 ? ['detectors:'] : []),
    ...detectors.map(
      ({ id, number, above }) =>
        `  ${id}: { title: ${id}, trips: ${number} > ${above} kt, tolerance: ${TOLERANCE}, says: with ${id}, says-not: without ${id} }`,
    ),
    ...(never.length > 0 ? ['never:'] : []),
    ...never.map((formula) => `  - ${quoted(formula)}`),
  ]);
}

function panelText({ controls, items }: Omit<ScaleContent, 'files'>, panel: number): string {
  const here = <T extends { readonly panel: number }>(all: readonly T[]): T[] =>
    all.filter((each) => each.panel === panel);
  return lines([
    `panel: panel-${panel}`,
    `title: Panel ${panel}`,
    ...(here(controls).length > 0 ? ['controls:'] : []),
    ...here(controls).flatMap(({ id, fitted, positions }) => [
      `  ${id}:`,
      `    title: ${id}`,
      '    form: rotary selector',
      ...(fitted ? [`    ${fittedText(fitted)}`] : []),
      '    positions:',
      ...positions.map((position) => `      "${position.id}": { ${fittedText(position.fitted)} }`),
    ]),
    ...(here(items).length > 0 ? ['items:'] : []),
    ...here(items).flatMap(({ id, kind, zone, control, fitted, policy, rules, otherwise }) => [
      `  ${id}:`,
      `    kind: ${kind}`,
      `    title: ${id}`,
      `    zone: ${zone}`,
      ...(control ? [`    control: ${control}`] : []),
      ...(fitted ? [`    ${fittedText(fitted)}`] : []),
      '    states: { dark: {}, lit: {}, flashing: {} }',
      `    policy: ${policy}`,
      '    rules:',
      ...rules.map(({ when, then }) => `      - { when: ${quoted(when)}, then: ${then} }`),
      `      - otherwise: ${otherwise}`,
    ]),
  ]);
}
