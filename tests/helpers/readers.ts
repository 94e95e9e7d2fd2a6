/** Two readers of the book who do the same: one with a thumb, whose taps are counted, one with the keyboard alone. */
import type { ElementHandle, Locator, Page } from 'playwright-core';

export interface Reader {
  readonly page: Page;
  /** Taps so far: a choice in a list is one, typing into a field that has been tapped is none. */
  readonly taps: number;
  /** Goes where a link or a button leads. */
  press(target: Locator): Promise<void>;
  choose(list: Locator, value: string): Promise<void>;
  write(words: string): Promise<void>;
}

export class Thumb implements Reader {
  readonly page: Page;
  taps = 0;

  constructor(page: Page) {
    this.page = page;
  }

  async press(target: Locator): Promise<void> {
    this.taps += 1;
    await target.tap();
  }

  async choose(list: Locator, value: string): Promise<void> {
    this.taps += 1;
    await list.selectOption(value);
  }

  async write(words: string): Promise<void> {
    await this.page.keyboard.insertText(words);
  }
}

/** Goes from one thing to the next as a browser does, and looks at each whether it can be seen that it has the focus. */
export class Keys implements Reader {
  readonly page: Page;
  readonly taps = 0;
  /** What had the focus without showing it. */
  readonly unseen = new Set<string>();

  constructor(page: Page) {
    this.page = page;
  }

  /** One step on; what then has the focus is looked at. Whether that is the one wanted, and whether it is any at all. */
  async next(wanted?: ElementHandle): Promise<{ reached: boolean; left: boolean }> {
    await this.page.keyboard.press('Tab');
    const { fault, ...found } = await this.page.evaluate(focusedNow, wanted);
    if (fault !== undefined) this.unseen.add(fault);
    return found;
  }

  async #reach(target: Locator): Promise<void> {
    const wanted = await target.elementHandle();
    if (!wanted) throw new Error('nothing to go to');
    if (await wanted.evaluate((element) => element === document.activeElement)) return;
    for (let steps = 0; steps < 600; steps += 1) if ((await this.next(wanted)).reached) return;
    throw new Error(`the keyboard does not reach ${target}`);
  }

  async press(target: Locator): Promise<void> {
    await this.#reach(target);
    await this.page.keyboard.press('Enter');
  }

  async choose(list: Locator, value: string): Promise<void> {
    await this.#reach(list);
    const steps = await list.evaluate((element: HTMLSelectElement, wanted) => {
      const all = [...element.options].map((one) => one.value);
      return all.indexOf(wanted) - element.selectedIndex;
    }, value);
    const key = steps > 0 ? 'ArrowDown' : 'ArrowUp';
    for (let step = 0; step < Math.abs(steps); step += 1) await this.page.keyboard.press(key);
  }

  async write(words: string): Promise<void> {
    await this.page.keyboard.type(words);
  }
}

/** In the page: what has the focus, and why it cannot be seen. */
function focusedNow(wanted: Node | undefined): { reached: boolean; left: boolean; fault?: string } {
  const focused = document.activeElement;
  if (!focused || focused === document.body) return { reached: false, left: true };
  const found = { reached: focused === wanted, left: false };
  const name = `${focused.tagName} ${focused.id} ${focused.textContent?.trim().slice(0, 30)}`;
  const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(focused);
  if (outlineStyle === 'none' || Number.parseFloat(outlineWidth) < 2 || /, 0\)$/.test(outlineColor)) {
    return { ...found, fault: `${name}: no outline` };
  }
  const [box] = focused.getClientRects();
  if (!box) return { ...found, fault: `${name}: nothing to be seen` };
  // Of what is larger than the window, such as a table that moves, the part within it.
  const middle = (from: number, to: number, end: number): number => (Math.max(from, 0) + Math.min(to, end)) / 2;
  const front = document.elementFromPoint(
    middle(box.left, box.right, innerWidth),
    middle(box.top, box.bottom, innerHeight),
  );
  if (!front || !focused.contains(front)) {
    return { ...found, fault: `${name}: beneath ${front?.tagName ?? 'the edge'} ${front?.className ?? ''}` };
  }
  return found;
}
