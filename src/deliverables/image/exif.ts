import { invariant } from '../../core/result.ts';
import { cameraWords, type PictureFacts, softwareWords, traceWords } from './pictureFacts.ts';
import {
  ascii,
  directoryBytes,
  encodeDirectory,
  headerBytes,
  long,
  rational,
  short,
  type Tag,
  TIFF_HEADER_BYTES,
} from './tiffTags.ts';

/** Pointer from the first directory to that of the camera (Exif 2.32, 4.6.3). */
const EXIF_POINTER = 34665;
const SRGB = 1;

/** Tags of the first directory that any picture has. Numbers are those of TIFF 6.0 and Exif 2.32. */
export const mainTags = (facts: PictureFacts): Tag[] => [
  ascii(270, `${facts.setupTitle}: ${facts.frameName}`),
  ascii(305, softwareWords(facts)),
];

/** What the camera was set to, and in the comment how the picture was traced. */
export function cameraTags(facts: PictureFacts, widthPx: number, heightPx: number): Tag[] {
  const { camera } = facts;
  return [
    exposureTime(camera.shutterS),
    rational(33437, Math.round(camera.apertureFNumber * 100), 100),
    short(34855, Math.min(65535, Math.round(camera.iso))),
    { tag: 36864, value: { type: 'undefined', bytes: latin('0232') } },
    rational(37382, Math.round(camera.focusDistanceM * 1000), 1000),
    rational(37386, Math.round(camera.focalLengthMm * 10), 10),
    // The first eight bytes name the letters that follow.
    {
      tag: 37510,
      value: { type: 'undefined', bytes: latin(`ASCII\0\0\0${cameraWords(camera)}. ${traceWords(facts)}.`) },
    },
    short(40961, SRGB),
    long(40962, widthPx),
    long(40963, heightPx),
    // White balance set by hand.
    short(41987, 1),
  ];
}

/** A first directory at `at` with the camera's directory after it, and `own` tags beside the usual ones. */
export function encodeDirectories(
  facts: PictureFacts,
  widthPx: number,
  heightPx: number,
  at: number,
  own: readonly Tag[] = [],
): Uint8Array {
  const camera = cameraTags(facts, widthPx, heightPx);
  const first = [...mainTags(facts), ...own, long(EXIF_POINTER, 0)];
  const cameraAt = at + directoryBytes(first);
  const pointed = first.map((tag) => (tag.tag === EXIF_POINTER ? long(EXIF_POINTER, cameraAt) : tag));
  const whole = new Uint8Array(directoryBytes(first) + directoryBytes(camera));
  whole.set(encodeDirectory(pointed, at));
  whole.set(encodeDirectory(camera, cameraAt), cameraAt - at);
  return whole;
}

/** The facts as an Exif block (a small TIFF file without a picture): CIPA DC-008-2019, Exif 2.32, section 4. */
export function exifBlock(facts: PictureFacts, widthPx: number, heightPx: number): Uint8Array {
  const directories = encodeDirectories(facts, widthPx, heightPx, TIFF_HEADER_BYTES);
  const block = new Uint8Array(TIFF_HEADER_BYTES + directories.length);
  block.set(headerBytes(TIFF_HEADER_BYTES));
  block.set(directories, TIFF_HEADER_BYTES);
  return block;
}

const MOST_SEGMENT_BYTES = 65533;
const EXIF_NAME = [0x45, 0x78, 0x69, 0x66, 0, 0];

/**
 * A JPEG stream with an Exif block as its first APP1 segment, after APP0 where there is one (Exif 2.32, 4.5.4: right
 * behind the start, yet readers look for JFIF's APP0 there first).
 */
export function jpegWithExif(jpeg: Uint8Array, block: Uint8Array): Uint8Array {
  invariant(jpeg[0] === 0xff && jpeg[1] === 0xd8, () => 'not a JPEG stream');
  const length = 2 + EXIF_NAME.length + block.length;
  invariant(length <= MOST_SEGMENT_BYTES, () => 'the Exif block is too long for a segment');
  const at = jpeg[2] === 0xff && jpeg[3] === 0xe0 ? 4 + ((jpeg[4] << 8) | jpeg[5]) : 2;
  const whole = new Uint8Array(jpeg.length + 2 + length);
  whole.set(jpeg.subarray(0, at));
  whole.set([0xff, 0xe1, length >> 8, length & 0xff, ...EXIF_NAME], at);
  whole.set(block, at + 4 + EXIF_NAME.length);
  whole.set(jpeg.subarray(at), at + 2 + length);
  return whole;
}

function exposureTime(shutterS: number): Tag {
  const reciprocal = 1 / shutterS;
  const isPart = shutterS < 1 && Math.abs(reciprocal - Math.round(reciprocal)) < 1e-6 * reciprocal;
  return isPart ? rational(33434, 1, Math.round(reciprocal)) : rational(33434, Math.round(shutterS * 1e6), 1e6);
}

const latin = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 0x7f);
