import type { Finding } from '../../src/analysis/contracts.ts';
import { REFLECTION_VISIBLE_SHARE } from '../../src/analysis/limits.ts';
import type { TracedImage } from './judgeFrame.ts';
import type { LongFrame } from './longFrame.ts';

/** Nearer to its limit than this, a reflection may be told or not. */
export const BORDERLINE_STOPS = 0.1;
/** Likewise an image whose area is the least that counts, times or over this: so few rays of the check meet it. */
export const BORDERLINE_AREAS = 2;

export type Verdict = 'found' | 'missed' | 'false' | 'borderline';

export interface Comparison {
  readonly verdict: Verdict;
  readonly id: string;
  readonly isPlain: boolean;
  /** By the check, null where it tells nothing. */
  readonly finding: Finding | null;
  /** Of the traced frame, null where it shows nothing. */
  readonly image: TracedImage | null;
}

/** The finding's id without the number of a further patch of the same image. */
export const imageIdOf = (finding: Finding): string =>
  finding.id.replace(/:\d+$/, (tail) => (isCount(finding, tail) ? '' : tail));
const isCount = ({ id }: Finding, tail: string): boolean => /:in:[^:]+:[^:]+$/.test(id.slice(0, -tail.length));

/** Matches findings with the images of the traced frame: the same source, first surface and manner, in one place. */
export function compareFrame(
  findings: readonly Finding[],
  images: readonly TracedImage[],
  frame: LongFrame,
): Comparison[] {
  const imageAt = new Map(images.map((image) => [image.id, image]));
  const told = new Map<string, Finding[]>();
  for (const finding of findings) {
    const id = imageIdOf(finding);
    told.set(id, [...(told.get(id) ?? []), finding]);
  }
  const pixels = frame.widthPx * frame.heightPx;
  return [...new Set([...imageAt.keys(), ...told.keys()])].flatMap((id): Comparison[] => {
    const image = imageAt.get(id) ?? null;
    const patches = told.get(id) ?? [];
    // Of several patches of one image any may be where the traced frame shows it.
    const finding = patches.find((patch) => image && overlaps(patch, image, frame)) ?? patches[0] ?? null;
    const isPlain = image?.isPlain ?? !/:(through|indirect)/.test(id);
    const verdict = verdictOf(finding, image, frame, pixels);
    return verdict ? [{ verdict, id, isPlain, finding, image }] : [];
  });
}

function verdictOf(
  finding: Finding | null,
  image: TracedImage | null,
  frame: LongFrame,
  pixels: number,
): Verdict | null {
  const leastPixels = REFLECTION_VISIBLE_SHARE * pixels;
  const surely = image !== null && image.pixelsAt(BORDERLINE_STOPS) >= leastPixels * BORDERLINE_AREAS;
  // A plain image is told whatever its size.
  const leastAtAll = image?.isPlain ? 0 : leastPixels / BORDERLINE_AREAS;
  const perhaps = image !== null && image.pixels.length > 0 && image.pixelsAt(-BORDERLINE_STOPS) >= leastAtAll;
  if (finding) {
    if (!image || !perhaps || !overlaps(finding, image, frame)) return 'false';
    return surely ? 'found' : 'borderline';
  }
  return surely ? 'missed' : perhaps ? 'borderline' : null;
}

/** Does the box of a finding, a pixel wider all round, hold a pixel of the image? */
function overlaps({ where }: Finding, { pixels }: TracedImage, { widthPx, heightPx }: LongFrame): boolean {
  const box = where.frame;
  if (!box) return false;
  return pixels.some((pixel) => {
    const x = (pixel % widthPx) + 0.5;
    const y = Math.floor(pixel / widthPx) + 0.5;
    return (
      Math.abs(x - box.u * widthPx) <= (box.widthU * widthPx) / 2 + 1.5 &&
      Math.abs(y - box.v * heightPx) <= (box.heightV * heightPx) / 2 + 1.5
    );
  });
}
