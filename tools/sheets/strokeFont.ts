/**
 * Capital letters of single strokes on a grid of 4 by 6, for captions. A glyph is polylines of points "xy", y up from the
 * base line; strokes are parted by ';'.
 */
const GLYPHS: Readonly<Record<string, string>> = {
  A: '00 26 40;12 32',
  B: '00 06 26 35 34 23 03;23 32 31 20 00',
  C: '45 36 16 05 01 10 30 41',
  D: '00 06 26 44 42 20 00',
  E: '40 00 06 46;03 33',
  F: '00 06 46;03 33',
  G: '45 36 16 05 01 10 30 41 43 23',
  H: '00 06;40 46;03 43',
  I: '20 26',
  J: '36 31 20 10 01',
  K: '00 06;46 03 40',
  L: '06 00 40',
  M: '00 06 23 46 40',
  N: '00 06 40 46',
  O: '10 01 05 16 36 45 41 30 10',
  P: '00 06 36 45 44 33 03',
  Q: '10 01 05 16 36 45 41 30 10;22 40',
  R: '00 06 36 45 44 33 03;23 40',
  S: '45 36 16 05 04 13 33 42 41 30 10 01',
  T: '06 46;26 20',
  U: '06 01 10 30 41 46',
  V: '06 20 46',
  W: '06 10 23 30 46',
  X: '00 46;06 40',
  Y: '06 23 46;23 20',
  Z: '06 46 00 40',
  '0': '10 01 05 16 36 45 41 30 10',
  '1': '15 26 20',
  '2': '05 16 36 45 44 00 40',
  '3': '05 16 36 45 44 33 23;33 42 41 30 10 01',
  '4': '30 36 02 42',
  '5': '46 06 03 33 42 41 30 10 01',
  '6': '45 36 16 05 01 10 30 41 42 33 03',
  '7': '06 46 10',
  '8': '13 04 05 16 36 45 44 33 13 02 01 10 30 41 42 33',
  '9': '01 10 30 41 45 36 16 05 04 13 43',
  ',': '21 10',
  '.': '20 21',
  '-': '13 33',
  '/': '00 46',
  '%': '00 46;05 15;31 41',
  '+': '23 43;32 34',
};
const GLYPH_UNITS = 4;
const SPACE_UNITS = 2.6;
const GAP_UNITS = 1.7;

interface Canvas {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly rgb: Uint8Array;
}

const advance = (letter: string): number => (letter === ' ' ? SPACE_UNITS : GLYPH_UNITS + GAP_UNITS);

/** Capitals without the marks over them: there are no strokes for those. */
const lettersOf = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toUpperCase();

/** Width of a caption in pixels. */
export const captionWidthPx = (text: string, unitPx: number): number =>
  [...lettersOf(text)].reduce((sum, letter) => sum + advance(letter), -GAP_UNITS) * unitPx;

/** Draws a caption with smooth edges; (x, y) is the left end of its base line, in pixels from the top left. */
export function drawCaption(
  canvas: Canvas,
  text: string,
  at: { readonly x: number; readonly y: number },
  unitPx: number,
  colour: readonly [number, number, number],
): void {
  let x = at.x;
  for (const letter of lettersOf(text)) {
    for (const stroke of (GLYPHS[letter] ?? '').split(';')) {
      const points = stroke
        .split(' ')
        .filter((pair) => pair.length === 2)
        .map((pair) => [x + Number(pair[0]) * unitPx, at.y - Number(pair[1]) * unitPx] as const);
      for (let i = 1; i < points.length; i++) drawLine(canvas, points[i - 1], points[i], 0.6, colour);
    }
    x += advance(letter) * unitPx;
  }
}

type Point = readonly [number, number];

function drawLine(
  { widthPx, heightPx, rgb }: Canvas,
  from: Point,
  to: Point,
  halfPx: number,
  colour: readonly [number, number, number],
): void {
  const pad = halfPx + 1;
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  const length2 = dx * dx + dy * dy;
  for (
    let y = Math.max(0, Math.floor(Math.min(from[1], to[1]) - pad));
    y <= Math.min(heightPx - 1, Math.max(from[1], to[1]) + pad);
    y++
  )
    for (
      let x = Math.max(0, Math.floor(Math.min(from[0], to[0]) - pad));
      x <= Math.min(widthPx - 1, Math.max(from[0], to[0]) + pad);
      x++
    ) {
      const t = Math.min(1, Math.max(0, ((x - from[0]) * dx + (y - from[1]) * dy) / (length2 || 1)));
      const off = Math.hypot(x - from[0] - t * dx, y - from[1] - t * dy);
      const cover = Math.min(1, Math.max(0, halfPx + 0.5 - off));
      if (cover === 0) continue;
      const i = (y * widthPx + x) * 3;
      for (let c = 0; c < 3; c++) rgb[i + c] = Math.round(rgb[i + c] + (colour[c] - rgb[i + c]) * cover);
    }
}
