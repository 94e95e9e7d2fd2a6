/** Marks of lamps on an airframe: each at its spot, or beside it where another one is already there. */
import { isHidden, project, type Spot, type View } from './airframe.ts';
import { cross, type Line, meet, runsThrough, shortOf } from './boxes.ts';
import type { Box, Point } from './geometry.ts';
import { FONT_SIZE, textWidth } from './text.ts';

export interface Marked {
  readonly spot: Spot;
  /** Half the side of the square that the mark needs. */
  readonly half: number;
  /** A number or letter that stands right beside the mark; without one it is named elsewhere. */
  readonly tag?: string;
}
export interface PlacedMark<U> {
  readonly unit: U;
  /** Where the lamp is, and where its mark stands. */
  readonly home: Point;
  readonly at: Point;
  readonly box: Box;
  /** Where the tag stands. */
  readonly tag?: Box;
  /** From the lamp to its mark, where that stands aside. */
  readonly leader?: Line;
  /** The airframe stands before the lamp. */
  readonly hidden: boolean;
}

const GAP = 2;
const RING = 6;
const FIRST_RING = 14;
const ANGLES = 16;
/** As many rings as any number of lamps can need that a drawing could hold. */
const RINGS = 60;

/**
 * Places marks in their order, on a view in some scale whose middle lies at `middle`. No two come closer than a hair, tags included; no leader runs through a mark where that can be
 * helped. Marks that must step aside do so outwards, level first, so that both sides of an aircraft look alike.
 */
export function placeMarks<U extends Marked>(
  view: View,
  units: readonly U[],
  middle: number,
  scale = 1,
): PlacedMark<U>[] {
  const placed: PlacedMark<U>[] = [];
  for (const unit of units) {
    const home = project(view, unit.spot, scale);
    const outwards = home.x < middle ? -1 : 1;
    const free = firstFree(candidates(unit, home, outwards), placed);
    placed.push({ ...free, unit, home, hidden: isHidden(view, unit.spot) });
  }
  return placed;
}

function firstFree(all: Iterable<Candidate>, placed: readonly Candidate[]): Candidate {
  let apart: Candidate | undefined;
  for (const one of all) {
    if (!isApart(one, placed)) continue;
    if (isClear(one, placed)) return one;
    apart ??= one;
  }
  if (!apart) throw new Error('there is no room left for a mark');
  return apart;
}

type Candidate = Pick<PlacedMark<Marked>, 'at' | 'box' | 'tag' | 'leader'>;

function* candidates({ half, tag }: Marked, home: Point, outwards: number): Generator<Candidate> {
  for (const at of around(home, outwards)) {
    const box = { x: at.x - half, y: at.y - half, width: 2 * half, height: 2 * half };
    const leader = at === home ? {} : { leader: { from: home, to: shortOf({ from: home, to: at }, half) } };
    if (tag === undefined) yield { at, box, ...leader };
    else for (const side of [outwards, -outwards]) yield { at, box, tag: tagBox(tag, at, half, side), ...leader };
  }
}

function tagBox(tag: string, at: Point, half: number, side: number): Box {
  const width = textWidth(tag, 650);
  return { x: side > 0 ? at.x + half + 1 : at.x - half - 1 - width, y: at.y - FONT_SIZE / 2, width, height: FONT_SIZE };
}

/** The point itself, then points in rings around it, those outwards and level first. */
function* around(home: Point, outwards: number): Generator<Point> {
  yield home;
  for (let ring = 0; ring < RINGS; ring++) {
    const radius = FIRST_RING + ring * RING;
    for (let step = 0; step < ANGLES; step++) {
      // 0, 1, -1, 2, -2 ... sixteenths of a turn away from outwards.
      const turn = (Math.ceil(step / 2) * (step % 2 === 0 ? -1 : 1) * 2 * Math.PI) / ANGLES;
      yield { x: home.x + outwards * radius * Math.cos(turn), y: home.y + radius * Math.sin(turn) };
    }
  }
}

/** Whether marks and tags keep apart. */
function isApart({ box, tag }: Candidate, placed: readonly Candidate[]): boolean {
  const own = tag ? [box, tag] : [box];
  return placed.every((other) => own.every((mine) => boxesOf(other).every((theirs) => !meet(mine, theirs, GAP))));
}

/** Whether leaders keep clear of marks, tags and each other too. */
function isClear(one: Candidate, placed: readonly Candidate[]): boolean {
  return placed.every((other) => keepsClear(one.leader, other) && keepsClear(other.leader, one));
}

function keepsClear(leader: Line | undefined, other: Candidate): boolean {
  if (!leader) return true;
  // A lamp so close to another's mark that its line begins within it.
  const blocks = boxesOf(other).filter((box) => !holds(box, leader.from));
  if (blocks.some((box) => runsThrough(leader, box))) return false;
  return !other.leader || startsTogether(leader, other.leader) || !cross(leader, other.leader);
}

function boxesOf({ box, tag }: Candidate): Box[] {
  return tag ? [box, tag] : [box];
}

function holds({ x, y, width, height }: Box, point: Point): boolean {
  return point.x >= x && point.x <= x + width && point.y >= y && point.y <= y + height;
}

function startsTogether(one: Line, other: Line): boolean {
  return one.from.x === other.from.x && one.from.y === other.from.y;
}
