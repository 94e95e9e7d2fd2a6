/**
 * What is wrong with the content, over the open page. Runs in the browser and in the preview only: the dev server adds it to
 * every page, a built book knows nothing of it. It lives in a shadow root, so that neither style touches the other.
 */
import type { Notice } from './draft.ts';

const style = `
:host { all: initial; position: fixed; inset: auto 0 0 0; z-index: 1000; color-scheme: light dark; }
:host([hidden]) { display: none; }
section { box-sizing: border-box; max-height: 70vh; overflow: auto; padding: 16px 32px 24px; font: 16px/1.5 system-ui, sans-serif;
  background: light-dark(#fbfaf6, #101314); color: light-dark(#14202e, #c9c2b2); border-top: 3px solid light-dark(#a3320b, #d08a66); }
header { display: flex; gap: 24px; align-items: baseline; justify-content: space-between; }
h2 { margin: 0; font-size: 18px; }
p { margin: 4px 0 0; }
pre { margin: 16px 0 0; padding: 12px 0 0; border-top: 1px solid light-dark(#cfd5d8, #2b2f31); white-space: pre-wrap;
  font: 14px/1.45 ui-monospace, monospace; }
button { font: inherit; padding: 8px 16px; min-height: 44px; color: inherit; background: none; border: 1px solid currentcolor;
  border-radius: 4px; cursor: pointer; }
section:focus-visible, button:focus-visible { outline: 2px solid currentcolor; outline-offset: 2px; }
section.folded { max-height: none; padding-block: 8px; }
.folded :is(p, pre) { display: none; }
@media print { :host { display: none; } }
`;

class ContentErrors extends HTMLElement {
  #number = -1;
  #folded = false;
  readonly #root = this.attachShadow({ mode: 'open' });

  connectedCallback(): void {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(style);
    this.#root.adoptedStyleSheets = [sheet];
    this.hidden = true;
  }

  /** Shows a notice, or goes away if it is a good one. */
  show({ number, summary, problems }: Notice): void {
    if (number < this.#number) return;
    this.#number = number;
    this.hidden = problems.length === 0;
    // The theme that the reader chose for the book holds here too.
    const { theme } = document.documentElement.dataset;
    this.style.colorScheme = theme === 'night' ? 'dark' : theme === 'day' ? 'light' : '';
    const section = element('section');
    section.setAttribute('role', 'alert');
    section.setAttribute('aria-label', 'Errors in the content');
    section.tabIndex = 0;
    const header = element('header');
    const button = element('button', '');
    const fold = (folded: boolean): void => {
      this.#folded = folded;
      section.classList.toggle('folded', folded);
      button.textContent = folded ? 'Show the errors' : 'Show the page';
      button.setAttribute('aria-expanded', String(!folded));
    };
    button.addEventListener('click', () => fold(!this.#folded));
    section.addEventListener('keydown', (event) => {
      if (event.key === 'Escape') fold(true);
    });
    header.append(element('h2', `The content has ${summary}.`), button);
    section.append(header, element('p', 'This goes away as soon as they are mended.'));
    section.append(...problems.map((problem) => element('pre', problem)));
    fold(this.#folded);
    this.#root.replaceChildren(section);
  }
}

function element(name: string, text?: string): HTMLElement {
  const made = document.createElement(name);
  if (text !== undefined) made.textContent = text;
  return made;
}

customElements.define('content-errors', ContentErrors);
const overlay = new ContentErrors();
document.body.append(overlay);

async function ask(): Promise<void> {
  const answer = await fetch('/@switchleaf/notice');
  overlay.show((await answer.json()) as Notice);
}

const hot = (import.meta as { hot?: { on(event: string, heard: (notice: Notice) => void): void } }).hot;
hot?.on('switchleaf:notice', (notice) => overlay.show(notice));
// What was told between the first question and the connection was told to nobody.
hot?.on('vite:ws:connect', () => void ask());
await ask();
