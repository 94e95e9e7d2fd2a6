/** Contents of a few lines for one test: everything that a test doesn't care for is filled in. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { writeFiles } from '../helpers/temporary-folder.ts';
import { loadOracle, type Oracle } from './index.ts';

export interface Small {
  /** YAML under `conditions:`. */
  readonly conditions?: string;
  /** YAML list under `never:`. */
  readonly never?: string;
  readonly signals?: string;
  readonly claims?: string;
  /** YAML under `controls:`. */
  readonly controls?: string;
  /** YAML under `items:`. */
  readonly items?: string;
  /** YAML under `detectors:`, and the lists under `in-order:`. */
  readonly detectors?: string;
  readonly inOrder?: string;
  /** Further YAML of the panel: `messages:` and so on. */
  readonly panel?: string;
  /** Further files, or others in place of the ones made here. */
  readonly files?: Readonly<Record<string, string>>;
}

const indent = (text: string): string => text.replace(/^/gm, '  ');

/** Two aircraft, of fit `plain` and `full`, with the given definitions. */
export function small(parts: Small): Oracle {
  const folder = mkdtempSync(join(tmpdir(), 'switchleaf-oracle-'));
  try {
    writeFiles(folder, {
      'book.yaml': 'operator: Test\ntype: Test\ntitle: Test\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
      'options.yaml': 'grade:\n  title: Grade\n  values:\n    plain: {}\n    full: {}\n',
      'aircraft.csv': 'serial,registration,from,to,grade\n1,QQ-A,2020-01-01,,plain\n2,QQ-B,2020-01-01,,full\n',
      'conditions.yaml':
        `conditions:\n${indent(parts.conditions ?? 'bus:\n  title: Bus\n  values: { powered: {}, lost: {} }')}\n` +
        (parts.detectors ? `detectors:\n${indent(parts.detectors)}\n` : '') +
        (parts.inOrder ? `in-order:\n${indent(parts.inOrder)}\n` : '') +
        (parts.never ? `never:\n${indent(parts.never)}\n` : ''),
      'signals.yaml': parts.signals ?? '',
      'claims.yaml': parts.claims ?? '',
      'panels/test.yaml':
        `panel: test\ntitle: Test\ncontrols:\n` +
        indent(parts.controls ?? 'knob:\n  title: Knob\n  form: knob\n  positions: { OFF: {}, LOW: {}, HIGH: {} }') +
        `\nitems:\n${indent(parts.items ?? '')}\n${parts.panel ?? ''}\n`,
      ...parts.files,
    });
    return loadOracle(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A light with the given rules, one a line, and policy. */
export function light(id: string, rules: readonly string[], policy = 'any', more = ''): string {
  const lines = rules.map((rule) => `    - { ${rule} }`).join('\n');
  return `${id}:\n  kind: light\n  title: ${id}\n  policy: ${policy}\n${more}  rules:\n${lines}\n`;
}
