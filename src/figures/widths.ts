/** The places that drawings are made for. */

/** How wide they are: beside the margins of most phones, and in a column of text on a screen or on A4. */
export const WIDTHS = { narrow: 354, broad: 656 };

export interface Drawings {
  /** At most as wide as a column of text. */
  readonly broad: string;
  /** The same for a phone, where `broad` is too wide for one. */
  readonly narrow?: string;
}
