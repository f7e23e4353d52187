/** A sheet of paper, upright. */
export interface PaperSize {
  readonly name: 'A4' | 'Letter';
  readonly widthMm: number;
  readonly heightMm: number;
}

/** ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: size A (Letter) is 8.5 x 11 in. */
export const PAPER_SIZES = {
  a4: { name: 'A4', widthMm: 210, heightMm: 297 },
  letter: { name: 'Letter', widthMm: 215.9, heightMm: 279.4 },
} as const satisfies Record<string, PaperSize>;
export type PaperName = keyof typeof PAPER_SIZES;

/** The DTP point: 1/72 inch (PDF, ISO 32000-1 section 8.3.2.3). */
export const MM_PER_PT = 25.4 / 72;
