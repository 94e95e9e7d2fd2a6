import { describe, expect, test } from 'vitest';
import { Meter } from '../../src/logic/limits.ts';
import { type Node, UniqueTable } from '../../src/logic/unique-table.ts';

/** A table over two variables of three values, with the terminals 0 and 1 as its first nodes. */
function small(): { table: UniqueTable; no: Node; yes: Node } {
  const table = new UniqueTable([3, 3], new Meter({}));
  return { table, no: table.terminal(0), yes: table.terminal(1) };
}

describe('the proof that a table of nodes is consistent', () => {
  test('finds nothing where every node stands above its children', () => {
    const { table, no, yes } = small();
    const low = table.make(1, [no, yes, no]);
    expect(table.make(0, [low, low, yes])).toBe(3);
    expect(table.make(1, [no, yes, no])).toBe(low);
    table.assertConsistent();
  });

  test('finds a node with a child that is not below it', () => {
    for (const level of [0, 1]) {
      const { table, no, yes } = small();
      const high = table.make(level, [no, no, yes]);
      table.make(1, [yes, high, no]);
      const find = (): void => table.assertConsistent();
      expect(find).toThrow(new Error('node 3 at level 1 (1 2 0) has a child that is not below it'));
    }
  });

  test('finds a node with a child that was made after it, or that is none', () => {
    for (const child of [2, 3, -1]) {
      const { table, no, yes } = small();
      table.make(0, [no, child, yes]);
      table.make(1, [no, no, yes]);
      const find = (): void => table.assertConsistent();
      expect(find).toThrow(new Error(`node 2 at level 0 (0 ${child} 1) has a child made after it`));
    }
  });
});
