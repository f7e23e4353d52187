import type { OpticalSurface } from '../../materials/surface.ts';
import { boundsOfShape, uniteBounds } from '../../scene/bounds.ts';
import type { Bounds } from '../../scene/setModel.ts';
import type { CheckInput } from '../contracts.ts';

/** Slack at the ends of a profile piece. */
const END_M = 1e-6;

/**
 * Half width of a record at a height, metres: the largest radius of its turned surfaces there, or half the mean width of
 * its flat ones and meshes. 0 where it has nothing.
 */
export function outerRadiusAtM({ set }: Pick<CheckInput, 'set'>, recordId: string, heightM: number): number {
  let mostM = 0;
  let flat: Bounds | null = null;
  for (const surface of set.surfaces) {
    if (surface.recordId !== recordId) continue;
    const radiusM = turnedRadiusM(surface, heightM);
    if (radiusM !== null) {
      mostM = Math.max(mostM, radiusM);
      continue;
    }
    const own = boundsOfShape(surface);
    if (heightM < own.minM[1] || heightM > own.maxM[1]) continue;
    flat = flat ? uniteBounds(flat, own) : own;
  }
  return flat ? Math.max(mostM, (flat.maxM[0] - flat.minM[0] + flat.maxM[2] - flat.minM[2]) / 4) : mostM;
}

/** The largest of {@link outerRadiusAtM} between two heights, at `steps` places. */
export function widestRadiusM(
  input: Pick<CheckInput, 'set'>,
  recordId: string,
  lowM: number,
  highM: number,
  steps = 9,
): number {
  let mostM = 0;
  for (let i = 0; i < steps; i++) {
    const heightM = lowM + ((i + 0.5) / steps) * (highM - lowM);
    mostM = Math.max(mostM, outerRadiusAtM(input, recordId, heightM));
  }
  return mostM;
}

/** Radius of an upright whole turned surface at a height, 0 where it has none there; null for any other surface. */
function turnedRadiusM(surface: OpticalSurface, heightM: number): number | null {
  const { shape, worldFromLocal } = surface;
  const isUpright = worldFromLocal.rotation[4] > 1 - 1e-9;
  if (isUpright && shape.type === 'revolvedLine' && !shape.azimuth) {
    const y = heightM - worldFromLocal.translationM[1];
    const [low, high] = [Math.min(shape.y0M, shape.y1M), Math.max(shape.y0M, shape.y1M)];
    if (y < low - END_M || y > high + END_M) return 0;
    const span = shape.y1M - shape.y0M;
    if (Math.abs(span) < 2 * END_M) return Math.max(shape.r0M, shape.r1M);
    const t = Math.min(1, Math.max(0, (y - shape.y0M) / span));
    return shape.r0M + t * (shape.r1M - shape.r0M);
  }
  if (isUpright && shape.type === 'revolvedArc' && !shape.azimuth) {
    const s = (heightM - worldFromLocal.translationM[1] - shape.centreYM) / shape.radiusM;
    if (Math.abs(s) > 1) return 0;
    const [from, to] = [Math.min(shape.angle0Rad, shape.angle1Rad), Math.max(shape.angle0Rad, shape.angle1Rad)];
    const a = Math.asin(s);
    return [a, Math.PI - a]
      .filter((angle) => isWithin(angle, from, to))
      .reduce((most, angle) => Math.max(most, shape.centreRM + shape.radiusM * Math.cos(angle)), 0);
  }
  return null;
}

function isWithin(angle: number, from: number, to: number): boolean {
  const turn = 2 * Math.PI;
  const past = (((angle - from) % turn) + turn) % turn;
  return past <= to - from + 1e-9 || past >= turn - 1e-9;
}
