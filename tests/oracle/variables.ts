/** What can be set in a case, and to what: numbers at the steps that are worth trying. */
import type { ContentText } from './content.ts';
import { compares, representatives } from './decimal.ts';
import type { Fit } from './fits.ts';
import type { Meaning } from './meaning.ts';
import { lampsOf, lampVariable, type Mention, mentions, mentionsOfAttribute } from './reach.ts';

export class Variables {
  /** Conditions, controls, lamps, sequences, detectors, each in the authors' order. */
  readonly all: readonly string[];
  readonly #meaning: Meaning;
  readonly #content: ContentText;
  readonly #thresholds = new Map<string, readonly string[]>();
  readonly #steps = new Map<string, readonly string[]>();
  readonly #cells = new Map<string, readonly string[]>();
  readonly #onFit = new Map<string, readonly string[]>();
  /** Lamp variable to its light. */
  readonly #lights = new Map<string, string>();

  constructor(meaning: Meaning) {
    this.#meaning = meaning;
    this.#content = meaning.content;
    const { conditions, controls, detectors, items, sequences } = this.#content;
    for (const item of items.values()) {
      for (const lamp of lampsOf(item)) this.#lights.set(lampVariable(item.id, lamp), item.id);
    }
    this.all = [
      ...conditions.keys(),
      ...controls.keys(),
      ...this.#lights.keys(),
      ...sequences.keys(),
      ...detectors.keys(),
    ];
    this.#collectNumbers();
  }

  /** Those among the mentions, in order. */
  among(read: readonly Mention[]): readonly string[] {
    const names = new Set(read.map((mention) => mention.name));
    return this.all.filter((name) => names.has(name));
  }

  isDetector(name: string): boolean {
    return this.#content.detectors.has(name);
  }

  isLamp(name: string): boolean {
    return this.#lights.has(name);
  }

  /** The values on a fit without unknown options; none where it isn't fitted. */
  valuesOn(fit: Fit, name: string): readonly string[] {
    const key = `${fit.id} ${name}`;
    const known = this.#onFit.get(key);
    if (known) return known;
    const values = this.#findValues(fit, name);
    this.#onFit.set(key, values);
    return values;
  }

  #findValues(fit: Fit, name: string): readonly string[] {
    const { conditions, controls, sequences } = this.#content;
    if (controls.has(name)) return this.#meaning.positionsOn(fit, name);
    const light = this.#lights.get(name);
    if (light !== undefined) return this.#meaning.isFitted(fit, light) ? ['serviceable', 'failed'] : [];
    const sequence = sequences.get(name);
    if (sequence) return this.#meaning.isFitted(fit, name) ? [...sequence.modes.keys()] : [];
    if (this.isDetector(name)) return ['no', 'yes'];
    return this.#steps.get(name) ?? [...(conditions.get(name)?.values.keys() ?? [])];
  }

  /** The same with one step for all steps of a number that nothing in the content tells apart. */
  cellsOn(fit: Fit, name: string): readonly string[] {
    return this.#cells.get(name) ?? this.valuesOn(fit, name);
  }

  /** The step that stands for a value of a number; any other value as it is. */
  cellOf(name: string, value: string): string {
    const sign = this.#signOf(name, value);
    return this.#cells.get(name)?.find((cell) => this.#signOf(name, cell) === sign) ?? value;
  }

  #signOf(name: string, value: string): string {
    const limits = this.#thresholds.get(name) ?? [];
    return limits.map((limit) => `${compares(value, '<', limit)}${compares(value, '=', limit)}`).join();
  }

  #collectNumbers(): void {
    const read = allMentions(this.#content);
    for (const [id, { number }] of this.#content.conditions) {
      if (!number) continue;
      const thresholds = read.flatMap(({ name, threshold }) =>
        name === id && threshold !== undefined ? [threshold] : [],
      );
      this.#thresholds.set(id, thresholds);
      const steps = representatives(number, thresholds);
      this.#steps.set(id, steps);
      this.#cells.set(id, [...new Map([...steps].reverse().map((step) => [this.#signOf(id, step), step])).values()]);
    }
  }
}

/** Everything that anything in the content reads. */
function allMentions(content: ContentText): Mention[] {
  const { claims, items, never, overrides, procedures, sequences, signals, sounds, timelines } = content;
  const texts = [
    ...never,
    ...signals.values(),
    ...claims.map(({ holds }) => holds),
    ...overrides.map(({ when }) => when),
  ];
  for (const { stores, transitions } of sequences.values()) {
    for (const { when, since } of transitions) texts.push(when ?? 'always', since?.event ?? 'always');
    for (const { flows } of stores.values()) texts.push(...flows.map(({ when }) => when));
  }
  for (const { triggers } of sounds.values()) {
    for (const trigger of triggers) texts.push(trigger.becomes ?? 'always', trigger.while ?? 'always');
  }
  for (const { stages } of procedures.values()) {
    for (const { claims: held } of stages) texts.push(...held.map(({ holds }) => holds));
  }
  for (const { expects } of timelines.values()) texts.push(...expects.map(({ holds }) => holds));
  const read = texts.flatMap((text) => mentions(content, text));
  for (const item of items.values()) {
    for (const attribute of item.attributes.keys()) read.push(...mentionsOfAttribute(content, item.id, attribute));
  }
  for (const { id, number, low, value, high } of content.detectors.values())
    read.push(...[low, value, high].map((threshold) => ({ name: number, threshold })), {
      name: id,
      threshold: undefined,
    });
  return read;
}
