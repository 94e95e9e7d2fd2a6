/**
 * The modes of a sequence laid out: a column of boxes in the author's order. A transition to the next mode runs straight
 * down, others to the right of the column on their way down and to the left on their way up. Pure geometry.
 */
import type { StateDiagramView } from '../book/index.ts';
import type { Box, Point } from './geometry.ts';
import { type Block, LINE_HEIGHT, textWidth, wrap } from './text.ts';

export interface PlacedMode {
  readonly id: string;
  readonly final: boolean;
  readonly box: Box;
  readonly text: Block;
}
/** All transitions from one mode to another. */
export interface PlacedMove {
  readonly from: string;
  readonly to: string;
  /** Level and plumb by turns. */
  readonly points: readonly Point[];
  /** The numbers of its transitions, and where they stand on the line. */
  readonly label: { readonly box: Box; readonly text: string };
}
export interface StatesLayout {
  readonly width: number;
  readonly height: number;
  readonly modes: readonly PlacedMode[];
  readonly moves: readonly PlacedMove[];
  /** From the dot where it starts to the first mode. */
  readonly start: readonly Point[];
}

const MODE = { wrap: 132, side: 14, above: 9, least: 92 };
/** Between boxes: room for the numbers on a straight line and for an arrow. */
const GAP = 46;
const MARGIN = 4;
/** Between two lines that leave or reach a side of a box, and between two lines beside the column. */
const PORT = 22;
const LANE = 12;
const LABEL = { side: 5, height: 20, stub: 9 };
/** From a label's outer edge to the first lane; the last bit of a line to an arrow's tip. */
const OUT = 8;

type Side = 'left' | 'right';
interface Move {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}
/** Lines beside the column that lead to one mode join. */
interface Bus {
  readonly side: Side;
  readonly to: number;
  readonly moves: readonly Move[];
}

export function layoutStates({
  vertices,
  edges,
  initial,
}: Pick<StateDiagramView, 'vertices' | 'edges' | 'initial'>): StatesLayout {
  const index = new Map(vertices.map(({ id }, at) => [id, at]));
  const at = (id: string): number => index.get(id) as number;
  const moves = [...Map.groupBy(edges, ({ from, to }) => `${from} ${to}`).values()].map((same): Move => {
    const [first] = same as [(typeof edges)[number]];
    return { from: at(first.from), to: at(first.to), text: same.map(({ number }) => number).join(', ') };
  });
  const straight = moves.filter(({ from, to }) => to === from + 1);
  const buses = (['right', 'left'] as const).flatMap((side) => {
    const own = moves.filter((move) => !straight.includes(move) && (move.to < move.from ? 'left' : 'right') === side);
    // The lines of one mode that go furthest leave it at the outer side, so that they don't cross those that turn before.
    return [...Map.groupBy(own, ({ to }) => to)]
      .map(([to, joined]): Bus => ({ side, to, moves: joined }))
      .sort((a, b) => b.to - a.to);
  });
  const start: Bus = { side: 'left', to: at(initial), moves: [] };

  // Each side of a box has its ports from the top down: what comes from above, then what leaves, then what comes from below.
  const ports = vertices.map((_, mode) => {
    const on = (side: Side): (Bus | Move)[] => [
      ...buses.filter((bus) => bus.side === side && bus.to === mode && side === 'right'),
      ...buses.filter((bus) => bus.side === side).flatMap((bus) => bus.moves.filter(({ from }) => from === mode)),
      ...buses.filter((bus) => bus.side === side && bus.to === mode && side === 'left'),
    ];
    return { left: on('left'), right: on('right') };
  });

  const texts = vertices.map(({ text }) => wrap(text, 650, MODE.wrap));
  const width = Math.max(MODE.least, ...texts.map((text) => text.width)) + 2 * MODE.side;
  const heights = texts.map((text, mode) =>
    Math.max(
      text.lines.length * LINE_HEIGHT + 2 * MODE.above,
      PORT * Math.max(ports[mode]?.left.length ?? 0, ports[mode]?.right.length ?? 0) + 6,
    ),
  );
  const tops: number[] = [];
  heights.reduce((y, height) => {
    tops.push(y);
    return y + height + GAP;
  }, 0);
  const portY = (mode: number, side: Side, which: Bus | Move): number => {
    const list = ports[mode]?.[side] ?? [];
    const place = list.indexOf(which) - (list.length - 1) / 2;
    return (tops[mode] as number) + (heights[mode] as number) / 2 + place * PORT;
  };

  const labelWidth = (text: string): number => textWidth(text, 650) + 2 * LABEL.side;
  const reach = (side: Side): number =>
    Math.max(
      0,
      ...buses.filter((bus) => bus.side === side).flatMap((bus) => bus.moves.map(({ text }) => labelWidth(text))),
    ) +
    LABEL.stub +
    OUT;
  const lanes = new Map<Bus, number>();
  for (const side of ['left', 'right'] as const)
    assignLanes(
      buses.filter((bus) => bus.side === side),
      portY,
      lanes,
    );
  const sign = { left: -1, right: 1 } as const;
  const edgeX = { left: 0, right: width } as const;
  const laneX = (bus: Bus): number =>
    edgeX[bus.side] + sign[bus.side] * (reach(bus.side) + (lanes.get(bus) ?? 0) * LANE);

  const placedMoves = moves.map((move): PlacedMove => {
    const ends = { from: vertices[move.from]?.id ?? '', to: vertices[move.to]?.id ?? '' };
    const size = { width: labelWidth(move.text), height: LABEL.height };
    const bus = buses.find((each) => each.moves.includes(move));
    if (!bus) {
      const [x, top] = [width / 2, (tops[move.from] as number) + (heights[move.from] as number)];
      const box = { x: x - size.width / 2, y: top + (GAP - 8 - size.height) / 2, ...size };
      return {
        ...ends,
        points: [
          { x, y: top },
          { x, y: tops[move.to] as number },
        ],
        label: { box, text: move.text },
      };
    }
    const { side } = bus;
    const [out, into] = [portY(move.from, side, move), portY(move.to, side, bus)];
    const [x, lane] = [edgeX[side], laneX(bus)];
    const near = x + sign[side] * LABEL.stub;
    const box = { x: side === 'right' ? near : near - size.width, y: out - size.height / 2, ...size };
    return {
      ...ends,
      points: [
        { x, y: out },
        { x: lane, y: out },
        { x: lane, y: into },
        { x, y: into },
      ],
      label: { box, text: move.text },
    };
  });

  const first = start.to;
  const startPoints = [
    { x: width / 2 - 30, y: (tops[first] as number) - 20 },
    { x: width / 2 - 30, y: tops[first] as number },
  ];
  return moveToOrigin({
    modes: vertices.map(({ id, final }, mode) => ({
      id,
      final,
      text: texts[mode] as Block,
      box: { x: 0, y: tops[mode] as number, width, height: heights[mode] as number },
    })),
    moves: placedMoves,
    start: startPoints,
  });
}

/** Each joined line gets the lane nearest to the column in which nothing else runs along the same stretch. */
function assignLanes(
  buses: readonly Bus[],
  portY: (mode: number, side: Side, which: Bus | Move) => number,
  lanes: Map<Bus, number>,
): void {
  const stretch = (bus: Bus): [number, number] => {
    const ends = [portY(bus.to, bus.side, bus), ...bus.moves.map((move) => portY(move.from, bus.side, move))];
    return [Math.min(...ends), Math.max(...ends)];
  };
  const length = (bus: Bus): number => stretch(bus)[1] - stretch(bus)[0];
  const taken: Bus[][] = [];
  for (const bus of buses.toSorted((a, b) => length(a) - length(b))) {
    const [low, high] = stretch(bus);
    const clear = (other: Bus): boolean => stretch(other)[1] + 6 < low || stretch(other)[0] - 6 > high;
    const free = taken.findIndex((lane) => lane.every(clear));
    const lane = free === -1 ? taken.length : free;
    taken[lane] = [...(taken[lane] ?? []), bus];
    lanes.set(bus, lane);
  }
}

function moveToOrigin({ modes, moves, start }: Omit<StatesLayout, 'width' | 'height'>): StatesLayout {
  const points = [
    ...moves.flatMap((move) => [...move.points, ...corners(move.label.box)]),
    ...start,
    ...modes.flatMap(({ box }) => corners(box)),
  ];
  const [left, top] = [
    Math.min(...points.map(({ x }) => x)) - MARGIN,
    Math.min(...points.map(({ y }) => y)) - MARGIN - 4,
  ];
  const shift = ({ x, y }: Point): Point => ({ x: x - left, y: y - top });
  const shiftBox = (box: Box): Box => ({ ...box, ...shift(box) });
  return {
    width: Math.max(...points.map(({ x }) => x)) - left + MARGIN,
    height: Math.max(...points.map(({ y }) => y)) - top + MARGIN,
    modes: modes.map((mode) => ({ ...mode, box: shiftBox(mode.box) })),
    moves: moves.map((move) => ({
      ...move,
      points: move.points.map(shift),
      label: { ...move.label, box: shiftBox(move.label.box) },
    })),
    start: start.map(shift),
  };
}

function corners({ x, y, width, height }: Box): Point[] {
  return [
    { x, y },
    { x: x + width, y: y + height },
  ];
}
