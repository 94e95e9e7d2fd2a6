/** The positions of what can be moved, put beside its name: native radio buttons, made once and then only brought up to date. */
import type { InputView } from '../../book/index.ts';
import { openTarget } from './blocks.ts';
import { button, made, words } from './elements.ts';

/** `inputs` undefined: no aircraft is chosen, and the page is as it was built. */
export function arrangeInputs(
  movable: HTMLElement,
  inputs: readonly InputView[] | undefined,
  take: (step: string) => void,
): void {
  const lamps = movable.querySelector<HTMLElement>('.lamps') as HTMLElement;
  const places = [...movable.querySelectorAll<HTMLElement>('.input')];
  const byId = new Map((inputs ?? []).map((input) => [input.id, input]));
  for (const place of places.filter((each) => !lamps.contains(each))) {
    const input = byId.get(place.id);
    place.hidden = inputs !== undefined && !input;
    arrange(place, input, take);
    byId.delete(place.id);
  }
  // What is left are lamps, which stand on no panel.
  lamps.hidden = byId.size === 0;
  if (byId.size > 0 && lamps.childElementCount === 0) {
    const fold = made('details', 'inputs', made('summary', '', made('h3', '', 'Lamps that have failed')));
    lamps.append(fold);
  }
  const fold = lamps.querySelector('details');
  for (const place of fold ? [...fold.querySelectorAll<HTMLElement>('.input')] : [])
    if (!byId.has(place.id)) place.remove();
  for (const input of byId.values()) {
    const known = fold?.querySelector<HTMLElement>(`#${CSS.escape(input.id)}`);
    const place = known ?? made('div', 'input');
    if (!known) {
      place.id = input.id;
      fold?.append(place);
    }
    arrange(place, input, take);
  }
  for (const panel of movable.querySelectorAll<HTMLElement>('details.inputs'))
    panel.hidden = !panel.querySelector('.input:not([hidden])');
}

/** Folds the panels in which nothing has been moved, so that all are in view; the first stays open, and what an address leads to. */
export function foldPanels(movable: HTMLElement, inputs: readonly InputView[]): void {
  const moved = new Set(inputs.filter((input) => input.moved).map(({ id }) => id));
  const panels = [...movable.querySelectorAll<HTMLDetailsElement>('details.inputs:not([hidden])')];
  for (const panel of panels)
    panel.open = panel === panels[0] || [...panel.querySelectorAll('.input')].some(({ id }) => moved.has(id));
  openTarget();
}

/** Brings one of them into view. */
export function openTo(place: HTMLElement): void {
  const fold = place.closest('details');
  if (fold) fold.open = true;
  place.scrollIntoView();
}

function arrange(place: HTMLElement, input: InputView | undefined, take: (step: string) => void): void {
  const steps = input?.settings.map(({ step }) => step).join(' ') ?? '';
  // The same settings keep their buttons, so that the focus stays where it is.
  if (place.dataset['steps'] !== steps) {
    place.querySelector('fieldset')?.remove();
    place.dataset['steps'] = steps;
    if (input) place.append(fieldOf(input, take));
  }
  if (!input) return;
  input.settings.forEach((setting, at) => {
    const label = place.querySelectorAll<HTMLLabelElement>('label')[at];
    const radio = label?.querySelector('input');
    if (!label || !radio) return;
    radio.checked = setting.chosen;
    radio.disabled = setting.barred;
    label.classList.toggle('barred', setting.barred);
  });
  const more = place.querySelector('.more') as HTMLElement;
  more.replaceChildren(
    ...(input.letGo
      ? [stepButton(input.letGo.words, `${input.letGo.words}: ${input.title.title}`, input.letGo.step, take)]
      : []),
    ...input.barred.map((each) => barredLine(each, take)),
  );
}

function fieldOf(input: InputView, take: (step: string) => void): HTMLElement {
  const field = made('fieldset', '', made('legend', 'unseen', input.title.title));
  const choices = made('div', 'settings');
  for (const setting of input.settings) {
    const radio = made('input');
    radio.type = 'radio';
    radio.name = input.id;
    radio.addEventListener('change', () => take(setting.step));
    const said = made('span', '', ...words(setting.words), ...(setting.held ? [made('span', 'held', ' held')] : []));
    choices.append(made('label', '', radio, said));
  }
  field.append(choices, made('div', 'more'));
  return field;
}

function barredLine({ words: why, along }: InputView['barred'][number], take: (step: string) => void): HTMLElement {
  const line = made('p', 'why', ...words(why));
  if (along) line.append(' ', stepButton(along.words, `${along.words}: ${line.textContent}`, along.step, take));
  return line;
}

function stepButton(label: string, name: string, step: string, take: (step: string) => void): HTMLButtonElement {
  const made = button(label, () => take(step));
  made.setAttribute('aria-label', name);
  return made;
}
