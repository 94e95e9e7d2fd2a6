/** The small mark of an address: a link to where it stands, which also puts the address on the clipboard. */

const SVG = 'http://www.w3.org/2000/svg';
/** Two links of a chain. */
const CHAIN = 'M6.5 9.5l3-3M7 4.5l1.2-1.2a3 3 0 0 1 4.5 4.5L11.5 9M9 11.5l-1.2 1.2a3 3 0 0 1-4.5-4.5L4.5 7';

export function markFor(id: string, label: string): HTMLAnchorElement {
  const mark = document.createElement('a');
  mark.className = 'link-mark';
  mark.href = `#${encodeURIComponent(id)}`;
  mark.setAttribute('aria-label', label);
  mark.title = label;
  const drawing = document.createElementNS(SVG, 'svg');
  drawing.setAttribute('viewBox', '0 0 16 16');
  drawing.setAttribute('aria-hidden', 'true');
  const path = document.createElementNS(SVG, 'path');
  path.setAttribute('d', CHAIN);
  drawing.append(path);
  mark.append(drawing);
  mark.addEventListener('click', () => {
    // The browser goes to the link itself, so that the address bar has it where the clipboard is closed.
    navigator.clipboard?.writeText(mark.href).then(
      () => say('Link copied'),
      () => undefined,
    );
  });
  return mark;
}

let line: HTMLElement | undefined;
let ends: ReturnType<typeof setTimeout> | undefined;

/** Says a few words at the foot of the window, for a moment; read out by screen readers. */
export function say(words: string): void {
  if (!line) {
    line = document.createElement('p');
    line.className = 'said-briefly';
    line.setAttribute('role', 'status');
    document.body.append(line);
  }
  line.textContent = words;
  line.hidden = false;
  clearTimeout(ends);
  ends = setTimeout(() => {
    if (line) line.hidden = true;
  }, 4000);
}
