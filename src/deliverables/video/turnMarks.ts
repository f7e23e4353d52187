import { projectPoint } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import { LUMINANCE_WEIGHTS_REC2020 } from '../../core/color/spaces.ts';
import { radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { Bounds, FrameScene } from '../../scene/setModel.ts';
import type { RgbImage } from '../image/linearImage.ts';
import type { LightImage } from '../still/developedPixels.ts';

/** A place in the picture, 0..1 from its upper left corner. */
export interface PlaceInFrame {
  readonly u: number;
  readonly v: number;
}

/** Part of the hero's own pixels that count as its highlight: as the check of the turn. */
const BRIGHT_SHARE = 0.03;
const MARK_RGB = [226, 163, 86] as const;

/**
 * Middle of the brightest part of the hero in a picture, by the light and not by the codes of the file; null when it is not
 * in the frame. Looks at the box of the hero, so a light right behind it counts as well.
 */
export function findHighlight(light: LightImage, view: CameraView, hero: Bounds): PlaceInFrame | null {
  const box = boxInPicture(light, view, hero);
  if (!box) return null;
  const found: { x: number; y: number; nits: number }[] = [];
  for (let y = box.y0; y < box.y1; y++) {
    for (let x = box.x0; x < box.x1; x++) {
      const k = 3 * (y * light.widthPx + x);
      const nits = LUMINANCE_WEIGHTS_REC2020.reduce((sum, weight, c) => sum + weight * light.rgb[k + c], 0);
      found.push({ x, y, nits });
    }
  }
  if (found.length === 0) return null;
  const brightest = found
    .sort((a, b) => b.nits - a.nits)
    .slice(0, Math.max(1, Math.round(found.length * BRIGHT_SHARE)));
  // Weighed by what each stands over the dimmest of them, so that a small highlight is not drawn off by what is round it.
  const least = brightest[brightest.length - 1].nits;
  const evenly = brightest[0].nits === least;
  const weightOf = ({ nits }: { readonly nits: number }): number => (evenly ? 1 : nits - least);
  const whole = brightest.reduce((sum, p) => sum + weightOf(p), 0);
  const mean = (of: (p: { readonly x: number; readonly y: number }) => number): number =>
    brightest.reduce((sum, p) => sum + weightOf(p) * of(p), 0) / whole;
  return { u: (mean(({ x }) => x) + 0.5) / light.widthPx, v: (mean(({ y }) => y) + 0.5) / light.heightPx };
}

function boxInPicture({ widthPx, heightPx }: LightImage, view: CameraView, { minM, maxM }: Bounds) {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) => {
    const at: Vec3 = [i & 1 ? maxM[0] : minM[0], i & 2 ? maxM[1] : minM[1], i & 4 ? maxM[2] : minM[2]];
    return projectPoint(view, at) ?? [];
  });
  if (corners.length < 8) return null;
  const clampTo = (most: number, value: number): number => Math.min(most, Math.max(0, value));
  const us = corners.map(({ u }) => u * widthPx);
  const vs = corners.map(({ v }) => v * heightPx);
  return {
    x0: clampTo(widthPx, Math.floor(Math.min(...us))),
    x1: clampTo(widthPx, Math.ceil(Math.max(...us))),
    y0: clampTo(heightPx, Math.floor(Math.min(...vs))),
    y1: clampTo(heightPx, Math.ceil(Math.max(...vs))),
  };
}

/** Foot and top of the axis of something that stands `runOutM` off the axis of the table, at an angle of the table. */
export interface RunOutLines {
  /** Farthest left and right that the hero's axis swings in the picture, and where it is now: u at foot and top. */
  readonly left: readonly [PlaceInFrame, PlaceInFrame];
  readonly right: readonly [PlaceInFrame, PlaceInFrame];
  readonly now: readonly [PlaceInFrame, PlaceInFrame];
}

/** Angles at which the swing is looked at. */
const SWING_STEPS = 72;

/** How the hero's own axis swings in the frame as the table turns; null when the table does not carry it in view. */
export function runOutLines(scene: FrameScene, view: CameraView, hero: Bounds, angleDeg: number): RunOutLines | null {
  const { turntable, subject } = scene;
  const piece = scene.pieces.find(({ id }) => id === subject.pieceId);
  if (!piece || !turntable?.carries.includes(subject.pieceId)) return null;
  const [cx, , cz] = turntable.centreM;
  const [ox, oz] = [piece.positionM[0] + turntable.runOutM - cx, piece.positionM[2] - cz];
  const lineAt = (deg: number): readonly [PlaceInFrame, PlaceInFrame] | null => {
    // Counter-clockwise from above: +x goes to -z.
    const [c, s] = [Math.cos(radFromDeg(deg)), Math.sin(radFromDeg(deg))];
    const [x, z] = [cx + ox * c + oz * s, cz - ox * s + oz * c];
    const foot = projectPoint(view, [x, hero.minM[1], z]);
    const top = projectPoint(view, [x, hero.maxM[1], z]);
    return foot && top ? [foot, top] : null;
  };
  const swing = Array.from({ length: SWING_STEPS }, (_, i) => lineAt((360 * i) / SWING_STEPS)).flatMap((l) =>
    l ? [l] : [],
  );
  const now = lineAt(angleDeg);
  if (!now || swing.length < SWING_STEPS) return null;
  const byFoot = [...swing].sort((a, b) => a[0].u - b[0].u);
  return { left: byFoot[0], right: byFoot[byFoot.length - 1], now };
}

/** Draws the swing into a picture: two thin lines at its ends and a heavier one where the axis is now. */
export function drawRunOut(image: RgbImage<Uint8Array>, { left, right, now }: RunOutLines): void {
  strokeLine(image, left, 0.5);
  strokeLine(image, right, 0.5);
  strokeLine(image, now, 1);
}

/** Draws where the highlight has been, and a ring where it is now. */
export function drawSweep(image: RgbImage<Uint8Array>, trail: readonly PlaceInFrame[]): void {
  trail.slice(1).forEach((place, i) => {
    strokeLine(image, [trail[i], place], 0.8);
  });
  const now = trail[trail.length - 1];
  if (!now) return;
  const radiusPx = Math.max(4, image.widthPx / 90);
  const steps = Math.ceil(8 * radiusPx);
  for (let i = 0; i < steps; i++) {
    const a = (2 * Math.PI * i) / steps;
    blend(image, now.u * image.widthPx + radiusPx * Math.cos(a), now.v * image.heightPx + radiusPx * Math.sin(a), 1);
  }
}

function strokeLine(
  image: RgbImage<Uint8Array>,
  [from, to]: readonly [PlaceInFrame, PlaceInFrame],
  weight: number,
): void {
  const [x0, y0] = [from.u * image.widthPx, from.v * image.heightPx];
  const [x1, y1] = [to.u * image.widthPx, to.v * image.heightPx];
  const steps = Math.max(1, Math.ceil(2 * Math.hypot(x1 - x0, y1 - y0)));
  for (let i = 0; i <= steps; i++) blend(image, x0 + ((x1 - x0) * i) / steps, y0 + ((y1 - y0) * i) / steps, weight);
}

function blend({ widthPx, heightPx, rgb }: RgbImage<Uint8Array>, x: number, y: number, weight: number): void {
  const [px, py] = [Math.floor(x), Math.floor(y)];
  if (px < 0 || py < 0 || px >= widthPx || py >= heightPx) return;
  const k = 3 * (py * widthPx + px);
  MARK_RGB.forEach((code, c) => {
    rgb[k + c] = Math.round(rgb[k + c] + weight * (code - rgb[k + c]));
  });
}
