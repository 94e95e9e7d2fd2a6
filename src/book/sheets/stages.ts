/** A procedure on paper: what to set in each stage, and what is then lit. */
import type { Fit } from '../../compile/index.ts';
import type { Inline } from '../book.ts';
import type { LitView, ProcedurePage, StandView } from '../book-procedures.ts';
import { link, text } from '../cells.ts';
import { cell, coversFit, type ListSubject, row, words } from './block.ts';

/** `has` tells which pages of controls and items are told of; all of them where it is left out. */
export function stageRows(page: ProcedurePage, has: (address: string) => boolean = () => true): ListSubject[] {
  const rows = page.stages.map((stage) => (fit: Fit) => {
    const stands = stage.wanted.filter((one) => coversFit(one.effectivity, fit) && has(one.control.to) && !one.again);
    const lit = stage.lit.filter(
      (one) => coversFit(one.effectivity, fit) && has(one.item.to) && one.change !== 'out' && one.kind !== 'message',
    );
    if (stands.length + lit.length === 0) return undefined;
    return row(
      words([text(`${stage.number} `), link(page.address, stage.title, stage.id)]),
      cell(stands.length > 0 ? stands.map(setLine) : [{ words: [text('–')] }]),
      cell(lit.length > 0 ? [{ words: lit.flatMap(litRun) }] : [{ words: [text('Nothing')] }], { answer: true }),
    );
  });
  const head = {
    title: page.title,
    to: { to: page.address, title: page.title },
    columns: [[text('Stage')], [text('Set')], [text('Then lit')]],
  };
  return [{ key: 'stages', head, rows }];
}

function setLine({ control, position, says }: StandView) {
  const run: Inline[] = [link(control.to, control.title), text(' '), ...position];
  return { words: says === undefined ? run : [...run, text(` ${says}`)] };
}

/** "Logo lights; left lamp flashing; belt signs lit with the gear down". */
function litRun({ item, states }: LitView, at: number): Inline[] {
  const said = states.flatMap(({ state, when }, index): Inline[] => {
    const name = state.text === 'lit' ? [] : [text(` ${state.text}`)];
    return [...(index > 0 ? [text(', or')] : []), ...name, ...(when.length > 0 ? [text(' '), ...when] : [])];
  });
  return [...(at > 0 ? [text('; ')] : []), link(item.to, item.title), ...said];
}
