/**
 * A Book written by hand, so that the pages can be tested alone: every page kind, several fit groups, a group without
 * the item, a constant group, abnormal tables, number columns, long tables and differences. It states no real logic.
 */
import remarkDirective from 'remark-directive';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import type {
  AircraftPage,
  AttributeView,
  Book,
  Cell,
  ConditionPage,
  ControlPage,
  Effectivity,
  FlowVertex,
  FlowView,
  GroupView,
  Inline,
  ItemPage,
  Listed,
  OptionPage,
  Page,
  Row,
  StateView,
  TableView,
} from '../../src/book/book.ts';
import type { DifferenceView, LoneView, PanelDifferences } from '../../src/book/book-differences.ts';
import { flowParts } from '../../src/book/flow-parts.ts';
import { mermaidText } from '../../src/book/mermaid.ts';
import type { Note } from '../../src/model/index.ts';

const letters = 'ABCDEFGHIJKL'.split('');
const registration = (letter: string) => `QQ-OA${letter}`;
const aircraftAddress = (letter: string) => `aircraft/qq-oa${letter.toLowerCase()}.html`;

function on(which: string, text: string): Effectivity {
  return {
    whole: which.length === letters.length,
    aircraft: which.split('').map((letter) => ({ registration: registration(letter), to: aircraftAddress(letter) })),
    text,
  };
}
const whole = on('ABCDEFGHIJKL', 'the whole fleet');
const most = on('ABDEFGHIJK', 'QQ-OAA to QQ-OAK except QQ-OAC, 10 aircraft');
const few = on('CL', 'QQ-OAC and QQ-OAL, 2 aircraft');
const first = on('ABCD', 'QQ-OAA to QQ-OAD, 4 aircraft');
const rest = on('EFGHIJ', 'QQ-OAE to QQ-OAJ, 6 aircraft');
const last = on('KL', 'QQ-OAK and QQ-OAL, 2 aircraft');

const text = (words: string): Inline => ({ kind: 'text', text: words });
const legend = (words: string): Inline => ({ kind: 'legend', text: words });
const link = (to: Listed): Inline => ({ kind: 'link', to: to.to, text: to.title });
/** "[ON] rest" becomes a legend and words. */
function inline(words: string): Inline[] {
  return words
    .split(/(\[[^\]]+\])/)
    .filter((part) => part !== '')
    .map((part) => (part.startsWith('[') ? legend(part.slice(1, -1)) : text(part)));
}

const dark: StateView = { glyph: 'dark', text: 'Dark' };
const lit: StateView = { glyph: 'lit', text: 'Lit' };
const flashing: StateView = { glyph: 'flashing', text: 'Flashing' };
const shown: StateView = { glyph: 'none', text: 'Shown' };
const hidden: StateView = { glyph: 'none', text: 'Not shown' };
const notFitted: StateView = { glyph: 'not-fitted', text: 'Not fitted' };
const impossible: StateView = { glyph: 'impossible', text: 'Cannot happen' };

/** Rows written as "[ON] | any | set": `any` and repetition are found here. */
function rows(lines: readonly (readonly [string, StateView])[]): Row[] {
  let above: string[] = [];
  return lines.map(([line, result]) => {
    const words = line.split('|').map((cell) => cell.trim());
    const starts = words[0] !== above[0];
    const cells = words.map(
      (cell, column): Cell => ({
        text: inline(cell),
        any: cell === 'any',
        again: cell !== 'any' && !starts && words.slice(0, column + 1).every((word, at) => word === above[at]),
      }),
    );
    above = words;
    return {
      key: words
        .join('_')
        .toLowerCase()
        .replace(/[^a-z0-9_]+/g, '-'),
      cells,
      result,
      first: starts,
    };
  });
}
function table(
  id: string,
  caption: string,
  columns: string,
  resultTitle: string,
  lines: readonly (readonly [string, StateView])[],
): TableView {
  return {
    id,
    caption,
    columns: columns.split('|').map((column) => {
      const [title, note] = column.split('~');
      return { title: [text((title ?? '').trim())], ...(note === undefined ? {} : { note: note.trim() }) };
    }),
    resultTitle,
    rows: rows(lines),
  };
}
/** Edges written as "a > b : label"; vertices as "id ? words" or "id = glyph words". */
function flow(id: string, title: string, lines: readonly string[], answers: readonly string[]): FlowView {
  const vertices = lines.map((line): FlowVertex => {
    const question = /^(\S+) \? (.+)$/.exec(line);
    if (question) return { id: question[1] ?? '', kind: 'question', text: question[2] ?? '' };
    const state = /^(\S+) = (\S+) (.+)$/.exec(line);
    const glyph = (state?.[2] ?? 'none') as StateView['glyph'];
    return { id: state?.[1] ?? '', kind: 'state', glyph, text: state?.[3] ?? '' };
  });
  const edges = answers.map((line) => {
    const parts = /^(\S+) > (\S+) : (.+)$/.exec(line);
    return { from: parts?.[1] ?? '', to: parts?.[2] ?? '', label: parts?.[3] ?? '' };
  });
  const parts = flowParts(vertices, edges).map((part, at) => ({
    id: `${id}-${at}`,
    title,
    vertices: part.vertices,
    edges: part.edges,
    mermaid: mermaidText(part.vertices, part.edges),
  }));
  return { id, title, parts };
}

const home: Listed = { to: 'index.html', title: 'Home' };
const exterior: Listed = { to: 'panels/exterior-lights.html', title: 'Exterior lights' };
const signs: Listed = { to: 'panels/passenger-signs.html', title: 'Passenger signs' };
const controls = {
  logo: { to: 'controls/logo.html', title: 'Logo switch', detail: 'toggle switch' },
  landing: { to: 'controls/landing-left.html', title: 'Left landing light switch', detail: 'toggle switch' },
  taxi: { to: 'controls/taxi.html', title: 'Taxi light switch', detail: 'toggle switch' },
  belts: { to: 'controls/seat-belts.html', title: 'Seat-belt switch', detail: 'rotary selector' },
} satisfies Record<string, Listed>;
const items = {
  logo: { to: 'items/logo-lights.html', title: 'Logo lights', detail: 'white' },
  landing: { to: 'items/landing-light-left.html', title: 'Left landing light', detail: 'white' },
  taxi: { to: 'items/taxi-lights.html', title: 'Taxi lights', detail: 'white' },
  transit: { to: 'items/landing-transit.html', title: 'Landing light transit annunciator', detail: 'amber' },
  belts: { to: 'items/seat-belt-signs.html', title: 'Seat-belt signs', detail: 'sign' },
  out: { to: 'items/landing-out.html', title: 'Landing lights extended', detail: 'reminder' },
} satisfies Record<string, Listed>;
const conditions = {
  gear: { to: 'conditions/main-gear.html', title: 'Main gear struts' },
  brake: { to: 'conditions/parking-brake.html', title: 'Parking brake' },
  slats: { to: 'conditions/slats.html', title: 'Slats' },
  bus: { to: 'conditions/ac-bus-2.html', title: 'AC bus 2' },
  speed: { to: 'conditions/airspeed.html', title: 'Airspeed' },
  altitude: { to: 'conditions/cabin-altitude.html', title: 'Cabin altitude' },
} satisfies Record<string, Listed>;
const options = {
  logo: { to: 'options/logo-control.html', title: 'Logo light control' },
  mount: { to: 'options/landing-mount.html', title: 'Landing light mount' },
} satisfies Record<string, Listed>;
const about: Listed = { to: 'about.html', title: 'About and cautions' };
const differences: Listed = { to: 'differences.html', title: 'Differences from QQ-OAA' };

const logoColumns = 'Logo switch | Main gear struts | Parking brake | Slats';
const logoGroups: GroupView[] = [
  {
    id: 'logo-lights-1',
    effectivity: most,
    normal: table('logo-lights-1-normal', 'Normal cases', logoColumns, 'Logo lights', [
      ['[OFF] | any | any | any', dark],
      ['[AUTO] | compressed | set | any', lit],
      ['[AUTO] | compressed | released | any', dark],
      ['[AUTO] | extended | any | out', lit],
      ['[AUTO] | extended | any | in', dark],
      ['[ON] | any | any | any', lit],
    ]),
    abnormal: table('logo-lights-1-abnormal', 'Abnormal cases', 'Logo switch | AC bus 2', 'Logo lights', [
      ['any | lost', dark],
    ]),
    flow: flow(
      'logo-lights-1-flow',
      'Logo lights, normal cases',
      [
        'n0 ? Logo switch',
        'n1 ? Main gear struts',
        'n2 ? Parking brake',
        'n3 ? Slats',
        's0 = dark Dark',
        's1 = lit Lit',
      ],
      [
        'n0 > s0 : OFF',
        'n0 > n1 : AUTO',
        'n0 > s1 : ON',
        'n1 > n2 : compressed',
        'n1 > n3 : extended',
        'n2 > s1 : set',
        'n2 > s0 : released',
        'n3 > s1 : out',
        'n3 > s0 : in',
      ],
    ),
  },
  {
    id: 'logo-lights-2',
    effectivity: few,
    normal: table('logo-lights-2-normal', 'Normal cases', 'Logo switch', 'Logo lights', [
      ['[OFF]', dark],
      ['[ON]', lit],
    ]),
    abnormal: table('logo-lights-2-abnormal', 'Abnormal cases', 'Logo switch | AC bus 2', 'Logo lights', [
      ['any | lost', dark],
    ]),
  },
];
const logoAttribute: AttributeView = { id: 'logo-lights', title: 'Logo lights', to: items.logo.to, groups: logoGroups };

const landingColumns =
  'Left landing light switch | Landing light master | Main gear struts | Airspeed ~ kt | Slats | Taxi light switch';
const landingLines: [string, StateView][] = [];
for (const position of ['RETRACT', 'OFF', 'ON']) {
  for (const master of ['NORMAL', 'INHIBIT']) {
    landingLines.push(
      [`[${position}] | [${master}] | compressed | any | any | [OFF]`, position === 'ON' ? lit : dark],
      [`[${position}] | [${master}] | compressed | any | any | [ON] or [BRIGHT]`, position === 'ON' ? flashing : dark],
      [`[${position}] | [${master}] | extended | 240 kt or below | out | any`, position === 'ON' ? lit : dark],
      [`[${position}] | [${master}] | extended | above 240, to 320 kt | out | any`, dark],
      [`[${position}] | [${master}] | extended | above 320 kt | in | any`, position === 'ON' ? dark : impossible],
    );
  }
}
const landingLamp: AttributeView = {
  id: 'landing-light-left-lamp',
  title: 'Left landing light: lamp',
  to: items.landing.to,
  groups: [
    {
      id: 'landing-light-left-lamp-1',
      effectivity: first,
      normal: table(
        'landing-light-left-lamp-1-normal',
        'Normal cases',
        landingColumns,
        'Left landing light: lamp',
        landingLines,
      ),
      abnormal: table(
        'landing-light-left-lamp-1-abnormal',
        'Abnormal cases',
        'Left landing light switch | AC bus 2 | Main gear struts',
        'Left landing light: lamp',
        [
          ['[RETRACT] | lost | any', dark],
          ['[OFF] | lost | any', dark],
          ['[ON] | lost | compressed', lit],
          ['[ON] | lost | extended', dark],
        ],
      ),
    },
    {
      id: 'landing-light-left-lamp-2',
      effectivity: rest,
      normal: table(
        'landing-light-left-lamp-2-normal',
        'Normal cases',
        'Left landing light switch | Airspeed ~ kt',
        'Left landing light: lamp',
        [
          ['[OFF] | any', dark],
          ['[ON] | 240 kt or below', lit],
          ['[ON] | above 240 kt', dark],
        ],
      ),
      flow: flow(
        'landing-light-left-lamp-2-flow',
        'Left landing light: lamp, normal cases',
        ['n0 ? Left landing light switch', 'n1 ? Airspeed', 's0 = dark Dark', 's1 = lit Lit'],
        ['n0 > s0 : OFF', 'n0 > n1 : ON', 'n1 > s1 : 240 kt or below', 'n1 > s0 : above 240 kt'],
      ),
    },
    { id: 'landing-light-left-lamp-3', effectivity: last, constant: notFitted },
  ],
};
const stowed: StateView = { glyph: 'none', text: 'Stowed' };
const landingStowage: AttributeView = {
  id: 'landing-light-left-stowage',
  title: 'Left landing light: stowage',
  to: items.landing.to,
  groups: [
    {
      id: 'landing-light-left-stowage-1',
      effectivity: first,
      normal: table(
        'landing-light-left-stowage-1-normal',
        'Normal cases',
        'Left landing light switch',
        'Left landing light: stowage',
        [
          ['[RETRACT]', stowed],
          ['[OFF] or [ON]', { glyph: 'none', text: 'Extended' }],
        ],
      ),
    },
    {
      id: 'landing-light-left-stowage-2',
      effectivity: rest,
      constant: { glyph: 'none', text: 'Extended in every case' },
    },
    { id: 'landing-light-left-stowage-3', effectivity: last, constant: notFitted },
  ],
};
const oneGroup = (
  id: string,
  title: string,
  to: string,
  effectivity: Effectivity,
  normal: TableView,
): AttributeView => ({
  id,
  title,
  to,
  groups: [{ id: `${id}-1`, effectivity, normal }],
});
const taxiAttribute: AttributeView = {
  id: 'taxi-lights',
  title: 'Taxi lights',
  to: items.taxi.to,
  groups: [
    {
      id: 'taxi-lights-1',
      effectivity: most,
      normal: table('taxi-lights-1-normal', 'Normal cases', 'Taxi light switch', 'Taxi lights', [
        ['[OFF]', dark],
        ['[ON] or [BRIGHT]', lit],
      ]),
    },
    { id: 'taxi-lights-2', effectivity: few, constant: { glyph: 'lit', text: 'Lit in every case' } },
  ],
};
const beltsAttribute = oneGroup(
  'seat-belt-signs',
  'Seat-belt signs',
  items.belts.to,
  whole,
  table('seat-belt-signs-1-normal', 'Normal cases', 'Seat-belt switch | Cabin altitude ~ ft', 'Seat-belt signs', [
    ['[OFF] | 10,500 ft or below', dark],
    ['[OFF] | above 10,500 ft', lit],
    ['[AUTO] | any', lit],
    ['[ON] | any', lit],
  ]),
);
const transitAttribute = oneGroup(
  'landing-transit',
  'Landing light transit annunciator',
  items.transit.to,
  whole,
  table('landing-transit-1-normal', 'Normal cases', 'Left landing light switch', 'Landing light transit annunciator', [
    ['[OFF]', dark],
    ['[ON]', flashing],
  ]),
);
const outAttribute = oneGroup(
  'landing-out',
  'Landing lights extended',
  items.out.to,
  whole,
  table(
    'landing-out-1-normal',
    'Normal cases',
    'Left landing light switch | Airspeed ~ kt',
    'Landing lights extended',
    [
      ['[OFF] | any', hidden],
      ['[ON] | 240 kt or below', hidden],
      ['[ON] | above 240 kt', shown],
    ],
  ),
);

/** A note as the model gives it, from its Markdown. */
export function note(id: string, title: string, concerns: readonly string[], markdown: string): Note {
  const source = { path: `notes/${id}.md`, text: markdown };
  const body = unified().use(remarkParse).use(remarkGfm).use(remarkDirective).parse(markdown);
  return {
    id,
    title,
    about: concerns,
    source,
    body,
    claims: [],
    quotes: [],
    place: { file: source, start: 0, end: markdown.length },
  };
}
const logoNote = note(
  'why-logo-lights-go-out',
  'Why the logo lights go out by themselves',
  ['logo', 'logo-lights'],
  `On aircraft with automatic control the [logo switch](ref:logo) follows the *slats* in the air; see [](ref:logo-lights).

:checked[With the switch off the logo lights stay dark.]{holds="logo is OFF implies logo-lights is dark"} At 12:30 they do as at any other time.

- On the apron, set the parking brake.
- In the circuit, the slats decide.

## What it looks like on one aircraft

::table{of="logo-lights" on="QQ-OAC"}

> The brake comes first, the switch second.
`,
);

const paragraph = { document: 'Lighting data sheet 4, revision C' };
const citations = [{ text: `${paragraph.document}, 3.2` }];
const control = (
  id: string,
  at: Listed,
  form: string,
  panel: Listed,
  rest: Partial<ControlPage> & Pick<ControlPage, 'sentences' | 'attributes'>,
): ControlPage => ({
  kind: 'control',
  id,
  address: at.to,
  title: at.title,
  trail: [home, panel],
  tryIt: { to: home.to, title: 'Try it' },
  form,
  panel,
  citations,
  notes: [],
  messages: [],
  supply: [],
  reads: [],
  readBy: [],
  facts: [],
  sequences: [
    {
      sequence: conditions.gear,
      noun: 'the gear',
      effectivity: whole,
      positions: [
        { legend: 'OFF', sentences: [] },
        { legend: 'ON', sentences: [inline('Takes the gear from up to down.')] },
      ],
    },
  ],
  cues: [{ text: inline('Two positions: [OFF], [ON]'), effectivity: whole, because: [], instead: [] }],
  use: [],
  ...rest,
});
const item = (
  id: string,
  at: Listed,
  itemKind: ItemPage['itemKind'],
  panel: Listed,
  attributes: AttributeView[],
  rest: Partial<ItemPage>,
): ItemPage => ({
  kind: 'item',
  id,
  address: at.to,
  title: at.title,
  trail: [home, panel],
  itemKind,
  panel,
  controls: [],
  legends: [],
  lamps: [],
  lampsAlike: [],
  ways: [],
  use: [],
  overrides: [],
  inEveryCase: [],
  held: [],
  queries: [],
  attributes,
  citations,
  notes: [],
  supply: [],
  reads: [],
  readBy: [],
  ...rest,
});
const condition = (id: string, at: Listed, rest: Partial<ConditionPage>): ConditionPage => ({
  kind: 'condition',
  id,
  address: at.to,
  title: at.title,
  trail: [home],
  citations: [],
  notes: [],
  values: [],
  detectors: [],
  order: [],
  readBy: [items.logo, items.landing],
  ...rest,
});
const option = (id: string, at: Listed, rest: Partial<OptionPage>): OptionPage => ({
  kind: 'option',
  id,
  address: at.to,
  title: at.title,
  trail: [home],
  citations,
  notes: [],
  values: [],
  constraints: [],
  decides: [],
  ...rest,
});

const looks = {
  control: controls.logo,
  here: inline('Three positions: [OFF], [AUTO], [ON]'),
  baseline: inline('Two positions: [OFF], [ON]'),
};
const notFittedThere = { verdict: 'Not fitted on QQ-OAA', items: [items.landing, items.taxi] };
const lone: LoneView = {
  id: 'only-logo-1',
  of: 'logo',
  title: inline('With the logo switch at [AUTO]'),
  verdict: 'Only possible on QQ-OAC',
  says: [{ words: inline('The logo lights are lit on the ground.'), tables: [link(items.logo)] }],
};
const logoDifference: DifferenceView = {
  id: 'differs-logo-lights',
  item: items.logo,
  verdict: 'Differs',
  example: inline('For example, with the logo switch at [ON] on the ground: lit here, dark on QQ-OAA.'),
  table: {
    id: 'differs-logo-lights-table',
    columns: [
      { title: [text('Logo switch')] },
      { title: [text('Left lamp / Right lamp')], each: [[text('Left lamp')], [text('Right lamp')]] },
      { title: [text('Parking brake')] },
    ],
    resultTitles: ['These aircraft', 'QQ-OAA'],
    rows: rows([
      ['[ON] | serviceable | set', lit],
      ['[ON] | failed | released', dark],
      ['[ON] | failed | any', lit],
    ]).map((row) => ({
      key: row.key,
      cells: row.cells,
      first: row.first,
      results: [row.result, row.result === lit ? dark : impossible] as const,
    })),
  },
};
const panelDifferences: PanelDifferences[] = [
  { panel: exterior, looks: [looks], notFitted: [notFittedThere], lone: [lone], differences: [logoDifference] },
];
const laterDifferences: PanelDifferences[] = [
  { panel: exterior, looks: [], notFitted: [notFittedThere], lone: [], differences: [] },
];
const aircraft = (letter: string): AircraftPage => {
  const baseline = letter === 'A';
  return {
    kind: 'aircraft',
    device: letter === 'L',
    address: aircraftAddress(letter),
    title: registration(letter),
    trail: [home],
    registration: registration(letter),
    serial: `4011${letters.indexOf(letter) + 2}`,
    baseline,
    fit: [
      { option: options.logo, value: baseline ? 'Manual' : 'Automatic', asBaseline: baseline },
      { option: options.mount, value: 'Fixed', asBaseline: true },
    ],
    sameFit: letter === 'C' ? on('L', 'QQ-OAL') : most,
    items: [
      { ...items.logo, anchor: 'logo-lights-1' },
      { ...items.landing, title: 'Left landing light: lamp', anchor: 'landing-light-left-lamp-3', state: notFitted },
      { ...items.taxi, anchor: 'taxi-lights-2', state: { glyph: 'lit', text: 'Lit in every case' } },
      { ...items.belts, anchor: 'seat-belt-signs-1' },
    ],
    differences: baseline ? [] : panelDifferences,
    changes:
      letter === 'C'
        ? [
            {
              date: '2026-12-01',
              what: [link(options.mount)],
              before: 'Fixed',
              after: 'Retractable',
              document: [{ kind: 'link', to: 'about.html', anchor: 'source-LDS-4', text: 'Lighting data sheet 4' }],
            },
          ]
        : [],
    asOf: '2026-10-01',
    later:
      letter === 'C'
        ? [
            {
              id: 'from-2026-12-01',
              date: '2026-12-01',
              title: 'From 2026-12-01',
              differences: laterDifferences,
            },
          ]
        : [],
  };
};

const pages: Page[] = [
  {
    kind: 'home',
    address: home.to,
    title: 'Ostrel 86 lighting reference',
    trail: [],
    panels: [
      {
        panel: exterior,
        controls: [controls.logo, controls.landing, controls.taxi],
        seen: '3 lights and 1 annunciator',
      },
      { panel: signs, controls: [controls.belts], seen: '1 sign' },
    ],
    aircraft: letters.map((letter) => ({
      to: aircraftAddress(letter),
      title: registration(letter),
      baseline: letter === 'A',
    })),
    devices: [],
    lookUp: [...Object.values(conditions), ...Object.values(options)],
  },
  {
    kind: 'panel',
    id: 'exterior-lights',
    address: exterior.to,
    title: exterior.title,
    trail: [home],
    citations,
    notes: [],
    places: [],
    supplies: [],
    sequences: [],
    sounds: [],
    tours: [],
    about: 'The overhead strip for the lights outside the aircraft, left to right from the nose to the fin.',
    controls: [controls.logo, controls.landing, controls.taxi],
    items: [items.logo, items.landing, items.taxi, items.transit, items.out],
  },
  {
    kind: 'panel',
    id: 'passenger-signs',
    address: signs.to,
    title: signs.title,
    trail: [home],
    citations: [],
    notes: [],
    places: [],
    supplies: [],
    sequences: [],
    sounds: [],
    tours: [],
    controls: [controls.belts],
    items: [items.belts],
  },
  control('logo', controls.logo, 'toggle switch', exterior, {
    about:
      'Lights both sides of the fin from the stabilizer, so that others see the aircraft on the apron and in the circuit.',
    cues: [
      {
        text: inline('Three positions: [OFF], [AUTO], [ON]'),
        effectivity: most,
        because: [link(options.logo), text(': automatic')],
        instead: [],
      },
      {
        text: inline('Two positions: [OFF], [ON]'),
        effectivity: few,
        because: [link(options.logo), text(': manual')],
        instead: [],
      },
    ],
    sentences: [
      {
        effectivity: most,
        positions: [
          { legend: 'OFF', position: 'OFF', says: [inline('The logo lights are dark.')] },
          {
            legend: 'AUTO',
            position: 'AUTO',
            says: [
              inline(
                'The logo lights are lit on the ground with the parking brake set, and in the air with the slats out; they are dark otherwise.',
              ),
            ],
          },
          { legend: 'ON', position: 'ON', says: [inline('The logo lights are lit.')] },
        ],
      },
      {
        effectivity: few,
        positions: [
          { legend: 'OFF', position: 'OFF', says: [inline('The logo lights are dark.')] },
          { legend: 'ON', position: 'ON', says: [inline('The logo lights are lit.')] },
        ],
      },
    ],
    attributes: [logoAttribute],
    supply: [conditions.bus],
    reads: [conditions.gear, conditions.brake, conditions.slats],
    readBy: [items.landing],
    notes: [logoNote],
  }),
  control('landing-left', controls.landing, 'toggle switch', exterior, {
    cues: [
      {
        text: inline('Three positions: [RETRACT], [OFF], [ON]'),
        effectivity: first,
        because: [link(options.mount), text(': retractable')],
        instead: [],
      },
      {
        text: inline('Two positions: [OFF], [ON]'),
        effectivity: rest,
        because: [link(options.mount), text(': fixed')],
        instead: [],
      },
      {
        text: inline('Not fitted'),
        effectivity: last,
        because: [link(options.mount), text(': none')],
        instead: [text('In its stead: '), link(controls.taxi)],
      },
    ],
    sentences: [
      {
        effectivity: first,
        positions: [
          { legend: 'RETRACT', position: 'RETRACT', says: [inline('The left landing light is dark and stowed.')] },
          { legend: 'OFF', position: 'OFF', says: [inline('The left landing light is dark and extended.')] },
          {
            legend: 'ON',
            position: 'ON',
            says: [
              inline(
                'The left landing light is lit on the ground with the taxi light switch at [OFF], and in the air with the airspeed at 240 kt or below; it is flashing on the ground with the taxi light switch at [ON] or [BRIGHT], and dark otherwise.',
              ),
            ],
          },
        ],
      },
      {
        effectivity: rest,
        positions: [
          { legend: 'OFF', position: 'OFF', says: [inline('The left landing light is dark.')] },
          {
            legend: 'ON',
            position: 'ON',
            says: [inline('The left landing light is lit with the airspeed at 240 kt or below; it is dark otherwise.')],
          },
        ],
      },
    ],
    attributes: [landingLamp, landingStowage, transitAttribute],
    messages: [items.out],
    supply: [conditions.bus],
  }),
  control('taxi', controls.taxi, 'toggle switch', exterior, {
    sentences: [
      {
        effectivity: whole,
        positions: [
          { legend: 'OFF', position: 'OFF', says: [inline('The taxi lights are dark.')] },
          { legend: 'ON', position: 'ON', says: [inline('The taxi lights are lit.')] },
        ],
      },
    ],
    attributes: [taxiAttribute],
    readBy: [items.landing],
  }),
  control('seat-belts', controls.belts, 'rotary selector', signs, {
    sentences: [
      {
        effectivity: whole,
        positions: [
          {
            legend: 'OFF',
            position: 'OFF',
            says: [
              inline('The seat-belt signs are lit with the cabin altitude above 10,500 ft; they are dark otherwise.'),
            ],
          },
          { legend: 'ON', position: 'ON', says: [inline('The seat-belt signs are lit.')] },
        ],
      },
    ],
    attributes: [beltsAttribute],
  }),
  item('logo-lights', items.logo, 'light', exterior, [logoAttribute], {
    about: 'Two lights a side.',
    controls: [controls.logo],
    colour: 'white',
    supply: [conditions.bus],
    notes: [logoNote],
    reads: [controls.logo, conditions.gear, conditions.brake, conditions.slats, conditions.bus],
  }),
  item('landing-light-left', items.landing, 'light', exterior, [landingLamp, landingStowage], {
    controls: [controls.landing],
    colour: 'white',
    reads: [controls.landing, controls.taxi, conditions.gear, conditions.speed],
    readBy: [items.out],
  }),
  item('taxi-lights', items.taxi, 'light', exterior, [taxiAttribute], {
    controls: [controls.taxi],
    colour: 'white',
    reads: [controls.taxi],
  }),
  item('landing-transit', items.transit, 'annunciator', exterior, [transitAttribute], {
    controls: [controls.landing],
    colour: 'amber',
    legend: 'MOVING',
    reads: [controls.landing],
  }),
  item('seat-belt-signs', items.belts, 'sign', signs, [beltsAttribute], {
    controls: [controls.belts],
    reads: [controls.belts, conditions.altitude],
  }),
  item('landing-out', items.out, 'message', exterior, [outAttribute], {
    controls: [controls.landing],
    legend: 'LDG LT OUT',
    messageClass: 'caution',
    reads: [controls.landing, conditions.speed],
  }),
  condition('main-gear', conditions.gear, {
    values: [
      { id: 'compressed', title: 'compressed', says: 'on the ground', normal: false },
      { id: 'extended', title: 'extended', says: 'in the air', normal: false },
    ],
  }),
  condition('parking-brake', conditions.brake, {
    values: [
      { id: 'set', title: 'set', says: 'with the parking brake set', normal: false },
      { id: 'released', title: 'released', says: 'with the parking brake released', normal: false },
    ],
  }),
  condition('slats', conditions.slats, {
    values: [
      { id: 'in', title: 'in', says: 'with the slats in', normal: false },
      { id: 'out', title: 'out', says: 'with the slats out', normal: false },
    ],
  }),
  condition('ac-bus-2', conditions.bus, {
    about: 'Feeds the lights of the tail.',
    values: [
      { id: 'powered', title: 'powered', says: 'with AC bus 2 powered', normal: true },
      { id: 'lost', title: 'lost', says: 'with AC bus 2 lost', normal: false },
    ],
  }),
  condition('airspeed', conditions.speed, { range: '0 to 400 kt in steps of 1 kt', readBy: [items.landing] }),
  condition('cabin-altitude', conditions.altitude, {
    range: '-1,000 to 41,000 ft in steps of 100 ft',
    readBy: [items.belts],
  }),
  option('logo-control', options.logo, {
    about: 'How the logo lights are switched.',
    values: [
      { id: 'manual', title: 'Manual', effectivity: few },
      { id: 'automatic', title: 'Automatic', effectivity: most },
    ],
    decides: [controls.logo, items.logo],
  }),
  option('landing-mount', options.mount, {
    values: [
      { id: 'retractable', title: 'Retractable', effectivity: first },
      { id: 'fixed', title: 'Fixed', effectivity: rest },
      { id: 'none', title: 'None', effectivity: last },
    ],
    decides: [controls.landing, items.landing],
  }),
  ...letters.map(aircraft),
  {
    kind: 'differences',
    address: differences.to,
    title: differences.title,
    trail: [home],
    reference: { to: aircraftAddress('A'), title: 'QQ-OAA' },
    names: ['Here', 'QQ-OAA'],
    groups: [
      {
        id: 'fit-2',
        effectivity: few,
        options: [{ option: options.logo, here: 'Automatic', baseline: 'Manual' }],
        panels: [
          {
            panel: exterior,
            sentences: [
              [
                text('What differs: '),
                { kind: 'link', to: differences.to, anchor: logoDifference.id, text: 'Logo lights' },
              ],
            ],
          },
        ],
      },
      { id: 'fit-3', effectivity: last, options: [], panels: [] },
    ],
    panels: [
      {
        id: 'panel-exterior',
        panel: exterior,
        looks: [{ what: looks, effectivity: few }],
        notFitted: [{ what: notFittedThere, effectivity: few }],
        lone: [{ what: lone, effectivity: few }],
        differences: [{ what: logoDifference, effectivity: few }],
      },
    ],
    devices: [],
  },
  {
    kind: 'about',
    address: about.to,
    title: about.title,
    trail: [home],
    notes: [],
    toReview: [],
    sources: [
      {
        id: 'source-LDS-4',
        title: 'Lighting data sheet 4',
        revision: 'C',
        date: '2026-05-11',
        citedBy: [controls.logo, items.logo],
      },
    ],
  },
];

export const sampleBook: Book = {
  comparison: undefined,
  explorer: undefined,
  frame: {
    operator: 'Quillmere Air',
    type: 'Ostrel 86',
    title: 'Ostrel 86 lighting reference',
    revision: '7',
    date: '2026-10-01',
    language: 'en',
    paper: 'A4',
    cautions: [
      'For training and reference; not approved data. The approved flight manual, the operator’s procedures, the minimum equipment list and local rules take precedence.',
      'Quillmere Air and the Ostrel 86 are invented.',
    ],
    fleet: letters.map((letter) => ({
      serial: `qq-oa${letter.toLowerCase()}`,
      registration: registration(letter),
      device: false,
    })),
    contents: [
      { title: exterior.title, to: exterior.to, entries: [controls.logo, controls.landing, controls.taxi] },
      { title: signs.title, to: signs.to, entries: [controls.belts] },
      { title: 'Fleet', to: differences.to, entries: [differences, ...Object.values(options)] },
      { title: 'About', to: about.to, entries: [about] },
    ],
  },
  pages,
  topics: new Map(),
  search: [],
  formerAnchors: new Map(),
  seen: { sets: [], periods: [], choices: {} },
  index: new Map<string, Listed>([
    ['logo', controls.logo],
    ['logo-lights', items.logo],
    ['slats', conditions.slats],
  ]),
  quotes: new Map(),
  tables: new Map([['logo-lights', [logoAttribute]]]),
};
