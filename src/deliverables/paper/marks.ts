/** What is set on a sheet of paper, in millimetres from the sheet's top left corner, y down. Black and greys only. */
export type PointMm = readonly [number, number];

/** 0 is black, 1 is paper. */
export type Grey = number;

export interface Stroke {
  readonly widthMm: number;
  /** Lengths of stroke and gap in turn; a whole line when left out. */
  readonly dashMm?: readonly number[];
  readonly grey?: Grey;
}

export interface LineMark {
  readonly type: 'line';
  readonly pointsMm: readonly PointMm[];
  readonly closed: boolean;
  readonly stroke?: Stroke;
  readonly fill?: Grey;
}

export interface CircleMark {
  readonly type: 'circle';
  readonly centreMm: PointMm;
  readonly radiusMm: number;
  readonly stroke?: Stroke;
  readonly fill?: Grey;
}

export type FontWeight = 'regular' | 'bold';

export interface TextMark {
  readonly type: 'text';
  /** Start, middle or end of the base line, as `anchor` says. */
  readonly atMm: PointMm;
  readonly text: string;
  readonly sizePt: number;
  readonly weight?: FontWeight;
  readonly anchor?: 'start' | 'middle' | 'end';
  /** Counter-clockwise, so that 90 reads from the right-hand edge of the sheet. */
  readonly turnDeg?: number;
  readonly grey?: Grey;
}

export interface PictureMark {
  readonly type: 'picture';
  readonly cornerMm: PointMm;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly png: Uint8Array;
  /** What the picture shows, for those who can't see it. */
  readonly description: string;
}

/** Marks that show only inside a rectangle. */
export interface ClipMark {
  readonly type: 'clip';
  readonly cornerMm: PointMm;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

export type Mark = LineMark | CircleMark | TextMark | PictureMark | ClipMark;

/** One side of paper. */
export interface Sheet {
  readonly title: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

export const line = (pointsMm: readonly PointMm[], stroke: Stroke): LineMark => ({
  type: 'line',
  pointsMm,
  closed: false,
  stroke,
});

export const outline = (pointsMm: readonly PointMm[], stroke: Stroke, fill?: Grey): LineMark => ({
  type: 'line',
  pointsMm,
  closed: true,
  stroke,
  ...(fill === undefined ? {} : { fill }),
});

export const box = (
  [x, y]: PointMm,
  widthMm: number,
  heightMm: number,
  look: { readonly stroke?: Stroke; readonly fill?: Grey },
): LineMark => ({
  type: 'line',
  pointsMm: [
    [x, y],
    [x + widthMm, y],
    [x + widthMm, y + heightMm],
    [x, y + heightMm],
  ],
  closed: true,
  ...look,
});

export const text = (atMm: PointMm, words: string, sizePt: number, look: Partial<TextMark> = {}): TextMark => ({
  type: 'text',
  atMm,
  text: words,
  sizePt,
  ...look,
});
