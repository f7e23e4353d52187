import { whiteBalanceMatrix } from '../core/color/adapt.ts';
import { diagonalMatrix3, type Matrix3, multiplyMatrix3 } from '../core/matrix3.ts';
import { cameraExposure } from './exposure.ts';
import type { Camera } from './records.ts';
import { TONE_CURVE, type ToneCurve } from './toneCurve.ts';

/** What a camera's settings do to scene light, worked out once per picture. */
export interface DevelopParams {
  /** White balance, working RGB to working RGB, before exposure. */
  readonly whiteBalance: Matrix3;
  /** Sensor exposure per cd/m2: 1 over the luminance that clips. */
  readonly scale: number;
  /** White balance and exposure in one: cd/m2 to sensor exposure, working RGB; 1 clips. */
  readonly sensorFromNits: Matrix3;
  readonly saturationLuminanceNits: number;
  readonly middleLuminanceNits: number;
  readonly curve: ToneCurve;
}

/** Settings of a camera as {@link DevelopParams}: white balance, ISO, shutter and the effective stop. */
export function developParams(camera: Camera): DevelopParams {
  const { saturationLuminanceNits, middleLuminanceNits } = cameraExposure(camera);
  const whiteBalance = whiteBalanceMatrix(camera.whiteBalanceK);
  const scale = 1 / saturationLuminanceNits;
  return {
    whiteBalance,
    scale,
    sensorFromNits: multiplyMatrix3(diagonalMatrix3([scale, scale, scale]), whiteBalance),
    saturationLuminanceNits,
    middleLuminanceNits,
    curve: TONE_CURVE,
  };
}
