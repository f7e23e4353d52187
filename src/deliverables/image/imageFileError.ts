/** Why an image file was refused; `message` names the part and the mend. */
export interface ImageFileError {
  readonly code: 'not-this-format' | 'truncated' | 'unsupported' | 'bad-size';
  readonly message: string;
}

/** Largest side that readers accept; keeps a hostile header from asking for all memory. */
export const MAX_SIDE_PX = 32768;
/** Largest picture that readers accept, pixels. */
export const MAX_PIXELS = 2 ** 28;

export const isReadableSize = (widthPx: number, heightPx: number): boolean =>
  Number.isInteger(widthPx) &&
  Number.isInteger(heightPx) &&
  widthPx > 0 &&
  heightPx > 0 &&
  widthPx <= MAX_SIDE_PX &&
  heightPx <= MAX_SIDE_PX &&
  widthPx * heightPx <= MAX_PIXELS;
