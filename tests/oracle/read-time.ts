/** The oracle's own reading of sequences, latches, sounds and timelines. */
import type { ProcedureText, SequenceText, SoundText, TimelineText, TimeText, TransitionText } from './content.ts';
import { scaled, unscaled } from './decimal.ts';
import { listOf, mapOf, type Raw, spaced, withSmallInitial } from './read-yaml.ts';

const SECONDS: Readonly<Record<string, bigint>> = { s: 1n, min: 60n, h: 3600n };
const TIME = String.raw`(\d+(?:\.\d+)?)\s*(s|min|h)(?:\s*\+/-\s*(\d+(?:\.\d+)?)\s*(s|min|h))?`;

/** "2 min +/- 5 s": both in seconds, exactly. */
export function timeOf(text: string): TimeText {
  const found = new RegExp(`^\\s*${TIME}\\s*$`).exec(text);
  if (!found) throw new Error(`not a time: ${text}`);
  const [, value = '', unit = '', tolerance, toleranceUnit = ''] = found;
  return { seconds: inSeconds(value, unit), tolerance: tolerance && inSeconds(tolerance, toleranceUnit) };
}

function inSeconds(value: string, unit: string): string {
  const digits = value.split('.')[1]?.length ?? 0;
  return unscaled(scaled(value, digits) * SECONDS[unit]!, digits);
}

function transition(raw: Raw): TransitionText {
  const held = new RegExp(`^(.*)\\sfor\\s+(${TIME})\\s*$`, 's').exec(raw.when ?? '');
  return {
    from: listOf(raw.from),
    to: String(raw.to),
    when: held ? held[1] : raw.when,
    holds: held ? timeOf(held[2]!) : undefined,
    after: raw.after === undefined ? undefined : timeOf(raw.after),
    since:
      raw.since === undefined
        ? undefined
        : { event: raw.since, delay: timeOf(raw.delay ?? '0 s'), restarts: raw.restarts ?? false },
  };
}

export function readSequence(panel: string, id: string, raw: Raw): SequenceText {
  const flow = (kind: 'fills' | 'drains') => (one: Raw) => ({
    kind,
    when: one.when,
    perMinute: String(one['per-minute']),
  });
  return {
    id,
    panel,
    kind: 'sequence',
    title: raw.title,
    noun: raw.noun ?? `the ${withSmallInitial(raw.title)}`,
    fitted: raw.fitted ?? 'always',
    initial: String(raw.initial),
    normal: raw.normal,
    modes: mapOf(raw.modes, (mode, value) => ({
      title: value.title ?? spaced(mode),
      says: value.says ?? '',
      sets: [...mapOf(value.sets, (_, level) => String(level))].map(([store, level]) => ({ store, level })),
      final: value.final ?? false,
    })),
    stores: mapOf(raw.stores, (store, value) => ({
      id: store,
      title: value.title,
      unit: value.unit,
      capacity: String(value.capacity),
      start: String(value.start),
      flows: [...(value.fills ?? []).map(flow('fills')), ...(value.drains ?? []).map(flow('drains'))],
    })),
    transitions: (raw.transitions ?? []).map(transition),
  };
}

/** Two modes; where both ends hold, the one that wins decides. */
export function latchOf(names: Raw, set: string, reset: string, wins: string): SequenceText {
  const noun = names.noun ?? `the ${withSmallInitial(names.title)}`;
  const mode = (title: string) => ({
    title,
    says: `with ${noun} ${title}`,
    sets: [],
    final: title === 'set' && reset === 'never',
  });
  const timeless = { holds: undefined, after: undefined, since: undefined };
  const but = (own: string, other: string, winning: boolean) => (winning ? own : `(${own}) and not (${other})`);
  return {
    panel: names.panel,
    id: names.id,
    title: names.title,
    kind: 'latch',
    noun,
    fitted: names.fitted ?? 'always',
    initial: 'reset',
    normal: names.normal,
    modes: new Map([
      ['reset', mode('reset')],
      ['set', mode('set')],
    ]),
    stores: new Map(),
    transitions: [
      { from: ['reset'], to: 'set', when: but(set, reset, wins === 'set'), ...timeless },
      { from: ['set'], to: 'reset', when: but(reset, set, wins === 'reset'), ...timeless },
    ],
  };
}

export function readSound(panel: string, id: string, raw: Raw): SoundText {
  return {
    id,
    panel,
    title: raw.title,
    fitted: raw.fitted ?? 'always',
    sounds: raw.sounds,
    triggers: (raw.triggers ?? []).map((one: Raw) => ({
      moves: one.moves,
      from: one.from && listOf(one.from),
      to: one.to && listOf(one.to),
      becomes: one.becomes,
      while: one.while,
    })),
  };
}

export function readTimeline(id: string, raw: Raw): TimelineText {
  return {
    id,
    title: raw.title,
    on: String(raw.on),
    shows: listOf(raw.shows),
    steps: raw.steps.map((step: Raw) => ({
      at: timeOf(step.at).seconds,
      sets: mapOf(step.set, (_, value) => String(value)),
    })),
    until: timeOf(raw.until).seconds,
    expects: (raw.expect ?? []).map((one: Raw) => ({ at: timeOf(one.at).seconds, holds: one.holds })),
  };
}

export function readProcedure(raw: Raw): ProcedureText {
  const stages = mapOf(raw.stages, (id, stage) => ({
    id,
    title: stage.title,
    conditions: mapOf(stage.conditions, (_, value) => listOf(value)),
    positions: mapOf(stage.positions, (_, value) =>
      (Array.isArray(value) ? value : [value]).map((one: Raw) =>
        typeof one === 'object'
          ? { when: one.when ?? 'always', position: String(one.position) }
          : { when: 'always', position: String(one) },
      ),
    ),
    claims: (stage.claims ?? []).map((one: Raw) => ({ sentence: one.sentence, holds: one.holds })),
  }));
  return { id: raw.procedure, title: raw.title, stages: [...stages.values()] };
}
