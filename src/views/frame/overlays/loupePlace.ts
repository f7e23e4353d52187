const WIDTH_PX = 173;
const HEIGHT_PX = 271;
const STAND_OFF_PX = 22;

/** Where the loupe stands: right of and under the pointer, on the other side where the picture ends. Never over the pointer. */
export function loupePlace(
  xPx: number,
  yPx: number,
  pictureWidthPx: number,
  pictureHeightPx: number,
): { readonly leftPx: number; readonly topPx: number } {
  const fitsRight = xPx + STAND_OFF_PX + WIDTH_PX <= pictureWidthPx;
  const top = yPx + STAND_OFF_PX;
  return {
    leftPx: fitsRight ? xPx + STAND_OFF_PX : Math.max(0, xPx - STAND_OFF_PX - WIDTH_PX),
    // Beside the pointer it may stand at any height.
    topPx: Math.max(0, Math.min(top, pictureHeightPx - HEIGHT_PX)),
  };
}
