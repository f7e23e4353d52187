import type { CropName } from '../../../document/frameRecords.ts';

/** A rectangle in the frame, shares of its width and height from the top left. */
export interface FrameRect {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export const WHOLE_FRAME: FrameRect = { left: 0, top: 0, width: 1, height: 1 };

/** Width over height of a named shape. */
export function cropAspect(name: CropName): number {
  const [width, height] = name.split(':').map(Number);
  return width / height;
}

/** The largest centred part of a frame (width over height `frameAspect`) in another shape. */
export function cropRect(frameAspect: number, aspect: number): FrameRect {
  const width = Math.min(1, aspect / frameAspect);
  const height = Math.min(1, frameAspect / aspect);
  return { left: (1 - width) / 2, top: (1 - height) / 2, width, height };
}

/**
 * Safe areas of a picture by share of its width and height: 93 % for action, 90 % for titles.
 * Source: SMPTE ST 2046-1:2009, and EBU R 95 with the same shares (both from memory).
 */
export const SAFE_AREA_SHARES = { action: 0.93, title: 0.9 } as const;

/** A centred part of a rectangle. */
export const insetRect = (rect: FrameRect, share: number): FrameRect => ({
  left: rect.left + (rect.width * (1 - share)) / 2,
  top: rect.top + (rect.height * (1 - share)) / 2,
  width: rect.width * share,
  height: rect.height * share,
});

/** How much of the sensor's pixels a crop keeps, 0..1. */
export const keptShare = ({ width, height }: FrameRect): number => width * height;
