import { MAX_PICTURE_PX, storePictureRgb } from '../../materials/picture.ts';
import { chooseFile } from '../session/chooseFile.ts';
import { documentStore, showNotice, updateRecord } from '../session/index.ts';
import { type Pixels, pictureOnPiece } from './placePicture.ts';

const MAX_FILE_BYTES = 40_000_000;
/** Sharp enough for a label in a close-up; a setup stays small enough to send. */
const SIDE_PX = Math.min(512, MAX_PICTURE_PX);

/** Asks for a picture file and lays it on a piece as one step that can be undone. */
export function pickPictureFor(pieceId: string): void {
  void chooseFile('image/png,image/jpeg,image/webp').then((file) => file && layPicture(file, pieceId));
}

export async function layPicture(file: File, pieceId: string): Promise<void> {
  const refuse = (detail: string): void =>
    showNotice({ tone: 'trouble', text: `"${file.name.slice(0, 60)}" cannot be laid on it.`, detail });
  if (file.size > MAX_FILE_BYTES) {
    refuse('The file has over 40 MB: save it smaller.');
    return;
  }
  const pixels = await readPixels(file);
  if (!pixels) {
    refuse('It is no picture that this browser reads: save it as PNG or JPEG.');
    return;
  }
  const piece = documentStore.getState().setup.pieces.find(({ id }) => id === pieceId);
  const patch = piece ? pictureOnPiece(piece, pixels) : null;
  if (!piece || !patch) {
    refuse('This piece has no face for a picture.');
    return;
  }
  documentStore.apply(`Picture on ${piece.name}`, [updateRecord('pieces', piece.id, patch)]);
}

async function readPixels(file: File): Promise<Pixels | null> {
  let bitmap: ImageBitmap;
  try {
    // A drawing with scripts or links in it is no bitmap, so nothing in the file can run or reach out.
    bitmap = await createImageBitmap(file);
  } catch {
    return null;
  }
  const scale = Math.min(1, SIDE_PX / Math.max(bitmap.width, bitmap.height));
  const [widthPx, heightPx] = [bitmap.width, bitmap.height].map((side) => Math.max(1, Math.round(side * scale)));
  const canvas = new OffscreenCanvas(widthPx, heightPx);
  const context = canvas.getContext('2d');
  if (!context) return null;
  // What is clear in the file shows as the paper under it.
  context.fillStyle = '#fff';
  context.fillRect(0, 0, widthPx, heightPx);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, widthPx, heightPx);
  bitmap.close();
  const { data } = context.getImageData(0, 0, widthPx, heightPx);
  const codes = new Uint8Array(widthPx * heightPx * 3);
  for (let i = 0, at = 0; i < data.length; i += 4) {
    codes[at++] = data[i];
    codes[at++] = data[i + 1];
    codes[at++] = data[i + 2];
  }
  return { widthPx, heightPx, rgb: storePictureRgb(codes) };
}
