import { captionWidthPx, drawCaption } from './strokeFont.ts';
import type { Picture } from './traceItem.ts';

const GAP_PX = 4;
const CAPTION_PX = 18;
const UNIT_PX = 0.95;
const PAPER = [26, 24, 22] as const;
const INK = [196, 188, 176] as const;

/** Rows of pictures of one size, each with its caption under it. */
export function layOutSheet(
  cells: readonly { readonly picture: Picture; readonly caption: string }[],
  columns: number,
): Picture {
  const { widthPx: w, heightPx: h } = cells[0].picture;
  const rows = Math.ceil(cells.length / columns);
  const widthPx = columns * (w + GAP_PX) + GAP_PX;
  const heightPx = rows * (h + CAPTION_PX + GAP_PX) + GAP_PX;
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  for (let i = 0; i < rgb.length; i++) rgb[i] = PAPER[i % 3];
  const sheet: Picture = { widthPx, heightPx, rgb };
  cells.forEach(({ picture, caption }, i) => {
    const left = GAP_PX + (i % columns) * (w + GAP_PX);
    const top = GAP_PX + Math.floor(i / columns) * (h + CAPTION_PX + GAP_PX);
    for (let y = 0; y < h; y++)
      rgb.set(picture.rgb.subarray(y * w * 3, (y + 1) * w * 3), ((top + y) * widthPx + left) * 3);
    const unitPx = Math.min(UNIT_PX, (UNIT_PX * (w - 4)) / captionWidthPx(caption, UNIT_PX));
    const x = left + (w - captionWidthPx(caption, unitPx)) / 2;
    drawCaption(sheet, caption, { x, y: top + h + CAPTION_PX - 6 }, unitPx, INK);
  });
  thin(rgb);
  return sheet;
}

/** 64 steps a channel: the eye sees no difference at this size, and the files come out a third smaller. */
function thin(rgb: Uint8Array): void {
  for (let i = 0; i < rgb.length; i++) rgb[i] = (rgb[i] & 0xfc) | (rgb[i] >> 6);
}
