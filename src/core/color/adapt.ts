import { applyMatrix3, diagonalMatrix3, invertMatrix3, type Matrix3, multiplyMatrix3 } from '../matrix3.ts';
import type { Vec3 } from '../vec3.ts';
import { xyFromCct } from './source.ts';
import { D65_XY, REC2020_FROM_XYZ, XYZ_FROM_REC2020, xyzFromXy } from './spaces.ts';

/**
 * Cone responses of the Bradford transform (K. M. Lam, 1985; matrix as in ICC.1:2022, annex E).
 */
export const BRADFORD: Matrix3 = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];
const BRADFORD_INVERSE = invertMatrix3(BRADFORD);

/** XYZ to XYZ: colours seen under `sourceWhiteXyz` to colours that look alike under `targetWhiteXyz`. */
export function adaptationMatrix(sourceWhiteXyz: Vec3, targetWhiteXyz: Vec3): Matrix3 {
  const source = applyMatrix3(BRADFORD, sourceWhiteXyz);
  const target = applyMatrix3(BRADFORD, targetWhiteXyz);
  const gain = diagonalMatrix3([target[0] / source[0], target[1] / source[1], target[2] / source[2]]);
  return multiplyMatrix3(BRADFORD_INVERSE, multiplyMatrix3(gain, BRADFORD));
}

/**
 * White balance of a camera set to `cctK`: working RGB to working RGB. Light of that colour temperature on the
 * Planckian locus and of luminance Y comes out as (Y, Y, Y).
 */
export function whiteBalanceMatrix(cctK: number): Matrix3 {
  const adapt = adaptationMatrix(xyzFromXy(xyFromCct(cctK)), xyzFromXy(D65_XY));
  return multiplyMatrix3(REC2020_FROM_XYZ, multiplyMatrix3(adapt, XYZ_FROM_REC2020));
}
