/** Which cells tiles hold, and which pairs of cells are in a row together because of a tile. */
import { lowestBit } from './bits.ts';
import type { Tiles } from './tiles.ts';

/** Cells by tile: those of tile `t` stand from `starts[t]` to before `starts[t + 1]`. */
export interface TileCells {
  readonly starts: Int32Array;
  readonly held: Int32Array;
  /** The pairs of cells of which a tile is the smallest that holds both: it is part of each that does. */
  readonly pairStarts: Int32Array;
  readonly ones: Int32Array;
  readonly others: Int32Array;
}

export function tileCells({ count, words, bits }: Tiles, cells: number): TileCells {
  const starts = new Int32Array(count + 1);
  const held: number[] = [];
  // The largest tiles come first: the smallest one that holds a pair has the last word.
  const smallest = new Int32Array(cells * cells).fill(-1);
  for (let tile = 0; tile < count; tile += 1) {
    const start = held.length;
    for (let word = 0; word < words; word += 1) {
      for (let rest = bits[tile * words + word] as number; rest; rest &= rest - 1) {
        const cell = 32 * word + lowestBit(rest);
        for (let at = start; at < held.length; at += 1) smallest[(held[at] as number) * cells + cell] = tile;
        held.push(cell);
      }
    }
    starts[tile + 1] = held.length;
  }
  return { starts, held: Int32Array.from(held), ...pairsByTile(smallest, count, cells) };
}

function pairsByTile(
  smallest: Int32Array,
  count: number,
  cells: number,
): Pick<TileCells, 'pairStarts' | 'ones' | 'others'> {
  const pairStarts = new Int32Array(count + 1);
  for (const tile of smallest) if (tile >= 0) pairStarts[tile + 1] = (pairStarts[tile + 1] as number) + 1;
  for (let tile = 0; tile < count; tile += 1) {
    pairStarts[tile + 1] = (pairStarts[tile + 1] as number) + (pairStarts[tile] as number);
  }
  const ones = new Int32Array(pairStarts[count] as number);
  const others = new Int32Array(ones.length);
  const next = pairStarts.slice();
  for (let one = 0; one < cells; one += 1) {
    for (let other = one + 1; other < cells; other += 1) {
      const tile = smallest[one * cells + other] as number;
      if (tile < 0) continue;
      const place = next[tile] as number;
      next[tile] = place + 1;
      ones[place] = one;
      others[place] = other;
    }
  }
  return { pairStarts, ones, others };
}
