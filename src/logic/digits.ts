/**
 * Numbers as text that compresses well: a number below 64 is one character of `LAST`. A larger one n starts with the
 * character of `MORE` at (n - 64) mod 23, and the number (n - 64) div 23 follows. All characters stand unescaped in JSON and
 * HTML.
 */

const LAST = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_';
const MORE = '!#$%()*+,./:;=?@[]^{|}~';

/** The largest number that can be read. */
const LARGEST = 2 ** 31 - 1;

/** The text of an integer that is not negative. */
export function digitsOf(number: number): string {
  let text = '';
  let rest = number;
  while (rest >= LAST.length) {
    rest -= LAST.length;
    text += MORE[rest % MORE.length];
    rest = Math.floor(rest / MORE.length);
  }
  return text + LAST[rest];
}

/** Reads one number after the other. `fault` makes the error where there is none. */
export class DigitReader {
  readonly #text: string;
  readonly #fault: (what: string) => Error;
  #at = 0;

  constructor(text: string, fault: (what: string) => Error) {
    this.#text = text;
    this.#fault = fault;
  }

  next(): number {
    let number = 0;
    let weight = 1;
    for (;;) {
      if (this.#at >= this.#text.length) throw this.#fault('ends too early');
      const character = this.#text.charAt(this.#at);
      this.#at += 1;
      const last = LAST.indexOf(character);
      const more = MORE.indexOf(character);
      if (last < 0 && more < 0) throw this.#fault(`has a wrong character at ${this.#at - 1}`);
      number += weight * (last < 0 ? LAST.length + more : last);
      if (number > LARGEST) throw this.#fault(`has too large a number at ${this.#at - 1}`);
      if (last >= 0) return number;
      weight *= MORE.length;
    }
  }

  /** Whether everything has been read. */
  get done(): boolean {
    return this.#at === this.#text.length;
  }
}
