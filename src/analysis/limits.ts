import type { CheckLimits, FrameCapture, RoomConditions } from './contracts.ts';

/** Limits of the checks when the frame states none. A frame may override each of the first group. */
export const DEFAULT_LIMITS: CheckLimits = {
  // One stop is the smallest step that reads at a glance in a finished picture; at three stops a patch reads as a
  // shape of light and no longer as a sheen. Common practice, no source.
  reflectionCareStops: 1,
  reflectionStopStops: 3,
  // A sliver on the rim of the front element is worth a look; half of it lit is not a lens that is shaded.
  // Common practice, no source.
  flareCareShare: 0.05,
  flareStopShare: 0.5,
  // A stop is what a raw file takes without loss; three stops are past rescue in highlights and noisy in shadows.
  // Common practice, no source.
  exposureCareStops: 1,
  exposureStopStops: 3,
  // Two parts in a hundred are a square of a seventh of the height of the frame: more than a highlight. Common practice, no
  // source.
  clippedCareShare: 0.02,
  // A square of 1/87 of the width of a 3:2 frame: what can be retouched in a minute. Common practice, no source.
  thingInFrameCareShare: 0.0002,
  // Stands get nudged: a light that is clear by less is not clear for long. Common practice, no source.
  familyClearanceM: 0.05,
  // One sun, one shadow. Under a third of a stop a shadow is lost in the grain of a table; two within 15 degrees read as
  // one with a soft edge. Common practice, no source.
  shadowCount: 1,
  shadowSeenStops: 1 / 3,
  shadowMergeDeg: 15,
  // Half a stop is what flat copy is lit to; from a stop and a half a paper reads as graded. Common practice, no source.
  backgroundWanted: 'any',
  // A shadow on the paper is a flaw unless the frame says that stripes are meant.
  backgroundRead: 'asSeen',
  backgroundCareStops: 0.5,
  backgroundStopStops: 1.5,
  // A gradient that is meant must be seen to be meant: a stop from end to end. Common practice, no source.
  backgroundGradedStops: 1,
  backgroundPlaceU: 0.5,
  backgroundPlaceV: 0.5,
  backgroundPlaceTolerance: 0.2,
  // The older convention for a print held in the hand (see camera/depthOfField). Four times that, 1/375 of the diagonal, is
  // soft at a glance; ten times takes the letters off a label. Common practice, no source.
  circleOfConfusionDivisor: 1500,
  blurCareCircles: 4,
  blurStopCircles: 10,
  // Two centimetres of penumbra read as an edge beside a glass, more as a gradient. Common practice, no source.
  edgeWanted: 'any',
  edgePenumbraM: 0.02,
  edges: [],
  patternContrastCare: 0.3,
  // Common practice, no source: past 45 degrees light and shade of two things no longer agree at a glance.
  lightDirectionCareDeg: 45,
  // A shade that just clips still has a shape; two stops over it is a hole in the picture. Common practice, no source.
  practicalCareStops: 0,
  practicalStopStops: 2,
  // Half a stop is about the least step that draws an edge at a glance. Common practice, no source.
  edgeContrastCareStops: 0.5,
  // Two px are seen on a turning edge at full size, eight smear a label. Common practice, no source.
  runOutCarePx: 2,
  turnBlurCarePx: 2,
  turnBlurStopPx: 8,
  // Two parts in a hundred from frame to frame are at the threshold of seen flicker. Common practice, no source.
  flickerCareShare: 0.02,
  // Twice what a single highlight in glass may clip over: a turn shows each of them. Common practice, no source.
  turnClipCareShare: 0.01,
  // An iced drink looks its best for about five minutes under lights. Common practice, no source.
  heroTimeCareMin: 5,
  heroTimeStopMin: 2,
  // 20 mired is about an eighth-strength correction gel, 60 about a half. Common practice, no source.
  mixNoteMired: 20,
  mixCareMired: 60,
  // 0.006 is how far a white lamp may lie off its nominal colour (ANSI C78.377, quadrangles of +/- 0.006 Duv; from memory),
  // and a little more than a quarter-strength green gel; at twice that grey reads green or pink beside the other light.
  tintNoteDuv: 0.006,
  tintCareDuv: 0.012,
  // 80 %: the rating must be at least 1.25 times a load that runs for three hours or more (NEC 210.20(A)).
  circuitCareShare: 0.8,
  // About 2 kg at 1 m: what a stand of the usual size holds without a weight on its other side. Common practice, no source.
  boomCareNm: 20,
};

/** A tempered room, a drink from the refrigerator, and the weaker of the usual wall circuits. */
export const DEFAULT_ROOM: RoomConditions = {
  temperatureC: 22,
  drinkC: 6,
  mainsV: 230,
  mainsHz: 50,
  circuitA: 10,
};

/** Cinema rate; picture width of ultra-high-definition television (ITU-R BT.2020, 3840 x 2160). */
export const DEFAULT_CAPTURE: FrameCapture = { kind: 'turn', framesPerS: 24, pictureWidthPx: 3840 };

/**
 * Depth of the tones that a picture shows, in stops under clipping: what lies deeper reads as black, so ratios to it
 * are taken to this floor instead. Common practice, no source (the output curve is close to black there).
 */
export const BLACK_STOPS_UNDER_CLIPPING = 10;

/**
 * Smallest share of the frame that a reflection covers before it is graded; smaller ones are notes. 2 parts in 10 000
 * are a square of 1/87 of the width of a 3:2 frame: a highlight that size can be retouched in a minute. Common practice,
 * no source.
 */
export const REFLECTION_VISIBLE_SHARE = 0.0002;

/** A reflection in or through a glass piece is a wanted edge light until it clips over this share of the frame. */
export const GLASS_CLIP_CARE_SHARE = 0.005;

/** What shows in or through glass is worth a note from this far over its surroundings, and this far over black. */
export const GLASS_NOTE_STOPS = 1;
export const GLASS_NOTE_OVER_BLACK_STOPS = 2;

/** A reflection counts as seen in a cell of the frame when it adds at least this many stops to what is there. */
export const REFLECTION_SEEN_STOPS = 0.1;

/** A lamp in the frame this many stops over clipping spreads past its outline and can't be held by exposure. */
export const LAMP_IN_FRAME_STOP_STOPS = 1;

/**
 * Veiling glare index assumed for the lens: share of the illuminance on the front element that comes back as an even
 * veil. Photographic lenses show 0.5 to 3 % (ISO 9358 measurement; typical range from memory).
 */
export const VEILING_GLARE_INDEX = 0.015;

/** Veil that lifts black by less than this is negligible: a tenth of a stop is under what a meter repeats. */
export const VEIL_NEGLIGIBLE_STOPS = 0.1;

/** A fully lit lens is no more than care while the veil lifts black by less than this. Common practice, no source. */
export const VEIL_STOP_STOPS = 0.5;

/** A mirror image that is not graded is still worth a note from here on. Common practice, no source. */
export const REFLECTION_NOTE_STOPS = 0.5;

/** GGX alpha up to which a surface shows a recognisable image of a light; rougher ones spread it into a sheen. */
export const MIRROR_LIKE_ROUGHNESS = 0.15;
