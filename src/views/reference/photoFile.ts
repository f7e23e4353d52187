import { fail, ok, type Result } from '../../core/result.ts';
import { MAX_REFERENCE_CHARS, type Reference } from '../../document/frameRecords.ts';

/** Why a file is no reference photo: one sentence that says what to do. */
export interface PhotoFault {
  readonly message: string;
}

export const LONGEST_SIDE_PX = 1600;
/** Larger files are no mood pictures, and decoding one may take all of a tablet's memory. */
const MOST_BYTES = 60_000_000;
const QUALITIES = [0.82, 0.7, 0.58, 0.45] as const;

/** Does a file say of itself that it is a picture? */
export const isPictureFile = (file: Pick<File, 'type' | 'name'>): boolean =>
  file.type.startsWith('image/') || /\.(jpe?g|png|webp|gif|avif|heic|tiff?|bmp)$/i.test(file.name);

/** The size of a picture brought down to what is kept; never enlarged. */
export function keptSize(widthPx: number, heightPx: number, longestPx = LONGEST_SIDE_PX) {
  const shrink = Math.min(1, longestPx / Math.max(widthPx, heightPx));
  return {
    widthPx: Math.max(1, Math.round(widthPx * shrink)),
    heightPx: Math.max(1, Math.round(heightPx * shrink)),
  };
}

/**
 * Reads a picture as it is kept in the document: at most 1600 px long, JPEG, small enough for the file. It never leaves this
 * machine. What was turned in the camera is upright; whatever else the file told of itself is left out.
 */
export async function readReference(file: File): Promise<Result<Reference, PhotoFault>> {
  if (file.size > MOST_BYTES) {
    return fail({ message: `${file.name} is too large (${Math.round(file.size / 1e6)} MB): save it smaller first.` });
  }
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return fail({ message: `${file.name} cannot be read as a picture: save it as JPEG or PNG and try again.` });
  }
  try {
    return encode(picture, file.name);
  } finally {
    picture.close();
  }
}

function encode(picture: ImageBitmap, name: string): Result<Reference, PhotoFault> {
  // What even the lowest quality leaves too large is made smaller as well.
  for (const longestPx of [LONGEST_SIDE_PX, 1200, 800]) {
    const { widthPx, heightPx } = keptSize(picture.width, picture.height, longestPx);
    const canvas = document.createElement('canvas');
    canvas.width = widthPx;
    canvas.height = heightPx;
    const context = canvas.getContext('2d', { alpha: false });
    if (!context) break;
    context.imageSmoothingQuality = 'high';
    context.drawImage(picture, 0, 0, widthPx, heightPx);
    for (const quality of QUALITIES) {
      const dataUrl = canvas.toDataURL('image/jpeg', quality);
      if (dataUrl.length <= MAX_REFERENCE_CHARS) return ok({ name: name.slice(0, 200), widthPx, heightPx, dataUrl });
    }
  }
  return fail({ message: `${name} cannot be brought down to a size that fits in the setup: crop it first.` });
}
