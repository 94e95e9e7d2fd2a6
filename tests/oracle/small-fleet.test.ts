import { describe, expect, test } from 'vitest';
import { smallFleet } from '../helpers/content.ts';
import { type Case, loadOracle } from './index.ts';

const oracle = loadOracle(smallFleet);

const powered = { 'ac-bus-1': 'powered', 'ac-bus-2': 'powered', 'dc-bus': 'powered' };
const off = {
  'anti-collision': 'OFF',
  position: 'OFF',
  'set-transfer': 'SET-1',
  logo: 'OFF',
  'wing-inspection': 'OFF',
  'turn-off': 'OFF',
  taxi: 'OFF',
  'take-off': 'OFF',
  landing: 'OFF',
  'landing-stowage': 'STOW',
};
/** At the gate, at night, everything off. */
const parked = {
  ...powered,
  ...off,
  'main-gear': 'compressed',
  'landing-gear': 'down',
  slats: 'in',
  'parking-brake': 'set',
  engines: 'stopped',
  ambient: 'night',
  airspeed: '0',
};
/** Cleared to line up: engines running, slats out, brake released. */
const liningUp = { ...parked, slats: 'out', 'parking-brake': 'released', engines: 'running', airspeed: '10' };
/** In cruise by night. */
const cruise = {
  ...liningUp,
  'main-gear': 'extended',
  'landing-gear': 'up',
  slats: 'in',
  airspeed: '300',
};
/** On final approach by night. */
const approach = { ...cruise, 'landing-gear': 'down', slats: 'out', airspeed: '140' };

type Vector = [aircraft: string, item: string, situation: Case, changes: Case, state: string];

// A: one set, fixed, manual. C: two sets. E: two sets, automatic. H: retractable, one set. J: retractable, two sets,
// automatic, struts only. K: as J with struts and slats.
const vectors: Vector[] = [
  ['QQ-OAA', 'red-anti-collision-lights.lamp', liningUp, {}, 'dark'],
  ['QQ-OAA', 'red-anti-collision-lights.lamp', parked, { 'anti-collision': 'RED' }, 'flashing'],
  ['QQ-OAA', 'red-anti-collision-lights.lamp', parked, { 'anti-collision': 'ALL' }, 'flashing'],
  ['QQ-OAA', 'red-anti-collision-lights.lamp', parked, { 'anti-collision': 'AUTO' }, 'dark'],
  ['QQ-OAA', 'red-anti-collision-lights.lamp', liningUp, { 'anti-collision': 'AUTO' }, 'flashing'],
  ['QQ-OAA', 'red-anti-collision-lights.lamp', cruise, { 'anti-collision': 'AUTO', engines: 'stopped' }, 'flashing'],
  ['QQ-OAA', 'red-anti-collision-lights.lamp', cruise, { 'anti-collision': 'ALL', 'ac-bus-1': 'lost' }, 'dark'],

  ['QQ-OAK', 'white-anti-collision-lights.lamp', cruise, { 'anti-collision': 'OFF' }, 'dark'],
  ['QQ-OAK', 'white-anti-collision-lights.lamp', cruise, { 'anti-collision': 'RED' }, 'dark'],
  ['QQ-OAK', 'white-anti-collision-lights.lamp', cruise, { 'anti-collision': 'AUTO' }, 'flashing'],
  ['QQ-OAK', 'white-anti-collision-lights.lamp', parked, { 'anti-collision': 'ALL' }, 'flashing'],
  ['QQ-OAK', 'white-anti-collision-lights.lamp', liningUp, { 'anti-collision': 'AUTO' }, 'flashing'],
  ['QQ-OAJ', 'white-anti-collision-lights.lamp', liningUp, { 'anti-collision': 'AUTO' }, 'dark'],
  ['QQ-OAK', 'white-anti-collision-lights.lamp', liningUp, { 'anti-collision': 'AUTO', slats: 'in' }, 'dark'],
  ['QQ-OAK', 'white-anti-collision-lights.lamp', cruise, { 'anti-collision': 'AUTO', 'ac-bus-2': 'lost' }, 'dark'],

  ['QQ-OAA', 'red-only.lamp', cruise, { 'anti-collision': 'RED' }, 'lit'],
  ['QQ-OAA', 'red-only.lamp', cruise, { 'anti-collision': 'ALL' }, 'dark'],
  ['QQ-OAA', 'red-only.lamp', cruise, { 'anti-collision': 'ALL', 'ac-bus-2': 'lost' }, 'lit'],
  ['QQ-OAA', 'red-only.lamp', parked, { 'anti-collision': 'RED' }, 'dark'],

  ['QQ-OAA', 'position-lights-1.lamp', parked, {}, 'dark'],
  ['QQ-OAA', 'position-lights-1.lamp', parked, { position: 'ON' }, 'lit'],
  ['QQ-OAA', 'position-lights-1.lamp', parked, { position: 'ON', 'dc-bus': 'lost' }, 'dark'],
  ['QQ-OAC', 'position-lights-1.lamp', parked, { position: 'ON', 'set-transfer': 'SET-1' }, 'lit'],
  ['QQ-OAC', 'position-lights-1.lamp', parked, { position: 'ON', 'set-transfer': 'SET-2' }, 'dark'],

  ['QQ-OAA', 'position-lights-2.lamp', parked, { position: 'ON' }, 'not-fitted'],
  ['QQ-OAC', 'position-lights-2.lamp', parked, { position: 'ON', 'set-transfer': 'SET-1' }, 'dark'],
  ['QQ-OAC', 'position-lights-2.lamp', parked, { position: 'ON', 'set-transfer': 'SET-2' }, 'lit'],
  ['QQ-OAC', 'position-lights-2.lamp', parked, { position: 'OFF', 'set-transfer': 'SET-2' }, 'dark'],
  ['QQ-OAC', 'position-lights-2.lamp', parked, { position: 'ON', 'dc-bus': 'lost' }, 'lit'],
  ['QQ-OAC', 'set-2-in-use.lamp', parked, { position: 'ON', 'dc-bus': 'lost' }, 'lit'],
  ['QQ-OAC', 'set-2-in-use.lamp', parked, { 'set-transfer': 'SET-2' }, 'lit'],
  ['QQ-OAC', 'set-2-in-use.lamp', parked, { position: 'ON' }, 'dark'],

  ['QQ-OAA', 'logo-lights.lamp', parked, { logo: 'OFF' }, 'dark'],
  ['QQ-OAA', 'logo-lights.lamp', cruise, { logo: 'ON' }, 'lit'],
  ['QQ-OAA', 'logo-lights.lamp', cruise, { logo: 'ON', 'ac-bus-2': 'lost' }, 'dark'],
  ['QQ-OAE', 'logo-lights.lamp', parked, { logo: 'AUTO' }, 'lit'],
  ['QQ-OAE', 'logo-lights.lamp', parked, { logo: 'AUTO', ambient: 'day' }, 'dark'],
  ['QQ-OAE', 'logo-lights.lamp', approach, { logo: 'AUTO' }, 'dark'],
  ['QQ-OAK', 'logo-lights.lamp', approach, { logo: 'AUTO' }, 'lit'],
  ['QQ-OAK', 'logo-lights.lamp', cruise, { logo: 'AUTO' }, 'dark'],
  ['QQ-OAK', 'logo-lit.lamp', approach, { logo: 'AUTO' }, 'lit'],
  ['QQ-OAK', 'logo-lit.lamp', approach, { logo: 'ON' }, 'dark'],
  ['QQ-OAA', 'logo-lit.lamp', approach, { logo: 'ON' }, 'not-fitted'],

  ['QQ-OAA', 'wing-inspection-lights.lamp', parked, { 'wing-inspection': 'OFF' }, 'dark'],
  ['QQ-OAA', 'wing-inspection-lights.lamp', parked, { 'wing-inspection': 'ON' }, 'dim'],
  ['QQ-OAA', 'wing-inspection-lights.lamp', cruise, { 'wing-inspection': 'ON' }, 'bright'],
  ['QQ-OAA', 'wing-inspection-lights.lamp', cruise, { 'wing-inspection': 'ON', 'ac-bus-1': 'lost' }, 'dark'],

  ['QQ-OAA', 'turn-off-lights.lamp', liningUp, { 'turn-off': 'OFF' }, 'dark'],
  ['QQ-OAA', 'turn-off-lights.lamp', liningUp, { 'turn-off': 'ON' }, 'lit'],
  ['QQ-OAA', 'turn-off-lights.lamp', liningUp, { 'turn-off': 'AUTO' }, 'lit'],
  ['QQ-OAA', 'turn-off-lights.lamp', liningUp, { 'turn-off': 'AUTO', airspeed: '79' }, 'lit'],
  ['QQ-OAA', 'turn-off-lights.lamp', liningUp, { 'turn-off': 'AUTO', airspeed: '80' }, 'dark'],
  ['QQ-OAA', 'turn-off-lights.lamp', parked, { 'turn-off': 'AUTO' }, 'dark'],
  ['QQ-OAJ', 'turn-off-lights.lamp', approach, { 'turn-off': 'AUTO' }, 'dark'],
  ['QQ-OAK', 'turn-off-lights.lamp', approach, { 'turn-off': 'AUTO' }, 'lit'],
  ['QQ-OAK', 'turn-off-lights.lamp', cruise, { 'turn-off': 'ON' }, 'dark'],

  ['QQ-OAA', 'taxi-lights.lamp', parked, { taxi: 'OFF' }, 'dark'],
  ['QQ-OAA', 'taxi-lights.lamp', parked, { taxi: 'ON' }, 'lit'],
  ['QQ-OAA', 'taxi-lights.lamp', cruise, { taxi: 'ON' }, 'dark'],
  ['QQ-OAA', 'take-off-light.lamp', liningUp, { 'take-off': 'OFF' }, 'dark'],
  ['QQ-OAA', 'take-off-light.lamp', liningUp, { 'take-off': 'ARMED' }, 'lit'],
  ['QQ-OAA', 'take-off-light.lamp', liningUp, { 'take-off': 'ARMED', 'parking-brake': 'set' }, 'dark'],
  ['QQ-OAA', 'leg-lights-inhibited.lamp', cruise, { 'take-off': 'ARMED' }, 'lit'],
  ['QQ-OAA', 'leg-lights-inhibited.lamp', cruise, { 'turn-off': 'AUTO' }, 'dark'],
  ['QQ-OAA', 'leg-lights-inhibited.lamp', approach, { taxi: 'ON' }, 'dark'],

  ['QQ-OAA', 'fixed-landing-lights.lamp', approach, { landing: 'OFF' }, 'dark'],
  ['QQ-OAA', 'fixed-landing-lights.lamp', approach, { landing: 'ON' }, 'both'],
  ['QQ-OAA', 'fixed-landing-lights.lamp', approach, { landing: 'ON', 'ac-bus-2': 'lost' }, 'left'],
  ['QQ-OAA', 'fixed-landing-lights.lamp', approach, { landing: 'ON', 'ac-bus-1': 'lost' }, 'right'],
  ['QQ-OAH', 'fixed-landing-lights.lamp', approach, { landing: 'ON' }, 'not-fitted'],
  ['QQ-OAH', 'retractable-landing-lights.stowage', approach, { 'landing-stowage': 'STOW' }, 'stowed'],
  ['QQ-OAH', 'retractable-landing-lights.stowage', approach, { 'landing-stowage': 'EXTEND' }, 'extended'],
  ['QQ-OAH', 'retractable-landing-lights.stowage', cruise, { 'landing-stowage': 'EXTEND' }, 'extended'],
  [
    'QQ-OAK',
    'retractable-landing-lights.stowage',
    cruise,
    { 'landing-stowage': 'EXTEND', airspeed: '230' },
    'extended',
  ],
  ['QQ-OAK', 'retractable-landing-lights.stowage', cruise, { 'landing-stowage': 'EXTEND', airspeed: '231' }, 'stowed'],
  ['QQ-OAK', 'retractable-landing-lights.lamp', approach, { landing: 'ON' }, 'dark'],
  ['QQ-OAK', 'retractable-landing-lights.lamp', approach, { landing: 'ON', 'landing-stowage': 'EXTEND' }, 'lit'],
  ['QQ-OAK', 'retractable-landing-lights.lamp', cruise, { landing: 'ON', 'landing-stowage': 'EXTEND' }, 'dark'],
  ['QQ-OAK', 'lights-extended.lamp', approach, { 'landing-stowage': 'EXTEND' }, 'lit'],
  ['QQ-OAK', 'lights-extended.lamp', cruise, { 'landing-stowage': 'EXTEND' }, 'dark'],

  ['QQ-OAA', 'anti-collision-off.display', liningUp, {}, 'shown'],
  ['QQ-OAA', 'anti-collision-off.display', parked, {}, 'not-shown'],
  ['QQ-OAA', 'position-lights-off.display', liningUp, {}, 'shown'],
  ['QQ-OAA', 'position-lights-off.display', liningUp, { position: 'ON', 'dc-bus': 'lost' }, 'shown'],
  ['QQ-OAC', 'position-lights-off.display', liningUp, { position: 'ON', 'dc-bus': 'lost' }, 'not-shown'],
  ['QQ-OAH', 'landing-lights-speed.display', cruise, { 'landing-stowage': 'EXTEND', airspeed: '220' }, 'not-shown'],
  ['QQ-OAH', 'landing-lights-speed.display', cruise, { 'landing-stowage': 'EXTEND', airspeed: '221' }, 'shown'],
  ['QQ-OAK', 'landing-lights-speed.display', cruise, { 'landing-stowage': 'EXTEND', airspeed: '231' }, 'not-shown'],
  ['QQ-OAA', 'landing-lights-on.display', parked, { landing: 'ON' }, 'shown'],
  ['QQ-OAA', 'landing-lights-on.display', liningUp, { landing: 'ON' }, 'not-shown'],
  ['QQ-OAH', 'landing-lights-on.display', parked, { landing: 'ON' }, 'not-shown'],
  ['QQ-OAH', 'landing-lights-on.display', parked, { landing: 'ON', 'landing-stowage': 'EXTEND' }, 'shown'],
];

describe('the rules of the demo, case by case', () => {
  test.each(vectors)('%s %s %j %j is %s', (registration, item, situation, changes, state) => {
    const [id = '', attribute = ''] = item.split('.');
    expect(oracle.state(oracle.fitOf(registration), id, attribute, { ...situation, ...changes })).toBe(state);
  });

  test('the vectors know every item and every position of every control', () => {
    const items = new Set(vectors.map(([, item]) => item));
    const positions = new Set(
      vectors.flatMap(([, , , changes]) => Object.entries(changes).map((entry) => entry.join('='))),
    );
    for (const { id, attributes } of oracle.content.items.values()) {
      for (const attribute of attributes.keys()) expect(items).toContain(`${id}.${attribute}`);
    }
    for (const control of oracle.content.controls.values()) {
      for (const position of control.positions.keys()) expect(positions).toContain(`${control.id}=${position}`);
    }
  });
});

describe('the small fleet as a whole', () => {
  test('twelve aircraft fly in six fits', () => {
    expect(oracle.fits.map((fit) => [fit.id, fit.registrations.join(' ')])).toEqual([
      ['manual/single/fixed/struts', 'QQ-OAA QQ-OAB QQ-OAD'],
      ['manual/dual/fixed/struts', 'QQ-OAC QQ-OAG'],
      ['automatic/dual/fixed/struts', 'QQ-OAE QQ-OAF'],
      ['manual/single/retractable/struts', 'QQ-OAH'],
      ['automatic/dual/retractable/struts', 'QQ-OAJ QQ-OAM'],
      ['automatic/dual/retractable/struts-slats', 'QQ-OAK QQ-OAL'],
    ]);
  });

  test('the rules decide every case that can happen', () => {
    for (const item of oracle.content.items.values()) {
      for (const attribute of item.attributes.values()) {
        const variables = oracle.variables(item.id, attribute.id);
        for (const fit of oracle.fits) {
          for (const given of oracle.cases(fit, variables)) {
            expect(['not-fitted', ...attribute.states.keys()]).toContain(
              oracle.state(fit, item.id, attribute.id, given),
            );
          }
        }
      }
    }
  });

  test('every state of every item is reached somewhere', () => {
    for (const item of oracle.content.items.values()) {
      for (const attribute of item.attributes.values()) {
        const variables = oracle.variables(item.id, attribute.id);
        const reached = new Set(
          oracle.fits.flatMap((fit) =>
            [...oracle.cases(fit, variables)].map((given) => oracle.state(fit, item.id, attribute.id, given)),
          ),
        );
        expect([...attribute.states.keys()].filter((state) => !reached.has(state))).toEqual([]);
      }
    }
  });

  test.each(oracle.content.claims)('it is true: $sentence', ({ holds }) => {
    expect(oracle.counterexample(holds)).toBeUndefined();
  });

  test.each([
    ['red-anti-collision-lights.lamp', 'ACEHJK'],
    ['white-anti-collision-lights.lamp', 'ACEHJ K'],
    ['position-lights-1.lamp', 'AH CEJK'],
    ['position-lights-2.lamp', 'AH CEJK'],
    ['logo-lights.lamp', 'ACH EJ K'],
    ['turn-off-lights.lamp', 'ACEHJ K'],
    ['retractable-landing-lights.stowage', 'ACE HJ K'],
    ['landing-lights-on.display', 'ACE HJK'],
  ])('%s has the fit groups %s', (item, expected) => {
    const [id = '', attribute = ''] = item.split('.');
    const groups: string[] = [];
    for (const letter of 'ACEHJK') {
      const fit = oracle.fitOf(`QQ-OA${letter}`);
      const at = groups.findIndex((group) => oracle.alike(id, attribute, oracle.fitOf(`QQ-OA${group[0]}`), fit));
      if (at < 0) groups.push(letter);
      else groups[at] += letter;
    }
    expect(groups.join(' ')).toBe(expected);
  });
});
