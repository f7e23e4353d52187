import { rpmForBlur, turningSpeedMPerS } from '../../analysis/turn/motion.ts';
import { magnification } from '../../camera/lens.ts';
import { buildSet } from '../../scene/buildSet.ts';
import type { FrameScene } from '../../scene/setModel.ts';

/** Width of the picture that pixels are counted on unless another is asked for. */
export const USUAL_WIDTH_PX = 3840;

// The film and the check of the turntable reckon alike.
export {
  rpmForBlur,
  turningSpeedMPerS as surfaceSpeedMPerS,
  turnPerFrameDeg as degPerFrame,
} from '../../analysis/turn/motion.ts';

/** How far the picture of something that moves square to view smears while the shutter is open, px. */
export const blurPx = (radiusM: number, rpm: number, shutterS: number, pxPerM: number): number =>
  turningSpeedMPerS(radiusM, rpm) * shutterS * pxPerM;

/** Pixels to a metre at the subject, square to view, at magnification m on a sensor `sensorWidthM` wide. */
export const pxPerMAtSubject = (m: number, widthPx: number, sensorWidthM: number): number =>
  (m * widthPx) / sensorWidthM;

export interface TurnFigures {
  readonly rpm: number;
  readonly widthPx: number;
  readonly pxPerM: number;
  /** Widest turning radius of the hero, m. */
  readonly radiusM: number;
  readonly blurPx: number;
  /** At the hero's own radius and this shutter. */
  readonly rpmForOnePx: number;
  /** How far the hero swings from side to side over a turn, px: twice the run-out. */
  readonly runOutPx: number;
}

/**
 * Motion blur and wobble of a turning hero at its own distance. Null when there is no turntable, or it does not carry the
 * hero. Blur is that of the near side, which moves square to view; a rim seen edge-on moves less.
 */
export function turnFigures(scene: FrameScene, widthPx = USUAL_WIDTH_PX): TurnFigures | null {
  const { turntable, camera, subject } = scene;
  const bounds = turntable?.carries.includes(subject.pieceId)
    ? buildSet(scene).boundsByRecord.get(subject.pieceId)
    : undefined;
  if (!turntable || !bounds) return null;
  const [cx, , cz] = turntable.centreM;
  const radiusM = Math.max(
    Math.abs(bounds.minM[0] - cx),
    Math.abs(bounds.maxM[0] - cx),
    Math.abs(bounds.minM[2] - cz),
    Math.abs(bounds.maxM[2] - cz),
  );
  const m = magnification(camera.focalLengthMm / 1000, camera.focusDistanceM);
  const pxPerM = pxPerMAtSubject(m, widthPx, camera.sensorWidthMm / 1000);
  return {
    rpm: turntable.rpm,
    widthPx,
    pxPerM,
    radiusM,
    blurPx: blurPx(radiusM, turntable.rpm, camera.shutterS, pxPerM),
    rpmForOnePx: rpmForBlur(1, radiusM, camera.shutterS, pxPerM),
    runOutPx: 2 * turntable.runOutM * pxPerM,
  };
}
