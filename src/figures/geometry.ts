/** Places in a drawing, in drawing units: x to the right, y downwards. */

export interface Point {
  readonly x: number;
  readonly y: number;
}
/** `x` and `y` are the upper left corner. */
export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}
