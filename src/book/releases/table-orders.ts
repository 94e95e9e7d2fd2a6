/**
 * The orders in which state tables were split: a table keeps that of the last release while it costs no row, so that it does not
 * look otherwise where it says the same.
 */
import { type Behaviour, type Compiled, type Group, idOf, type Part, partTable } from '../../compile/index.ts';
import { groupAnchor } from '../attributes.ts';

/** By the anchor of the group, the part and the control in the first column: the ids of variables. */
export type TableOrders = Readonly<Record<string, readonly string[]>>;

/** The levels in the order that a table had, those of them that there still are. */
export type KeptOrder = (
  behaviour: Behaviour,
  group: Group,
  part: Part,
  own: string | undefined,
) => readonly number[] | undefined;

/** Of every table that the book shows; `kept` are the orders that its own tables keep. */
export function tableOrders(compiled: Compiled, kept?: KeptOrder): TableOrders {
  const entries = compiled.behaviours.flatMap((behaviour) => {
    const { attribute, item } = behaviour;
    const stations = item.stations.includes(attribute.control ?? '') ? item.stations : [];
    const owns = [...new Set([attribute.control, ...stations])];
    return behaviour.groups.flatMap((group) =>
      (['normal', 'abnormal'] as const).flatMap((part) =>
        owns.flatMap((own): [string, string[]][] => {
          const table = partTable(compiled, behaviour, group, part, own, kept?.(behaviour, group, part, own));
          if (!table || table.split.length < 2) return [];
          return [[keyOf(behaviour, group, part, own), table.split.map((level) => idAt(compiled, level))]];
        }),
      ),
    );
  });
  return Object.fromEntries(entries);
}

/** What tables keep of the orders that a release had. */
export function keptOrders({ space }: Compiled, orders: TableOrders): KeptOrder {
  return (behaviour, group, part, own) =>
    orders[keyOf(behaviour, group, part, own)]?.flatMap((id) => space.levelOf.get(id) ?? []);
}

function keyOf(behaviour: Behaviour, group: Group, part: Part, own: string | undefined): string {
  return `${groupAnchor(behaviour, group)} ${part} ${own ?? ''}`;
}

function idAt({ space }: Compiled, level: number): string {
  const meaning = space.meanings[level];
  if (!meaning) throw new Error(`no variable at level ${level}`);
  return idOf(meaning);
}
