/** Sizes of paper, and of the pages on it. */

export type PaperName = 'A4' | 'A5' | 'Letter';
export type Orientation = 'portrait' | 'landscape';

export interface Size {
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
}

/** ISO 216 for A4 and A5; ANSI Y14.1 size A, 8.5 by 11 inches, for Letter. From memory. */
const PORTRAIT: Readonly<Record<PaperName, Size>> = {
  A4: { width: 210, height: 297 },
  A5: { width: 148, height: 210 },
  Letter: { width: 215.9, height: 279.4 },
};

export const PAPERS = Object.keys(PORTRAIT) as PaperName[];

export function paperSize(name: PaperName, orientation: Orientation): Size {
  const { width, height } = PORTRAIT[name];
  return orientation === 'portrait' ? { width, height } : { width: height, height: width };
}

/** The page, or one of two: they stand beside each other on a sheet that lies, above each other on one that stands. */
export function pageSize(name: PaperName, orientation: Orientation, twoUp: boolean): Size {
  const { width, height } = paperSize(name, orientation);
  if (!twoUp) return { width, height };
  return orientation === 'landscape' ? { width: width / 2, height } : { width, height: height / 2 };
}
