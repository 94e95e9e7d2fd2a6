/** Lines and columns of a text. Offsets inside, positions at the edge: this is the one place that turns one into the other. */

/** Both 1-based. The column counts code points, as an editor shows it for plain text. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

export class LineIndex {
  readonly #text: string;
  /** The offset at which each line starts. */
  readonly #starts: readonly number[];

  /** Lines end with LF, CRLF or a lone CR. */
  constructor(text: string) {
    this.#text = text;
    const starts = [0];
    for (const match of text.matchAll(/\r\n|\n|\r/g)) starts.push(match.index + match[0].length);
    this.#starts = starts;
  }

  get lineCount(): number {
    return this.#starts.length;
  }

  /** The position of an offset; beyond the text, that of its end. */
  position(offset: number): Position {
    const at = Math.max(0, Math.min(offset, this.#text.length));
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((this.#starts[middle] ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    const start = this.#starts[low] ?? 0;
    const before = this.#text.slice(start, at).replace(/^\uFEFF/, '');
    return { line: low + 1, column: [...before].length + 1 };
  }

  /** The half-open range of offsets of a line, without its line ending. */
  range(line: number): { readonly start: number; readonly end: number } {
    const start = this.#starts[line - 1] ?? this.#text.length;
    const next = this.#starts[line] ?? this.#text.length;
    const ending = /(?:\r\n|\n|\r)$/.exec(this.#text.slice(start, next));
    return { start, end: next - (ending?.[0].length ?? 0) };
  }
}
