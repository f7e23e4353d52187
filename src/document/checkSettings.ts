import type { CheckLimits, FindingMark, FrameCapture, RoomConditions } from '../analysis/contracts.ts';
import { DEFAULT_CAPTURE, DEFAULT_ROOM } from '../analysis/limits.ts';
import type { Frame, Setup } from './setup.ts';

/** What the document says to the checks of one frame, beside the set itself. */
export interface CheckSettings {
  readonly frameId: string;
  readonly limits: Partial<CheckLimits>;
  readonly marks: readonly FindingMark[];
  readonly room: RoomConditions;
  readonly capture: FrameCapture;
}

/** Fields that are left out take the usual figures. */
export const checkSettingsOf = (setup: Pick<Setup, 'room'>, frame: Frame): CheckSettings => ({
  frameId: frame.id,
  limits: frame.limits,
  marks: frame.marks ?? [],
  room: setup.room ?? DEFAULT_ROOM,
  capture: {
    kind: frame.kind,
    framesPerS: frame.framesPerS ?? DEFAULT_CAPTURE.framesPerS,
    pictureWidthPx: frame.pictureWidthPx ?? DEFAULT_CAPTURE.pictureWidthPx,
  },
});

/** A frame's marks with one finding marked anew; `wanted` null takes its mark away. */
export function withMark(
  frame: Pick<Frame, 'marks'>,
  findingId: string,
  wanted: boolean | null,
  reason = '',
): FindingMark[] {
  const others = (frame.marks ?? []).filter((mark) => mark.findingId !== findingId);
  return wanted === null ? others : [...others, { findingId, wanted, reason }];
}
