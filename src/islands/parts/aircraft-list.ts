/** A list to choose an aircraft from, as the fleet is on the day of reading. */

/** Puts the aircraft as they are on a day in the place of those of the book's date, where any has changed since. */
export function listOn(day: string, panel: HTMLElement, selects: readonly HTMLSelectElement[]): void {
  const lists = [...panel.querySelectorAll<HTMLTemplateElement>('template[data-from]')];
  const list = lists.findLast(({ dataset }) => (dataset['from'] ?? '') <= day);
  if (!list) return;
  for (const select of selects) {
    const anchors = new Map([...select.options].map(({ value, id }) => [value, id]));
    const groups = list.content.cloneNode(true) as DocumentFragment;
    for (const option of groups.querySelectorAll('option')) {
      const anchor = anchors.get(option.value) ?? '';
      if (anchor !== '') option.id = anchor;
    }
    for (const group of select.querySelectorAll('optgroup')) group.remove();
    select.append(groups);
  }
}
