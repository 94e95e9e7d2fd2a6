/** A control's page: which one is fitted, what each position does, the tables that prove it. */
import { type Behaviour, type Compiled, levelOf } from '../../compile/index.ts';
import type { Control } from '../../model/index.ts';
import { controlAddress, EXPLORER, inputAnchor, panelAddress } from '../addresses.ts';
import type { AttributeViews } from '../attributes.ts';
import type { ControlPage } from '../book.ts';
import { controlledSequences } from '../control-sequences.ts';
import { drivenBy, drivenViews } from '../driven.ts';
import { citations, citing, definedBase, itemsReading, listedItem, listedSupplies, listedVariables } from '../links.ts';
import { listedReadersInTime } from '../links-time.ts';
import { cuesOf, factsOf } from '../recognition.ts';
import { sentenceGroups } from '../sentence-groups.ts';
import { trailTo } from '../trail.ts';
import { type ProcedureView, useOfControl } from './procedure.ts';

export function controlPage(
  compiled: Compiled,
  views: AttributeViews,
  procedures: readonly ProcedureView[],
  control: Control,
): ControlPage {
  const { fleet } = compiled;
  const driven = drivenBy(compiled, control);
  const items = [...new Set(driven.map(({ item }) => item))];
  const reading = itemsReading(compiled, control.id);
  const panel = fleet.panels.find(({ id }) => id === control.panel);
  if (!panel) throw new Error(`${control.id} stands on no panel`);
  return {
    kind: 'control',
    address: controlAddress(control),
    title: control.title,
    trail: trailTo(panel),
    ...definedBase(fleet, control),
    citations: citations(fleet, [control, ...items.flatMap(citing)]),
    form: control.form,
    tryIt: { to: EXPLORER, anchor: inputAnchor(control.id), title: 'Try it in the explorer' },
    panel: { to: panelAddress(panel), title: panel.title },
    facts: factsOf(compiled, control),
    cues: cuesOf(compiled, control),
    sentences: sentenceGroups(compiled, control, driven),
    sequences: controlledSequences(compiled, control),
    attributes: drivenViews(compiled, views, control, driven),
    messages: reading.filter(({ kind }) => kind === 'message').map(listedItem),
    supply: listedSupplies(
      fleet,
      items.flatMap((item) => item.supply),
    ),
    reads: variablesRead(compiled, control, driven),
    readBy: [
      ...reading.filter((item) => item.kind !== 'message' && !items.includes(item)).map(listedItem),
      ...listedReadersInTime(fleet, control.id),
    ],
    use: useOfControl(procedures, control),
  };
}

/** What the driven attributes depend on beside the control itself. */
function variablesRead({ space }: Compiled, control: Control, driven: readonly Behaviour[]): ControlPage['reads'] {
  const levels = new Set(driven.flatMap(({ own }) => own));
  const itself = levelOf(space, control.id);
  return space.meanings
    .filter((meaning, level) => levels.has(level) && level !== itself && meaning.kind !== 'option')
    .flatMap(listedVariables);
}
